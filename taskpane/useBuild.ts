import { useRef, useState } from "preact/hooks";
import type { Running } from "./build/running.ts";
import type { Step } from "./sheetButton.tsx";

/** What work that takes a while is given. */
export interface Work {
  readonly signal: AbortSignal;
  readonly progress: (done: number, of: number, what: string) => void;
}

export interface Build {
  /** How far it is; undefined while nothing is being done. */
  readonly step: Step | undefined;
  readonly cancel: () => void;
  /**
   * Does some work unless other work is being done, which is then left alone. `first`: what is shown at its beginning.
   * `failed` is told what it throws, a cancellation too.
   */
  readonly run: (
    first: string,
    work: (parts: Work) => Promise<void>,
    failed: (error: unknown) => void,
  ) => Promise<void>;
}

/** Work of a form that can be cancelled, one at a time; `running`: nor beside that of other forms. */
export function useBuild(running?: Running): Build {
  const [step, setStep] = useState<Step>();
  const abort = useRef<AbortController>();
  return {
    step,
    cancel: () => abort.current?.abort(),
    run: async (first, work, failed) => {
      if (abort.current || running?.isNow()) return;
      const release = running?.hold();
      const { signal } = (abort.current = new AbortController());
      setStep({ done: 0, of: 0, what: first });
      try {
        // One frame for the progress to show before the work takes the thread.
        await new Promise((next) => setTimeout(next, 20));
        await work({ signal, progress: (done, of, what) => setStep({ done, of, what }) });
      } catch (error) {
        failed(error);
      } finally {
        abort.current = undefined;
        setStep(undefined);
        release?.();
      }
    },
  };
}

/** Whether work ended because somebody pressed Cancel. */
export const isCancelled = (error: unknown): boolean => error instanceof Error && error.name === "AbortError";
