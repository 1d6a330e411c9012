import { useEffect, useState } from "preact/hooks";
import type { Host } from "../../src/hosts/index.ts";
import { whyNot } from "../loading.ts";

/**
 * Whether the sheet that a result is about still stands in the workbook, asked whenever something is selected or computed.
 * A sheet of that name that is built later is another: the result has gone by then.
 */
export function useStillThere(host: Host, sheet: string | undefined, result: object | undefined): boolean {
  const [gone, setGone] = useState<object>();
  useEffect(() => {
    if (sheet === undefined || result === undefined) return;
    let live = true;
    const ask = (): void => {
      host.sheetNames().then(
        (names) => {
          if (live && !names.includes(sheet)) setGone(result);
        },
        // It is asked again with the next selection.
        (error: unknown) => console.warn(`The names of the sheets could not be read: ${whyNot(error)}`),
      );
    };
    const ends = [host.onSelection(ask), host.onCalculated(ask)];
    return () => {
      live = false;
      for (const end of ends) end();
    };
  }, [host, sheet, result]);
  return result === undefined || gone !== result;
}

/** Where a result stood whose sheet is gone. */
export const goneText = (sheet: string): string =>
  `“${sheet}” is no longer in the workbook; what was found of it is not shown any more.`;
