import { useEffect, useRef, useState } from "preact/hooks";
import type { Host } from "../../src/hosts/index.ts";
import { freeSheetName, type Plan } from "../../src/sheet/index.ts";
import { problemOfName } from "../build/fields.ts";
import { isLeft, namesWith } from "../build/outcome.ts";
import { whyNot } from "../loading.ts";
import { SheetButton, type Step } from "../sheetButton.tsx";

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
  const [step, setStep] = useState<Step>();
  const [failure, setFailure] = useState("");
  const abort = useRef<AbortController>();
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
  const build = async (event: Event): Promise<void> => {
    event.preventDefault();
    if (abort.current) return;
    setFailure("");
    if (problem !== undefined) {
      document.getElementById(id)?.focus();
      return;
    }
    const { signal } = (abort.current = new AbortController());
    setStep({ done: 0, of: 0, what: "preparing" });
    try {
      // One frame for the progress to show before the work takes the thread.
      await new Promise((next) => setTimeout(next, 20));
      const plan = await make();
      signal.throwIfAborted();
      const { sheet } = await host.apply(plan, {
        sheetName: name.trim(),
        progress: (n, of, doing) => setStep({ done: n, of, what: doing }),
        signal,
      });
      done(sheet);
      const names = await namesWith(host, taken, sheet);
      setTaken(names);
      setName(freeSheetName(wanted, names));
    } catch (error) {
      const name = error instanceof Error ? error.name : "";
      const left = isLeft(error) ? "part of it is still" : "nothing was left";
      setFailure(
        name === "AbortError"
          ? "Cancelled. No sheet was left in the workbook."
          : `${what[0]!.toUpperCase()}${what.slice(1)} was not made and ${left} in the workbook: ${whyNot(error)}`,
      );
    } finally {
      abort.current = undefined;
      setStep(undefined);
    }
  };
  return (
    <form noValidate onSubmit={(event) => void build(event)}>
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
        cancel={() => abort.current?.abort()}
      />
    </form>
  );
}
