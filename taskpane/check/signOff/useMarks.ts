import type { RefObject } from "preact";
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import {
  progressOf,
  readMarks,
  readRevisions,
  recognise,
  type BlockProgress,
  type EnteredCell,
  type Mark,
  type Recognised,
  type RevisionTable,
} from "../../../src/checker/index.ts";
import type { Host } from "../../../src/hosts/index.ts";
import { whyNot } from "../../loading.ts";

/** What is known of a sheet and its marks. */
export interface Marked {
  readonly recognised: Recognised;
  readonly marks: readonly Mark[];
  readonly progress: readonly BlockProgress[];
  readonly revisions: RevisionTable | undefined;
}

export type MarkedSheet = { readonly sheet: string; readonly marked: Marked | undefined };

async function look(host: Host, sheet: string): Promise<MarkedSheet> {
  const recognised = await recognise(host, sheet);
  if (!recognised) return { sheet, marked: undefined };
  const marks = readMarks(recognised);
  return {
    sheet,
    marked: { recognised, marks, progress: progressOf(recognised, marks), revisions: readRevisions(recognised) },
  };
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
  readonly problem: string;
  readonly again: () => Promise<void>;
  /** Reads the sheet, asks for cells and enters them; whether they stand on it. */
  readonly enter: (cells: (recognised: Recognised) => readonly EnteredCell[]) => Promise<boolean>;
} {
  const [seen, setSeen] = useState<MarkedSheet>();
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState("");
  const turn = useRef(0);
  const again = useCallback(async (): Promise<void> => {
    if (sheet === undefined) return;
    const mine = ++turn.current;
    setBusy(true);
    try {
      const found = await look(host, sheet);
      if (mine === turn.current) setSeen(found);
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
    try {
      const recognised = await recognise(host, sheet);
      if (!recognised) throw new Error("it no longer says which template built it");
      await host.enterAll(sheet, cells(recognised));
    } catch (error) {
      setProblem(`Nothing was written: ${whyNot(error)}.`);
      return false;
    }
    await again();
    return true;
  };
  return { seen, busy, problem, again, enter };
}
