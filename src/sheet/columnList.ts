import { headOfColumn, holdsWords } from "./bands.ts";
import { fitsOver } from "./columns.ts";
import { equationAsRead, sourceText } from "./formulaText.ts";
import { whereFrom } from "./links.ts";
import { allowedWords } from "./says.ts";
import { linesOf, placeTexts, type PlacedText } from "./textLines.ts";
import { isRecord, type ShapedColumn, type ShapedSheet, type ShapedTable } from "./shape.ts";

/** A column as the list above its table defines it. */
export interface ListedColumn {
  readonly column: ShapedColumn;
  readonly symbol: string;
  readonly text: string;
  readonly words: string;
  readonly source: string;
}

export interface PlacedListed extends ListedColumn {
  /** Counted from the first line of the list. */
  readonly line: number;
  /** The sheet's column of its symbol. */
  readonly at: number;
  /** Where words, formula and source stand. */
  readonly texts: readonly PlacedText[];
}

/** The sheet's columns that the parts of a line of the list begin in. */
const wholeLine = { symbol: 1, text: 2, words: 7, source: 12, last: 15 } as const;
/** Short entries stand two in a line. */
const halves = [
  { symbol: 1, text: 2, words: 5, source: 6, last: 7 },
  { symbol: 8, text: 9, words: 12, source: 13, last: 15 },
] as const;
type Place = typeof wholeLine | (typeof halves)[number];

function textsIn({ symbol, text, words, source }: ListedColumn, place: Place): readonly PlacedText[] {
  // A long symbol runs on over the column beside it.
  const start = fitsOver(symbol, place.symbol, place.symbol) ? place.text : place.text + 1;
  return placeTexts(
    [
      { role: "description", text, wanted: place.text },
      { role: "equation", text: words, wanted: place.words },
      { role: "source", text: source, wanted: place.source },
    ],
    { first: place.text, start, last: place.last },
  );
}

/** The texts of an entry in half a line; undefined where it needs more. */
function textsInHalf(one: ListedColumn, place: Place): readonly PlacedText[] | undefined {
  const texts = textsIn(one, place);
  const fits = texts.every(({ line, to }) => line === 0 && to === undefined);
  const alone = texts.length === 0 ? place.last : place.symbol;
  return fits && fitsOver(one.symbol, place.symbol, alone) ? texts : undefined;
}

/** Which lines the entries take: two short ones that follow each other share one. */
export function placeList(listed: readonly ListedColumn[]): {
  readonly entries: readonly PlacedListed[];
  readonly lines: number;
} {
  const entries: PlacedListed[] = [];
  let line = 0;
  for (let i = 0; i < listed.length; i++) {
    const [one, next] = [listed[i]!, listed[i + 1]];
    const left = next && textsInHalf(one, halves[0]);
    const right = left && textsInHalf(next, halves[1]);
    if (left && right) {
      entries.push({ ...one, line, at: halves[0].symbol, texts: left });
      entries.push({ ...next, line, at: halves[1].symbol, texts: right });
      line++;
      i++;
      continue;
    }
    const texts = textsIn(one, wholeLine);
    entries.push({ ...one, line, at: wholeLine.symbol, texts });
    line += linesOf(texts);
  }
  return { entries, lines: line };
}

/** Columns whose heading says it all are not listed: numbers, names, and words taken from elsewhere. */
function isPlain(column: ShapedColumn, words: string, source: string): boolean {
  if (column.column.index !== undefined || column.column.memberText !== undefined) return true;
  return words === "" && source === "" ? holdsWords(column) : false;
}

function wordsOf({ column, says }: ShapedColumn, sheet: ShapedSheet): string {
  if (column.formula !== undefined) {
    // Repeating a value from above defines nothing.
    if (says.equation === undefined && /^=?\{\w+\}$/.test(column.formula) && says.symbol === "–") return "";
    return equationAsRead(says, column.formula, sheet.subjects);
  }
  if (column.taken !== undefined) return whereFrom(sheet, column.taken);
  return says.equation ?? (column.input ? allowedWords(column.input, says) : "");
}

export function listedColumns(shaped: ShapedTable, sheet: ShapedSheet): readonly ListedColumn[] {
  if (isRecord(shaped)) return [];
  return shaped.columns.flatMap((column): readonly ListedColumn[] => {
    const { says } = column;
    const words = wordsOf(column, sheet);
    const source = sourceText(says, column.column.formula, sheet.template.standard);
    if (isPlain(column, words, source)) return [];
    const symbol = column.column.verdict ? "verdict" : headOfColumn(column);
    const text = symbol === says.text ? "" : says.text;
    return [{ column, symbol, text, words, source }];
  });
}
