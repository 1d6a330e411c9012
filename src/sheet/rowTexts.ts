import { columns, fitsOver, widthOver } from "./columns.ts";
import { equationAsRead, sourceText } from "./formulaText.ts";
import { whereFrom } from "./links.ts";
import { judgements } from "./relations.ts";
import { allowedWords, boundsOf } from "./says.ts";
import type { ShapedRow, ShapedSheet } from "./shape.ts";
import type { InputSpec } from "./template.ts";
import { linesOf, placeTexts, type Piece, type PlacedText } from "./textLines.ts";
import { fits } from "./textWidth.ts";

/** What stands beside the value of a row: its formula or what it may be, and the source. */
export interface RowTexts {
  readonly words: string;
  readonly source: string;
  /** Where they stand, counted from the row's own line. */
  readonly texts: readonly PlacedText[];
  /** How many lines beneath the row's own they take, where they have no room beside the value. */
  readonly below: number;
  /** First column of the words in the row's own line, or in that beneath it. */
  readonly from: number;
}

/** Where the words and the source stand in a line of their own. */
export const belowColumns = { words: columns.description, source: columns.equation } as const;

/** What the arrow of a list takes of its cell, and the gap before the word, in characters. */
const arrowOfList = 3;

/** The last column of an input's cell: words to choose from, which have no unit, may need more than the column of values. */
export function lastOfChoice(input: Pick<InputSpec, "choices"> | undefined): number {
  const words = (input?.choices ?? []).flatMap(({ value }) => (typeof value === "string" ? [value] : []));
  let last: number = columns.value;
  const room = (word: string): boolean => fits(word, widthOver(columns.value, last) - arrowOfList);
  while (last < columns.words && !words.every(room)) last++;
  return last;
}

/** More choices than this fill the page; the cell's own list has them all. */
const mostChoicesSaid = 8;

/** Of an input, beside what it may be; the short word is explained at the end of the sheet. */
const mayStayEmpty = "may stay empty";
const emptyToo = "empty";

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
    ...(input.mayBeEmpty ? [mayStayEmpty] : []),
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
  const where = row.summary?.where !== undefined;
  const source = where ? "" : sourceText(says, row.formula, sheet.template.standard);
  const inOrder = (said: string): readonly Piece[] => [
    { role: "equation", text: said, wanted: from },
    { role: "source", text: source, wanted: row.input && said === "" ? columns.words : columns.source },
  ];
  const pieces = inOrder(words);
  if (judgements(sheet, says.id).length > 0) return judgedTexts(words, source, from, pieces);
  const judged = row.input !== undefined || row.taken !== undefined || row.verdict !== undefined;
  // Behind its bounds one word says that an input may stay empty, where there is no room for three.
  for (const said of words === mayStayEmpty ? [words, emptyToo] : [words]) {
    const own = placeTexts(inOrder(said), { first: from, last: judged ? columns.verdict - 1 : columns.verdict });
    if (!where && !row.words && own.every(({ line, to }) => line === 0 && to === undefined))
      return { words, source, texts: own, below: 0, from };
  }
  // The place where a check governs has the right half of the line.
  const last = where ? belowColumns.source - 1 : columns.mark;
  const beneath = placeTexts(
    pieces.map((piece) => ({ ...piece, wanted: belowColumns[piece.role === "source" ? "source" : "words"] })),
    { first: belowColumns.words, last },
  );
  return {
    words,
    source,
    texts: beneath.map((text) => ({ ...text, line: text.line + 1 })),
    below: linesOf(beneath),
    from: belowColumns.words,
  };
}

/** Beside an input that others may contradict, the message takes the place of the words: it gets their line to itself. */
function judgedTexts(words: string, source: string, from: number, pieces: readonly Piece[]): RowTexts {
  const beside =
    (words === "" || fitsOver(words, from, columns.source - 1)) &&
    (source === "" || fitsOver(source, columns.source, columns.verdict - 1));
  const [line, at] = beside ? [0, columns.source] : [1, belowColumns.source];
  const last = beside ? columns.verdict - 1 : columns.mark;
  const texts =
    source === ""
      ? []
      : [{ role: pieces[1]!.role, text: source, line, from: at, ...(!fitsOver(source, at, last) && { to: last }) }];
  return { words, source, texts, below: line, from: beside ? from : belowColumns.words };
}
