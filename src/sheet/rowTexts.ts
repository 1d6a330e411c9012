import { columns, fitsOver } from "./columns.ts";
import { equationAsRead, sourceText } from "./formulaText.ts";
import { whereFrom } from "./links.ts";
import { judgements } from "./relations.ts";
import { allowedWords, boundsOf } from "./says.ts";
import type { ShapedRow, ShapedSheet } from "./shape.ts";
import type { InputSpec } from "./template.ts";

/** What stands beside the value of a row: its formula or what it may be, and the source. */
export interface RowTexts {
  readonly words: string;
  readonly source: string;
  /** First column of the words in the row's own line. */
  readonly from: number;
  /** First column of the source there: that of an input without words has their room too. */
  readonly sourceFrom: number;
  /** The words and the source have no room beside the value and take a line of their own beneath. */
  readonly below: boolean;
}

/** Where the words and the source stand in a line of their own. */
export const belowColumns = { words: columns.description, source: columns.equation } as const;

/** The last column of an input's cell: words to choose from, which have no unit, may need more than the column of values. */
export function lastOfChoice(input: Pick<InputSpec, "choices"> | undefined): number {
  const words = (input?.choices ?? []).flatMap(({ value }) => (typeof value === "string" ? [value] : []));
  let last: number = columns.value;
  while (last < columns.words && !words.every((word) => fitsOver(word, columns.value, last))) last++;
  return last;
}

/** More choices than this fill the page; the cell's own list has them all. */
const mostChoicesSaid = 8;

/** An input with bounds shows them as numbers; what they do not say stands in words. */
function inputWords({ row: { input }, says }: ShapedRow): { readonly words: string; readonly from: number } {
  if (!input || input.freeText) return { words: "", from: columns.words };
  if (says.equation !== undefined) return { words: says.equation, from: columns.words };
  if (input.choices && input.choices.length > mostChoicesSaid)
    return { words: `one of ${input.choices.length} in the list of the cell`, from: columns.words };
  if (input.choices)
    return { words: allowedWords(input, says), from: Math.max(lastOfChoice(input) + 1, columns.equation) };
  const words = [
    ...(boundsOf(input, says.quantity).whole ? ["whole numbers"] : []),
    ...(input.mayBeEmpty ? ["may stay empty"] : []),
  ];
  return { words: words.join(", "), from: columns.words };
}

function wordsOf(shaped: ShapedRow, sheet: ShapedSheet): { readonly words: string; readonly from: number } {
  const { row, says } = shaped;
  if (row.taken !== undefined) return { words: whereFrom(sheet, row.taken), from: columns.equation };
  if (row.formula === undefined) return inputWords(shaped);
  return { words: equationAsRead(says, row.formula, sheet.subjects), from: columns.equation };
}

export function rowTexts(shaped: ShapedRow, sheet: ShapedSheet): RowTexts {
  const { row, says } = shaped;
  const { words, from } = wordsOf(shaped, sheet);
  const source = row.summary?.where === undefined ? sourceText(says, row.formula) : "";
  const judged = judgements(sheet, says.id).length > 0;
  // Where a place or a message stands, the words leave it free.
  const kept = source !== "" || row.summary?.where !== undefined;
  const to = kept || judged ? columns.source - 1 : columns.verdict - 1;
  const sourceFrom = row.input && words === "" && !judged ? columns.words : columns.source;
  const beside =
    (words === "" || fitsOver(words, from, to)) && (source === "" || fitsOver(source, sourceFrom, columns.verdict - 1));
  return { words, source, from, sourceFrom, below: !beside || row.words === true };
}
