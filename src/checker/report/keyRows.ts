import type { Address } from "../../cells/index.ts";
import { isVerdictWord } from "../../sheet/index.ts";
import type { ReadCell, ReadColumn } from "./read.ts";

/** Words of a verdict that passes, or that there is nothing to judge. */
const passes = new Set(["OK", "–", ""]);
/** A linked sheet has columns that say a verdict under other losses, too: by their words. */
const judges = ({ isVerdict, kind, cells }: ReadColumn): boolean =>
  isVerdict || (kind === "computed" && cells.some(({ content }) => isVerdictWord(content.value)));
const failsIn = ({ content }: ReadCell): boolean =>
  content.error !== undefined || !passes.has(String(content.value ?? ""));

/** A table of so many rows is told whole. */
const mostWhole = 6;
/** Of a longer one up to so many rows that decide are told, and beside them up to so many that do not pass. */
const mostDeciding = 4;
const mostFailing = 6;

export interface KeyRows {
  /** From 0, in their order. */
  readonly rows: readonly number[];
  readonly of: number;
  /** Rows that do not pass and find no place. */
  readonly failingLeftOut: number;
}

/**
 * The rows of a table that a reader needs: those that do not pass, those that decide the checks, and its ends where
 * few others are told.
 */
export function keyRows(columns: readonly ReadColumn[], deciding: readonly Address[]): KeyRows {
  const of = Math.max(0, ...columns.map(({ cells }) => cells.length));
  if (of <= mostWhole) return { rows: Array.from({ length: of }, (_, i) => i), of, failingLeftOut: 0 };
  const judged = columns.filter(judges);
  const failing = Array.from({ length: of }, (_, i) => i).filter((i) =>
    judged.some(({ cells }) => cells[i] && failsIn(cells[i])),
  );
  const told = new Set(failing.slice(0, mostFailing));
  const places = new Map(
    columns.flatMap(({ cells }) => cells.map(({ at }, i) => [`${at.row} ${at.column}`, i] as const)),
  );
  const decisive = new Set(deciding.flatMap(({ row, column }) => places.get(`${row} ${column}`) ?? []));
  for (const i of [...decisive].slice(0, mostDeciding)) told.add(i);
  for (const end of [0, of - 1]) if (told.size < mostDeciding) told.add(end);
  return { rows: [...told].sort((a, b) => a - b), of, failingLeftOut: failing.filter((i) => !told.has(i)).length };
}
