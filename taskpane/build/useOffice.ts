import { useEffect, useRef, useState } from "preact/hooks";
import type { OfficeDefaults } from "../../src/office/index.ts";
import type { Engine } from "../engine.ts";
import { onOtherTemplates } from "../templates/loaded.ts";
import { foundOffice, keepOffice, origin, problemsOf, wantNone, wantServed, type Origin } from "./officeDefaults.ts";

/** The defaults of the office: of a file chosen in this browser, those that the office serves, or none. */
export interface Office {
  readonly defaults: OfficeDefaults | undefined;
  /** Whose choice they are, or that there are none. */
  readonly from: Origin;
  /** Being read: a sheet built now would be without them. */
  readonly isReading: boolean;
  /** Why those of that origin were not taken. */
  readonly refused: readonly string[];
  readonly readAgain: () => void;
  /** Reads a chosen file and keeps it. Throws where it is refused: the defaults are as they were. */
  readonly take: (bytes: ArrayBuffer) => Promise<void>;
  /** Others chosen from the same file. */
  readonly choose: (defaults: OfficeDefaults) => void;
  readonly useNone: () => void;
  /** What the office serves in place of the choice made here. */
  readonly useServed: () => void;
}

/** Beside a button that builds with them. */
export const waitsForOffice = "Reading the office’s defaults … Building waits for them.";

/** Reads what is kept or served as soon as it is asked for: all templates load for it. Of several attempts the last one counts. */
export function useOffice(engine: Engine, isAsked: boolean): Office {
  const [defaults, setDefaults] = useState<OfficeDefaults>();
  const [refused, setRefused] = useState<readonly string[]>([]);
  const [from, setFrom] = useState<Origin>(origin);
  const [reading, setReading] = useState<"found" | "file">();
  /** What is kept or served was read, refused, or replaced. */
  const [isSettled, setSettled] = useState(false);
  const turn = useRef(0);
  const settled = useRef(false);
  const next = (): (() => boolean) => {
    const mine = (turn.current += 1);
    return () => mine === turn.current;
  };
  const settle = (now: OfficeDefaults | undefined, why: readonly string[], as: Origin = origin()): void => {
    settled.current = true;
    setSettled(true);
    setFrom(as);
    setDefaults(now);
    setRefused(why);
    setReading(undefined);
  };
  const readFound = (): void => {
    const isLast = next();
    setReading("found");
    foundOffice(engine).then(
      (found) => {
        if (isLast()) settle(found, []);
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
    readFound();
  }, [engine, isAsked]);

  // Refused ones may name a template that is loaded now. A file being read was chosen: it goes first.
  const onOthers = useRef((): void => undefined);
  onOthers.current = () => {
    if (reading === "found" || (reading === undefined && refused.length > 0)) readFound();
  };
  useEffect(() => onOtherTemplates(() => onOthers.current()), []);

  const take = async (bytes: ArrayBuffer): Promise<void> => {
    const isLast = next();
    setReading("file");
    try {
      const taken = await keepOffice(bytes, engine, isLast);
      if (isLast()) settle(taken, [], "file");
    } catch (error) {
      if (isLast()) {
        setReading(undefined);
        // The file came before the others were read: that still counts.
        if (!settled.current) readFound();
      }
      throw error;
    }
  };
  return {
    defaults,
    from,
    isReading: reading !== undefined || (isAsked && !isSettled),
    refused,
    readAgain: readFound,
    take,
    choose: (one) => {
      next();
      settle(one, [], from);
    },
    useNone: () => {
      next();
      wantNone();
      settle(undefined, [], "none");
    },
    useServed: () => {
      wantServed();
      readFound();
    },
  };
}
