import type { RefObject } from "preact";
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { recognise, type EnteredCell, type Recognised } from "../../../src/checker/index.ts";
import type { Host } from "../../../src/hosts/index.ts";
import { whyNot } from "../../loading.ts";
import { markedOf, withCellsNow, type Marked } from "./marked.ts";

export type MarkedSheet = { readonly sheet: string; readonly marked: Marked | undefined };

async function look(host: Host, sheet: string): Promise<MarkedSheet> {
  const recognised = await recognise(host, sheet);
  return { sheet, marked: recognised && markedOf(recognised) };
}

/** Sheets are computed in several steps; after the last one they are read. */
const quiet = 600;

/**
 * The marks of a sheet, read again after every calculation: while they stand in `place` where they are looked at, else
 * as soon as they are.
 */
export function useMarks(
  host: Host,
  sheet: string | undefined,
  place: RefObject<HTMLElement>,
): {
  readonly seen: MarkedSheet | undefined;
  readonly busy: boolean;
  /** Whether cells are being entered: that takes as long as the sheet takes to compute. */
  readonly writing: boolean;
  readonly problem: string;
  readonly again: () => Promise<void>;
  /** Reads the sheet, asks for cells and enters them; whether they stand on it. */
  readonly enter: (cells: (recognised: Recognised) => readonly EnteredCell[]) => Promise<boolean>;
} {
  const [seen, setSeen] = useState<MarkedSheet>();
  const [busy, setBusy] = useState(false);
  const [writing, setWriting] = useState(false);
  const [problem, setProblem] = useState("");
  const turn = useRef(0);
  /** The turn of what is shown: what was begun before it is out of date, what was begun after it is not. */
  const turnShown = useRef(0);
  const put = (mine: number, found: MarkedSheet): void => {
    if (mine < turnShown.current) return;
    turnShown.current = mine;
    setSeen(found);
  };
  const again = useCallback(async (): Promise<void> => {
    if (sheet === undefined) return;
    const mine = ++turn.current;
    setBusy(true);
    try {
      const found = await look(host, sheet);
      put(mine, found);
    } catch (error) {
      if (mine === turn.current) setProblem(`The sheet could not be read: ${whyNot(error)}.`);
    }
    if (mine === turn.current) setBusy(false);
  }, [host, sheet]);
  useEffect(() => {
    setProblem("");
    void again();
    let waiting: ReturnType<typeof setTimeout> | undefined;
    let missed = false;
    const end = host.onCalculated(() => {
      clearTimeout(waiting);
      waiting = setTimeout(() => {
        missed = place.current?.offsetParent === null;
        if (!missed) void again();
      }, quiet);
    });
    const shown = new IntersectionObserver((entries) => {
      if (!missed || !entries.some((entry) => entry.isIntersecting)) return;
      missed = false;
      void again();
    });
    if (place.current) shown.observe(place.current);
    return () => {
      clearTimeout(waiting);
      shown.disconnect();
      end();
    };
  }, [host, again, place]);
  const enter = async (cells: (recognised: Recognised) => readonly EnteredCell[]): Promise<boolean> => {
    if (sheet === undefined) return false;
    setProblem("");
    setWriting(true);
    let read: Recognised | undefined;
    let written: readonly EnteredCell[] = [];
    try {
      read = await recognise(host, sheet);
      if (!read) throw new Error("it no longer says which template built it");
      written = cells(read);
      await host.enterAll(sheet, written);
    } catch (error) {
      setProblem(`Nothing was written: ${whyNot(error)}.`);
      setWriting(false);
      return false;
    }
    // What was written shows at once; then the whole sheet is read again, which takes a while.
    const mine = ++turn.current;
    try {
      put(mine, { sheet, marked: markedOf(await withCellsNow(host, read, written)) });
    } catch (error) {
      setProblem(`The sheet could not be read: ${whyNot(error)}.`);
    }
    setWriting(false);
    void again();
    return true;
  };
  return { seen, busy, writing, problem, again, enter };
}
