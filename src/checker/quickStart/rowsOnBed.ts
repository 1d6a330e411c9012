import type { Inputs } from "../../sheet/index.ts";
import type { Answers } from "./answers.ts";
import type { Layout } from "./layout.ts";
import { computed } from "./sections.ts";
import { kindOf } from "./steelKind.ts";
import { deviatorsAt, spacingOf, type StrandRow } from "./strandLayout.ts";

/** A line of usual length, m, its units as far apart as a gap and its ends free for anchorages. Common practice, no source. */
const usualBed = 60;

const bedGap = 0.5;

const bedEnds = 4;

/** A bed and the units on it; longer than usual only where not even one unit fits. */
function bedInputs(L: number): Inputs {
  const bedLength = Math.max(usualBed, 10 * Math.ceil((L + bedEnds) / 10));
  return { bedLength, members: Math.min(100, computed("UNITS_ON_LINE", [bedLength, L, bedGap, bedEnds])) };
}

export function rowInputs(rows: readonly StrandRow[], sigj: number, L: number, apart: number): Inputs {
  const all = <T>(value: T): readonly T[] => rows.map(() => value);
  const raised = rows.some(({ yMid, yEnd }) => yMid !== yEnd);
  return {
    rows: rows.length,
    deflected: raised ? "YES" : "NO",
    strands: rows.map(({ n }) => n),
    yMidIn: rows.map(({ yMid }) => yMid),
    ...(raised && { yEndIn: rows.map(({ yEnd }) => yEnd), devL: deviatorsAt }),
    debond: rows.map(({ debond }) => debond),
    sigj: all(sigj),
    sh: all(apart),
    // What reaches further is checked in storage, of which the questions ask nothing.
    overU: 0,
    ...bedInputs(L),
  };
}

/** Rows one above the other round an eccentricity. */
export function stackedRows({ count, strands }: Layout, e: number, yb: number, answers: Answers): readonly StrandRow[] {
  const { apart, fromFace } = spacingOf(kindOf(answers));
  const lowest = Math.max(fromFace, Math.round(yb - e - ((count - 1) * apart) / 2));
  return Array.from({ length: count }, (_, i) => {
    const y = lowest + apart * i;
    return { n: strands, yMid: y, yEnd: y, debond: 0 };
  });
}
