import { useEffect, useState } from "preact/hooks";
import type { Host } from "../../src/hosts/index.ts";
import { freeSheetName, type Plan } from "../../src/sheet/index.ts";
import { problemOfName } from "../build/fields.ts";
import { isLeft, namesWith } from "../build/outcome.ts";
import { whyNot } from "../loading.ts";
import { SheetButton } from "../sheetButton.tsx";
import { isCancelled, useBuild } from "../useBuild.ts";

interface Props {
  /** Of the elements: unique in the panel. */
  readonly id: string;
  readonly host: Host;
  /** The name suggested, without regard to those in use. */
  readonly wanted: string;
  readonly button: string;
  /** What is being made, as in “the validation sheet”. */
  readonly what: string;
  readonly disabled?: boolean;
  readonly make: () => Promise<Plan>;
  readonly done: (sheet: string) => void;
}

/** Name, button, progress and cancel of a new sheet; whatever fails leaves none in the workbook. */
export function NewSheet({ id, host, wanted, button, what, disabled = false, make, done }: Props) {
  const [name, setName] = useState("");
  const [taken, setTaken] = useState<readonly string[]>([]);
  const [failure, setFailure] = useState("");
  const { step, cancel, run } = useBuild();
  useEffect(() => {
    let live = true;
    host.sheetNames().then(
      (names) => {
        if (!live) return;
        setTaken(names);
        setName(freeSheetName(wanted, names));
      },
      (error: unknown) => {
        if (live) setFailure(`The workbook's sheets could not be listed: ${whyNot(error)}`);
      },
    );
    return () => {
      live = false;
    };
  }, [host, wanted]);
  const problem = name === "" && taken.length === 0 ? undefined : problemOfName(name, taken);
  const build = (event: Event): void => {
    event.preventDefault();
    if (problem !== undefined) {
      document.getElementById(id)?.focus();
      return;
    }
    void run(
      "preparing",
      async ({ signal, progress }) => {
        setFailure("");
        const plan = await make();
        signal.throwIfAborted();
        const { sheet } = await host.apply(plan, { sheetName: name.trim(), progress, signal });
        done(sheet);
        const names = await namesWith(host, taken, sheet);
        setTaken(names);
        setName(freeSheetName(wanted, names));
      },
      (error) => {
        const left = isLeft(error) ? "part of it is still" : "nothing was left";
        setFailure(
          isCancelled(error)
            ? "Cancelled. No sheet was left in the workbook."
            : `${what[0]!.toUpperCase()}${what.slice(1)} was not made and ${left} in the workbook: ${whyNot(error)}`,
        );
      },
    );
  };
  return (
    <form noValidate onSubmit={build}>
      <div class="kb-field kb-newname">
        <label for={id}>Name of the new sheet</label>
        <input
          id={id}
          type="text"
          value={name}
          autocomplete="off"
          spellcheck={false}
          aria-invalid={problem ? "true" : "false"}
          aria-describedby={`${id}-problem`}
          onInput={(event) => setName(event.currentTarget.value)}
        />
        <div id={`${id}-problem`} class="kb-problem" aria-live="polite">
          {problem}
        </div>
      </div>
      <div role="alert">{failure && <p class="kb-problem">{failure}</p>}</div>
      <SheetButton
        id={`${id}-progress`}
        label={button}
        doing={`Making ${what}`}
        step={step}
        disabled={disabled}
        cancel={cancel}
      />
    </form>
  );
}
