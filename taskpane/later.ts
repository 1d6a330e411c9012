import { useEffect, useState } from "preact/hooks";

/** What loads later: nothing yet, the thing itself, or why it did not come and another attempt. */
export interface Later<T> {
  readonly loaded?: { readonly it: T };
  readonly failed?: { readonly error: unknown };
  readonly again: () => void;
}

/** Loads at once, and anew with another `load`: the same function each time. */
export function useLater<T>(load: () => Promise<T>): Later<T> {
  const [state, setState] = useState<Omit<Later<T>, "again">>({});
  const [attempt, setAttempt] = useState(0);
  useEffect(() => {
    let live = true;
    setState({});
    load().then(
      (it) => {
        if (live) setState({ loaded: { it } });
      },
      (error: unknown) => {
        if (live) setState({ failed: { error } });
      },
    );
    return () => {
      live = false;
    };
  }, [load, attempt]);
  return { ...state, again: () => setAttempt((n) => n + 1) };
}
