import { useEffect, useState } from "preact/hooks";
import type { Host } from "../src/hosts/index.ts";

/** A burst of calculations counts once, when it is over. */
const settle = 250;

/** Counts calculations of the workbook, so that what a sheet says is read again after each; and a way to count one more. */
export function useCalculations(host: Host): readonly [count: number, another: () => void] {
  const [count, setCount] = useState(0);
  const another = (): void => setCount((n) => n + 1);
  useEffect(() => {
    let wait: ReturnType<typeof setTimeout> | undefined;
    const end = host.onCalculated(() => {
      clearTimeout(wait);
      wait = setTimeout(another, settle);
    });
    return () => {
      clearTimeout(wait);
      end();
    };
  }, [host]);
  return [count, another];
}
