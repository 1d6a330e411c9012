import { headOfColumn, holdsWords } from "./bands.ts";
import { equationAsRead, sourceText } from "./formulaText.ts";
import { whereFrom } from "./links.ts";
import { allowedWords } from "./says.ts";
import { placeTexts, type PlacedText } from "./textLines.ts";
import { isRecord, type ShapedColumn, type ShapedSheet, type ShapedTable } from "./shape.ts";

/** A column as the list above its table defines it. */
export interface ListedColumn {
  readonly column: ShapedColumn;
  readonly symbol: string;
  readonly text: string;
  readonly words: string;
  readonly source: string;
  /** Where words, formula and source stand. */
  readonly texts: readonly PlacedText[];
}

/** The sheet's columns that the parts of a line of the list begin in. */
export const listColumns = { symbol: 1, text: 2, words: 7, source: 12, last: 15 } as const;

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
    const texts = placeTexts(
      [
        { role: "description", text, wanted: listColumns.text },
        { role: "equation", text: words, wanted: listColumns.words },
        { role: "source", text: source, wanted: listColumns.source },
      ],
      { first: listColumns.text, last: listColumns.last },
    );
    return [{ column, symbol, text, words, source, texts }];
  });
}
