import { useState } from "preact/hooks";
import { whyNot } from "../loading.ts";
import { WorkButton } from "../workButton.tsx";
import { printDocument, saveDocument } from "./print.ts";

interface Props {
  /** What is printed, as in “Print the list of findings”. */
  readonly title: string;
  /** With its ending `.html`. */
  readonly fileName: string;
  /** Makes the whole HTML document, with its own style, whose rules bear on classes of its own alone. */
  readonly make: () => Promise<string>;
}

/** Prints a document or hands it over as a file; where neither works, its text can be copied. */
export function Paper({ title, fileName, make }: Props) {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState("");
  const [saved, setSaved] = useState<string>();
  const [copied, setCopied] = useState(false);
  const hand = (what: string, over: (text: string) => void | Promise<void>): void => {
    setBusy(true);
    setProblem("");
    setCopied(false);
    setSaved(undefined);
    void (async () => {
      let text: string | undefined;
      try {
        text = await make();
        await over(text);
      } catch (error) {
        setProblem(
          `${what} did not work: ${whyNot(error)}.${text === undefined ? "" : " The text below can be copied into a file of your own."}`,
        );
        setSaved(text);
      }
      setBusy(false);
    })();
  };
  const print = (): void => hand("Printing", printDocument);
  const save = (): void =>
    hand("Saving", (text) => {
      saveDocument(text, fileName);
      setSaved(text);
    });
  const copy = (text: string): void => {
    void (async () => {
      try {
        await navigator.clipboard.writeText(text);
        setCopied(true);
      } catch (error) {
        setProblem(`Copying did not work: ${whyNot(error)}. Select the text below and copy it.`);
      }
    })();
  };
  return (
    <div class="kb-paperwork" role="group" aria-label={title}>
      <div class="kb-pick">
        <WorkButton busy={busy} act={print}>
          Print
        </WorkButton>
        <WorkButton busy={busy} act={save}>
          Save as HTML file
        </WorkButton>
      </div>
      <div role="status">
        {busy && <p class="kb-hint">Writing …</p>}
        {copied && <p class="kb-hint">Copied.</p>}
      </div>
      {problem && (
        <p class="kb-problem" role="alert">
          {problem}
        </p>
      )}
      {saved !== undefined && (
        <details open={problem !== ""}>
          <summary>{problem ? "The text" : `No file ${fileName} among your downloads?`}</summary>
          {!problem && (
            <p class="kb-hint">Some programs let no file out of a panel. Copy the text, and keep it under that name.</p>
          )}
          <button type="button" onClick={() => copy(saved)}>
            Copy the text
          </button>
          <textarea
            class="kb-papertext"
            readOnly
            rows={4}
            aria-label={`Text of ${fileName}`}
            value={saved}
            onFocus={(event) => event.currentTarget.select()}
          />
        </details>
      )}
    </div>
  );
}
