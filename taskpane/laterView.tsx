import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import { NotLoaded } from "./notLoaded.tsx";

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
  const [failed, setFailed] = useState<{ readonly error: unknown }>();
  const [attempt, setAttempt] = useState(0);
  useEffect(() => {
    let live = true;
    setFailed(undefined);
    load().then(
      (View) => {
        if (live) setLoaded({ View });
      },
      (error: unknown) => {
        if (live) setFailed({ error });
      },
    );
    return () => {
      live = false;
    };
  }, [load, title, attempt]);
  if (loaded) return <loaded.View {...given} />;
  return failed ? <NotLoaded title={title} error={failed.error} again={() => setAttempt((n) => n + 1)} /> : null;
}
