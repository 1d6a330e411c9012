import { useState } from "preact/hooks";
import { problemsOf } from "../build/officeDefaults.ts";
import { Problems } from "../problems.tsx";
import { isCancelled, useBuild } from "../useBuild.ts";
import { takeTemplate } from "./reading.ts";

interface Props {
  /** Of the elements: unique in the panel. */
  readonly id: string;
  readonly label: string;
  /** Told before anything is taken. */
  readonly touch?: () => void;
}

/** Takes files of templates, one or several, with how far it is. */
export function ChooseFiles({ id, label, touch }: Props) {
  const [problems, setProblems] = useState<readonly string[]>([]);
  const [news, setNews] = useState<readonly string[]>([]);
  const { step, cancel, run } = useBuild();
  const take = (files: readonly File[]): Promise<void> =>
    run(
      `reading ${files[0]!.name}`,
      async ({ signal, progress }) => {
        setProblems([]);
        setNews([]);
        for (const file of files) {
          try {
            progress(0, 0, `reading ${file.name}`);
            const contents = new Uint8Array(await file.arrayBuffer());
            const told = (done: number, of: number): void => progress(done, of, `checking ${file.name}`);
            const notKept = await takeTemplate(file.name, contents, { signal, progress: told });
            setNews((now) => [...now, notKept ?? `${file.name} is loaded and kept in this browser.`]);
          } catch (error) {
            if (isCancelled(error)) throw error;
            setProblems((now) => [...now, `${file.name} was not taken:`, ...problemsOf(error)]);
          }
        }
      },
      (error) =>
        setProblems(isCancelled(error) ? ["Cancelled: what was not checked yet was not taken."] : problemsOf(error)),
    );
  return (
    <>
      <p>
        <label for={id}>{label}: </label>
        <input
          id={id}
          class="kb-files"
          type="file"
          accept=".json,application/json"
          multiple
          disabled={step !== undefined}
          onChange={(event) => {
            const input = event.currentTarget;
            const files = [...(input.files ?? [])];
            touch?.();
            if (files.length > 0) void take(files).then(() => (input.value = ""));
          }}
        />
      </p>
      {step && (
        <div class="kb-progress">
          <label for={`${id}-progress`}>{step.what} …</label>
          <progress id={`${id}-progress`} {...(step.of > 0 && { value: step.done, max: step.of })} />
          <button type="button" onClick={cancel}>
            Cancel
          </button>
        </div>
      )}
      <div role="status">
        {news.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </div>
      <Problems texts={problems} />
    </>
  );
}
