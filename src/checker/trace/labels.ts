import { type Area, isNumberAsText } from "../../cells/index.ts";
import type { CellContent } from "../../hosts/index.ts";
import type { Meaning } from "../../sheet/index.ts";
import { alsoSymbol, splitUnit } from "./unitInText.ts";
import { spelledUnit, type SpelledUnit } from "./units.ts";

/** What cells are called on their sheet: by the template that built it, or as far as the texts around them tell. */
export interface Label {
  /** "2.26"; empty where the sheet has none. */
  readonly item: string;
  readonly description: string;
  /** `_` starts a subscript. */
  readonly symbol: string;
  /** As written; empty where none is told, "–" for a plain number. */
  readonly unit: string;
  readonly known?: SpelledUnit;
  /** The quantity's key, on a recognised sheet. */
  readonly quantity?: string;
  readonly from: "template" | "texts";
  /** What stands at the head of its column, without the name of its row; from texts alone. */
  readonly heading?: string;
  /** The template has a formula there. */
  readonly computed?: true;
}

type CellAt = (row: number, column: number) => CellContent;

/** What a template says of a cell as its label. */
export function labelOfMeaning({ item, description, symbol, unit, quantity }: Meaning, computed = false): Label {
  const known = spelledUnit(unit);
  return {
    item,
    description,
    symbol,
    unit,
    ...(known && { known }),
    ...(quantity !== undefined && { quantity }),
    from: "template",
    ...(computed && { computed }),
  };
}

/** How far labels are looked for. */
export const reach = { left: 12, up: 60, right: 2 } as const;

const textOf = ({ value, error }: CellContent): string | undefined =>
  typeof value === "string" && value.trim() !== "" && !error && !isNumberAsText(value) ? value.trim() : undefined;
const isNumber = ({ value, error }: CellContent): boolean =>
  typeof value === "number" || typeof value === "boolean" || error !== undefined || isNumberAsText(value);

