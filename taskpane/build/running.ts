import { useRef, useState } from "preact/hooks";

/** Whether a sheet is being built: what shows how far it is stays in view, and no other build starts beside it. */
export interface Running {
  readonly some: boolean;
  /** As of this moment, for what was made before. */
  readonly isNow: () => boolean;
  /** From now until the function it gives is called. */
  readonly hold: () => () => void;
}

export function useRunning(): Running {
  const [count, setCount] = useState(0);
  const now = useRef(0);
  const change = (by: number): void => {
    now.current += by;
    setCount(now.current);
  };
  const hold = (): (() => void) => {
    let isHeld = true;
    change(1);
    return () => {
      if (isHeld) change(-1);
      isHeld = false;
    };
  };
  return { some: count > 0, isNow: () => now.current > 0, hold };
}
