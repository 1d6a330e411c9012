import { type PlacedArea, placeText } from "../../cells/index.ts";
import type { CellContent, Place } from "../../hosts/index.ts";
import { numberText } from "../../typeset/index.ts";
import type { Label } from "./labels.ts";
import type { Origin } from "./origin.ts";
import { sourceOfFormula } from "./source.ts";
import type { TracedCell } from "./traceCell.ts";

/** Something a value comes about from: a cell, or a range of cells taken together. */
export interface Branch {
  /** The same cells have the same key wherever they stand in the tree. */
  readonly key: string;
  readonly kind: "cell" | "range" | "unread";
  readonly place?: PlacedArea;
  /** Seen from the sheet of the tree's root, or what is written where no cells stand behind it. */
  readonly address: string;
  readonly label?: Label;
  /** A cell as printed; of a range how many cells and from what to what. */
  readonly text: string;
  readonly value: CellContent["value"];
  readonly unit: string;
  /** "input", "typed", "typed over a formula", "empty", or where the rule of its formula stands. */
  readonly source: string;
  /** Whether something stands behind it. */
  readonly opens: boolean;
  readonly error?: string;
}

/** One text a block of cells, the same however it is reached. */
export function keyOf({
  sheet,
  row,
  column,
  rows = 1,
  columns = 1,
}: Place & { readonly rows?: number; readonly columns?: number }): string {
  return `${sheet}!${row},${column},${rows},${columns}`;
}

function sourceOf(content: CellContent, label: Label | undefined): string {
  if (content.formula !== undefined) return sourceOfFormula(content.formula);
  if (content.value === null && content.text === "") return "empty";
  return withoutFormula(label);
}

/** Where a value comes from that no formula gives: on a template's sheet it is an input, or hides that a formula should stand there. */
function withoutFormula(label: Label | undefined): string {
  if (label?.from !== "template") return "typed";
  return label.computed ? "typed over a formula" : "input";
}

/** A cell as printed; a number without a format, with as many digits as are read. */
export function printed(content: CellContent): string {
  if (content.error) return content.error.code;
  if (typeof content.value === "number" && content.text.length > 10 && Number(content.text) === content.value)
    return numberText(content.value);
  return content.text || "empty";
}

function unitOf(label: Label | undefined): string {
  return label && label.unit !== "–" && label.unit !== "-" ? label.unit : "";
}

/** A cell as a branch. */
export function branchOfCell(place: Place, content: CellContent, label: Label | undefined, from: string): Branch {
  const at = { sheet: place.sheet, row: place.row, column: place.column, rows: 1, columns: 1 };
  return {
    key: keyOf(at),
    kind: "cell",
    place: at,
    address: placeText(at, from),
    ...(label && { label }),
    value: content.value,
    unit: typeof content.value === "number" ? unitOf(label) : "",
    text: printed(content),
    source: sourceOf(content, label),
    opens: content.formula !== undefined,
    ...(content.error && { error: content.error.code }),
  };
}

function branchOfRange(origin: Origin & { readonly place: PlacedArea }, from: string): Branch {
  const { place, contents, lowest } = origin;
  // Rows of several units under one another: what the first is called is not what the range holds.
  const mixed =
    origin.label?.from === "texts" && lowest?.known !== undefined && lowest.known.size !== origin.label.known?.size;
  const label = mixed ? undefined : origin.label;
  const cells = contents.flat().filter(({ value, error }) => value !== null || error);
  const numbers = cells.flatMap(({ value }) => (typeof value === "number" ? [value] : []));
  const span = numbers.length > 0 ? `, ${numberText(Math.min(...numbers))} to ${numberText(Math.max(...numbers))}` : "";
  const count = contents.length === 0 ? place.rows * place.columns : cells.length;
  const error = cells.find((c) => c.error)?.error?.code;
  const computed = cells.filter((c) => c.formula !== undefined).length;
  return {
    key: keyOf(place),
    kind: "range",
    place,
    address: placeText(place, from),
    ...(label && { label }),
    value: null,
    unit: place.columns === 1 ? unitOf(label) : "",
    text: `${count} ${count === 1 ? "cell" : "cells"}${place.columns === 1 ? span : ""}`,
    source:
      computed === 0 ? withoutFormula(label) : computed === cells.length ? "formulas" : "formulas and typed values",
    opens: cells.length > 0,
    ...(error !== undefined && { error }),
  };
}

/** What a reference of a formula stands for, as a branch. */
export function branchOf(origin: Origin, from: string): Branch {
  const { place, contents, label } = origin;
  if (!place)
    return {
      key: `?${origin.text.toUpperCase()}`,
      kind: "unread",
      address: origin.text,
      text: origin.problem ?? "",
      value: null,
      unit: "",
      source: "",
      opens: false,
    };
  if (place.rows * place.columns > 1) return branchOfRange({ ...origin, place }, from);
  const content = contents[0]?.[0];
  if (!content)
    return {
      key: keyOf(place),
      kind: "unread",
      place,
      address: placeText(place, from),
      ...(label && { label }),
      text: origin.problem ?? "",
      value: null,
      unit: "",
      source: "",
      opens: false,
    };
  return branchOfCell(place, content, label, from);
}

/** What a traced cell's value comes about from, each once, in the order of its formula. `from`: the sheet of the tree's root. */
export function branchesOf(cell: TracedCell, from: string): readonly Branch[] {
  if (cell.partOf) {
    const { anchor, call } = cell.partOf;
    return [
      {
        ...branchOfCell(anchor, call.hosts!, undefined, from),
        text: "the result it is a part of",
        value: null,
        opens: true,
      },
    ];
  }
  const out = new Map<string, Branch>();
  for (const origin of cell.precedents) {
    const branch = branchOf(origin, from);
    if (!out.has(branch.key)) out.set(branch.key, branch);
  }
  return [...out.values()];
}

/** The root of a tree. */
export function rootOf(cell: TracedCell): Branch {
  return {
    ...branchOfCell(cell.place, cell.content, cell.label, cell.place.sheet),
    opens: cell.precedents.length > 0 || cell.partOf !== undefined,
  };
}

/** A line of a tree that is partly opened. */
export interface TreeLine {
  /** The keys from the root to here. */
  readonly path: readonly string[];
  readonly branch: Branch;
  /** The same cells stand in a line further up, with what is behind them. */
  readonly repeated: boolean;
  readonly open: boolean;
}

/** What is behind the cells that have been opened, by key. */
type Opened = ReadonlyMap<string, readonly Branch[]>;

export const pathText = (path: readonly string[]): string => path.join(" > ");

/**
 * A tree as lines from above: `open` holds the paths that are open, `behind` what has been read. A repeated branch
 * refers to the first and does not open.
 */
export function linesOf(root: Branch, open: ReadonlySet<string>, behind: Opened): readonly TreeLine[] {
  const lines: TreeLine[] = [];
  const first = new Set<string>();
  const visit = (branch: Branch, before: readonly string[]): void => {
    const path = [...before, branch.key];
    const repeated = branch.opens && first.has(branch.key);
    first.add(branch.key);
    const isOpen = !repeated && open.has(pathText(path)) && behind.has(branch.key);
    lines.push({ path, branch, repeated, open: isOpen });
    if (isOpen) for (const child of behind.get(branch.key)!) visit(child, path);
  };
  visit(root, []);
  return lines;
}
