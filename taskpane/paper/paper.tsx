import { useState } from "preact/hooks";
import { whyNot } from "../loading.ts";
import { WorkButton } from "../workButton.tsx";
import { printDocument, saveText } from "./print.ts";
import { TextToCopy } from "./textToCopy.tsx";

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
  const hand = (what: string, over: (text: string) => void | Promise<void>): void => {
    setBusy(true);
    setProblem("");
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
      saveText(text, fileName);
      setSaved(text);
    });
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
      <div role="status">{busy && <p class="kb-hint">Writing …</p>}</div>
      {problem && (
        <p class="kb-problem" role="alert">
          {problem}
        </p>
      )}
      {saved !== undefined && <TextToCopy text={saved} fileName={fileName} open={problem !== ""} />}
    </div>
  );
}
