import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import { reasonOf } from "../src/core/index.ts";

interface Props<Given extends object> {
  /** What is loaded, as in “Trace could not be loaded”. */
  readonly title: string;
  /** The same function each time. */
  readonly load: () => Promise<ComponentType<Given>>;
  readonly given: Given;
}

/** A view whose code is loaded when it is first shown, so that the panel itself opens sooner. */
export function LaterView<Given extends object>({ title, load, given }: Props<Given>) {
  const [loaded, setLoaded] = useState<{ readonly View: ComponentType<Given> }>();
  const [problem, setProblem] = useState("");
  const [attempt, setAttempt] = useState(0);
  useEffect(() => {
    let live = true;
    setProblem("");
    load().then(
      (View) => {
        if (live) setLoaded({ View });
      },
      (error: unknown) => {
        if (live)
          setProblem(
            `${title} could not be loaded: ${reasonOf(error)}. Try again, or close the panel and open it again.`,
          );
      },
    );
    return () => {
      live = false;
    };
  }, [load, title, attempt]);
  if (loaded) return <loaded.View {...given} />;
  return problem ? (
    <>
      <p class="kb-problem" role="alert">
        {problem}
      </p>
      <button type="button" onClick={() => setAttempt((n) => n + 1)}>
        Try again
      </button>
    </>
  ) : null;
}