const trimmed = (text: string): string => text.replace(/[\s:=]+$/, "").trim();
/** Short, without blanks: a symbol rather than words. */
const looksLikeSymbol = (text: string): boolean =>
  text !== "" &&
  text.length <= 10 &&
  !/\s/.test(text) &&
  (text.length <= 3 || /[_\d,'′]|[\u0370-\u03ff]|^[A-Za-z]{1,2}[A-Z]/.test(text));

interface RowTexts {
  readonly description: string;
  readonly symbol: string;
  readonly unit?: SpelledUnit;
  /** Whether numbers stand between the cell and the text: then the text names the row and not the cell. */
  readonly ofRow: boolean;
  /** Nothing but numbers stands between the text and the cell: a row of a table that runs to the right. */
  readonly runs: boolean;
}

function textsToTheLeft(at: CellAt, row: number, column: number): RowTexts {
  let passed = false;
  let runs = true;
  const texts: string[] = [];
  let unit: SpelledUnit | undefined;
  for (let c = column - 1; c >= Math.max(0, column - reach.left); c--) {
    const cell = at(row, c);
    if (isNumber(cell)) {
      if (texts.length > 0) break;
      passed = true;
      continue;
    }
    const text = textOf(cell);
    if (text === undefined) {
      if (texts.length === 0) runs = false;
      continue;
    }
    const own = spelledUnit(text);
    if (own) {
      if (texts.length === 0 && passed) runs = false;
      const before = c > 0 ? at(row, c - 1) : undefined;
      // A unit belongs to the number before it.
      if (before && isNumber(before)) {
        if (texts.length > 0) break;
        continue;
      }
      // Right beside the cell, with words before it and no unit behind, it is the cell's own; else it is a symbol, as N and m are.
      const behind = textOf(at(row, column + 1));
      if (
        !passed &&
        c === column - 1 &&
        !alsoSymbol(text) &&
        before &&
        textOf(before) !== undefined &&
        !(behind !== undefined && spelledUnit(behind))
      ) {
        unit = own;
        continue;
      }
    }
    texts.push(text);
  }
  const parted = texts.map((t) => splitUnit(trimmed(t)));
  const words = parted.filter(({ text }) => !looksLikeSymbol(text));
  const symbol = parted.find(({ text }) => looksLikeSymbol(text))?.text ?? "";
  unit ??= parted.find((p) => p.unit)?.unit;
  const description = words[0]?.text ?? "";
  const last = / ([^\s]+)$/.exec(description)?.[1] ?? "";
  return {
    description,
    symbol: symbol || (/[_\u0370-\u03ff]/.test(last) && looksLikeSymbol(last) ? last : ""),
    ...(unit && { unit }),
    ofRow: passed,
    runs,
  };
}

/** The texts at the head of the column above a cell, over numbers without a gap. */
function heading(
  at: CellAt,
  row: number,
  column: number,
): { readonly text: string; readonly symbol: string; readonly unit?: SpelledUnit } {
  let r = row - 1;
  const end = Math.max(0, row - reach.up);
  while (r >= end && isNumber(at(r, column))) r--;
  const parts: string[] = [];
  let unit: SpelledUnit | undefined;
  for (; r >= end && parts.length < 3; r--) {
    const text = textOf(at(r, column));
    if (text === undefined) break;
    const own = spelledUnit(text);
    // In a heading of one line, or above another unit, such a letter is the symbol.
    const above = r > 0 ? textOf(at(r - 1, column)) : undefined;
    if (own && !(alsoSymbol(text) && (unit !== undefined || above === undefined))) {
      unit ??= own;
      continue;
    }
    const split = splitUnit(trimmed(text));
    unit ??= split.unit;
    parts.unshift(split.text);
  }
  const symbol = parts.find(looksLikeSymbol) ?? "";
  return { text: parts.filter((p) => !looksLikeSymbol(p)).at(-1) ?? "", symbol, ...(unit && { unit }) };
}

/**
 * What a cell is called by the texts around it: words in its row to the left, else the heading of its column and the
 * name of its row. The unit is the
 * text right of it, or what stands in brackets. Undefined where no text tells anything.
 */
export function labelFromTexts(at: CellAt, row: number, column: number): Label | undefined {
  const left = textsToTheLeft(at, row, column);
  const above = heading(at, row, column);
  // Cells that are joined leave a gap before the unit.
  const beside = at(row, column + 1);
  const right = textOf(beside.value === null && !beside.error ? at(row, column + 2) : beside);
  const besides = right === undefined ? undefined : spelledUnit(right);
  // A short text beside a number under a heading is the name of a table's row.
  const ownRow =
    !left.ofRow && (left.description !== "" || (left.symbol !== "" && (above.text === "" || besides !== undefined)));
  // The name of a row far to the left says nothing of a number that stands in no table.
  // In a table the text beside a number can be another row's name: it is a unit only by its spelling.
  const alongRow = left.ofRow && left.runs ? left.unit : undefined;
  const unit =
    (ownRow || above.text === "" ? besides : undefined) ??
    (ownRow ? left.unit : undefined) ??
    above.unit ??
    alongRow ??
    besides;
  const description = ownRow
    ? left.description || above.text
    : above.text === "" && above.symbol === "" && !above.unit && !alongRow
      ? ""
      : [above.text, left.description || left.symbol].filter((t) => t !== "").join(", ");
  const symbol = ownRow ? left.symbol : above.symbol || (alongRow ? left.symbol : "");
  if (description === "" && symbol === "" && !unit) return undefined;
  const heads = above.symbol || above.text;
  return {
    item: "",
    description,
    symbol,
    unit: unit?.text ?? "",
    ...(unit && { known: unit }),
    from: "texts",
    ...(heads !== "" && { heading: heads }),
  };
}

/** The cells whose texts a label can come from: to the left and two to the right, and above. */
export function aroundFor({ row, column }: Pick<Area, "row" | "column">, above: boolean): readonly Area[] {
  const left = Math.max(0, column - reach.left);
  const beside = { row, column: left, rows: 1, columns: column - left + 1 + reach.right };
  const top = Math.max(0, row - reach.up);
  return above && row > 0 ? [beside, { row: top, column, rows: row - top, columns: 1 }] : [beside];
}

/** Whether a number is shown as a per cent by its format, and so is the ratio: 0.7 as "70%", not 70 as "70 %". */
function isShownAsPercent({ value, text }: CellContent): boolean {
  const shown = /^\s*([-−+]?[\d.,\s]+)%\s*$/.exec(text)?.[1];
  if (shown === undefined || typeof value !== "number") return false;
  const plain = shown.replace(/\s/g, "").replace("−", "-");
  const read = Number(plain.replace(/,(?=\d{3}\b)/g, "").replace(",", "."));
  return value === 0 || Math.abs(read - 100 * value) < Math.abs(read - value);
}

/** A cell shown as a per cent holds the ratio, whether or not a unit stands beside it. */
export function unitHeld(label: Label | undefined, content: CellContent | undefined): SpelledUnit | undefined {
  const { known } = label ?? {};
  if (content && isShownAsPercent(content) && (!known || known.unit === "%")) return spelledUnit("–");
  return known;
}
