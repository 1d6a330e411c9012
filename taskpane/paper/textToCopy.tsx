import { useState } from "preact/hooks";
import { whyNot } from "../loading.ts";

interface Props {
  readonly text: string;
  readonly fileName: string;
  /** Saving it did not work: it is shown at once. */
  readonly open: boolean;
}

/** The text of a file that the program may have kept to itself. */
export function TextToCopy({ text, fileName, open }: Props) {
  const [said, setSaid] = useState("");
  const [problem, setProblem] = useState("");
  const copy = async (): Promise<void> => {
    setSaid("");
    setProblem("");
    try {
      await navigator.clipboard.writeText(text);
      setSaid("Copied.");
    } catch (error) {
      setProblem(`Copying did not work: ${whyNot(error)}. Select the text below and copy it.`);
    }
  };
  return (
    <details open={open}>
      <summary>{open ? "The text" : `No file ${fileName} among your downloads?`}</summary>
      {!open && (
        <p class="kb-hint">Some programs let no file out of a panel. Copy the text, and keep it under that name.</p>
      )}
      <button type="button" onClick={() => void copy()}>
        Copy the text
      </button>
      <p class="kb-hint" role="status">
        {said}
      </p>
      {problem && (
        <p class="kb-problem" role="alert">
          {problem}
        </p>
      )}
      <textarea
        class="kb-papertext"
        readOnly
        rows={4}
        aria-label={`Text of ${fileName}`}
        value={text}
        onFocus={(event) => event.currentTarget.select()}
      />
    </details>
  );
}
