import { namespace, ourFunction, piecesOf, cellAt, type Snapshot } from "../../cells/index.ts";
import type { Plan, PlannedCell } from "../../sheet/index.ts";

const mostOutlines = 20_000;
const outlinesKept = new Map<string, string>();

/** A formula without what it refers to: cells move, what is done with them stays. */
export function outlineOf(formula: string): string {
  const kept = outlinesKept.get(formula);
  if (kept !== undefined) return kept;
  const made = outlineIn(formula);
  if (outlinesKept.size >= mostOutlines) outlinesKept.clear();
  outlinesKept.set(formula, made);
  return made;
}

function outlineIn(formula: string): string {
  return piecesOf(formula)
    .map(({ kind, text }) => {
      if (kind === "cells" || kind === "error") return kind === "error" && text !== "#REF!" ? text : "R";
      if (kind === "blank" || text === "@") return "";
      const ours = kind === "function" ? ourFunction(text) : undefined;
      return ours === undefined ? text : namespace + ours;
    })
    .join("")
    .toUpperCase();
}

/** What of a row can be recognised: its fixed texts and numbers, and its formulas' outlines. */
export interface RowTraits {
  /** By planned column; undefined where the row has nothing fixed. */
  readonly texts: readonly (string | undefined)[];
  readonly outlines: readonly (string | undefined)[];
  readonly key: string;
}

const changing: ReadonlySet<PlannedCell["role"]> = new Set(["input", "choice", "textInput", "mark", "record", "shape"]);

function traits(
  columns: number,
  of: (column: number) => { readonly text?: string; readonly outline?: string } | undefined,
): RowTraits {
  const texts: (string | undefined)[] = [];
  const outlines: (string | undefined)[] = [];
  for (let c = 0; c < columns; c++) {
    const cell = of(c);
    texts[c] = cell?.text;
    outlines[c] = cell?.outline;
  }
  return {
    texts,
    outlines,
    key: texts
      .map((t, c) => t ?? outlines[c] ?? "")
      .join("\u0001")
      .replace(/\u0001+$/, ""),
  };
}

interface PlannedTraits {
  readonly rows: readonly RowTraits[];
  /** For each row the columns whose content changes with use: they say nothing about which row it is. */
  readonly changing: readonly ReadonlySet<number>[];
}
const traitsKept = new WeakMap<Plan, PlannedTraits>();

/** What can be recognised of a plan's rows. */
export function plannedTraits(plan: Plan): PlannedTraits {
  const kept = traitsKept.get(plan) ?? traitsIn(plan);
  traitsKept.set(plan, kept);
  return kept;
}

function traitsIn(plan: Plan): PlannedTraits {
  const rows = Array.from({ length: plan.rows }, () => new Map<number, { text?: string; outline?: string }>());
  const open = Array.from({ length: plan.rows }, () => new Set<number>());
  for (const cell of plan.cells) {
    if (changing.has(cell.role) || cell.value === plan.hash) open[cell.row]!.add(cell.column);
    else if (cell.formula !== undefined) rows[cell.row]!.set(cell.column, { outline: outlineOf(cell.formula) });
    else if (cell.value !== undefined) rows[cell.row]!.set(cell.column, { text: String(cell.value) });
  }
  return { rows: rows.map((row) => traits(plan.columns, (c) => row.get(c))), changing: open };
}

/** The same of a row of the sheet, in the plan's columns. */
export function traitsNow(
  snapshot: Snapshot,
  row: number,
  columns: readonly (number | undefined)[],
  leaveOut: ReadonlySet<number> | undefined,
): RowTraits {
  return traits(columns.length, (c) => {
    const now = columns[c];
    if (now === undefined || leaveOut?.has(c)) return undefined;
    const { formula, value } = cellAt(snapshot, row, now);
    if (formula !== undefined) return { outline: outlineOf(formula) };
    return value === null || value === "" ? undefined : { text: String(value) };
  });
}

/** What agrees in two rows; the item number and the description weigh most. */
export function likeness(a: RowTraits, b: RowTraits): number {
  let sum = 0;
  for (let c = 0; c < a.texts.length; c++) {
    const text = a.texts[c];
    if (text !== undefined && text === b.texts[c]) sum += c === 0 ? 3 : c === 1 ? 4 : 1;
    const outline = a.outlines[c];
    if (outline !== undefined && outline === b.outlines[c]) sum += 1;
  }
  return sum;
}
