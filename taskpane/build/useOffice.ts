import { useEffect, useRef, useState } from "preact/hooks";
import type { OfficeDefaults } from "../../src/office/index.ts";
import type { Engine } from "../engine.ts";
import { forgetOffice, keepOffice, keptOffice, problemsOf } from "./officeDefaults.ts";

/** The defaults of the office: those kept in this browser, of a file just chosen, or none. */
export interface Office {
  readonly defaults: OfficeDefaults | undefined;
  /** Being read: a sheet built now would be without them. */
  readonly isReading: boolean;
  /** Why those kept in this browser were not taken. */
  readonly refused: readonly string[];
  readonly readAgain: () => void;
  /** Reads a chosen file and keeps it. Throws where it is refused: the defaults are as they were. */
  readonly take: (bytes: ArrayBuffer) => Promise<void>;
  /** Others chosen from the same file. */
  readonly choose: (defaults: OfficeDefaults) => void;
  readonly useNone: () => void;
}

/** Beside a button that builds with them. */
export const waitsForOffice = "Reading the office’s defaults … Building waits for them.";

/** Reads what is kept as soon as it is asked for: all templates load for it. Of several attempts the last one counts. */
export function useOffice(engine: Engine, isAsked: boolean): Office {
  const [defaults, setDefaults] = useState<OfficeDefaults>();
  const [refused, setRefused] = useState<readonly string[]>([]);
  const [reading, setReading] = useState<"kept" | "file">();
  /** What is kept was read, refused, or replaced. */
  const [isSettled, setSettled] = useState(false);
  const turn = useRef(0);
  const settled = useRef(false);
  const next = (): (() => boolean) => {
    const mine = (turn.current += 1);
    return () => mine === turn.current;
  };
  const settle = (now: OfficeDefaults | undefined, why: readonly string[]): void => {
    settled.current = true;
    setSettled(true);
    setDefaults(now);
    setRefused(why);
    setReading(undefined);
  };
  const readKept = (): void => {
    const isLast = next();
    setReading("kept");
    keptOffice(engine).then(
      (kept) => {
        if (isLast()) settle(kept, []);
      },
      (error: unknown) => {
        if (isLast()) settle(undefined, problemsOf(error));
      },
    );
  };
  const asked = useRef(false);
  useEffect(() => {
    if (!isAsked || asked.current) return;
    asked.current = true;
    readKept();
  }, [engine, isAsked]);

  const take = async (bytes: ArrayBuffer): Promise<void> => {
    const isLast = next();
    setReading("file");
    try {
      const taken = await keepOffice(bytes, engine, isLast);
      if (isLast()) settle(taken, []);
    } catch (error) {
      if (isLast()) {
        setReading(undefined);
        // The file came before what is kept was read: that still counts.
        if (!settled.current) readKept();
      }
      throw error;
    }
  };
  return {
    defaults,
    isReading: reading !== undefined || (isAsked && !isSettled),
    refused,
    readAgain: readKept,
    take,
    choose: (one) => {
      next();
      settle(one, []);
    },
    useNone: () => {
      next();
      forgetOffice();
      settle(undefined, []);
    },
  };
}
