import type { FakeCell } from "./state.ts";
import { Misuse, OfficeError } from "./strict.ts";

const longestText = 32_767;
const longestFormula = 8_192;

/** A rectangle of exactly this size, as all writes must be. */
export function rectangle(
  value: unknown,
  rows: number,
  columns: number,
  what: string,
): readonly (readonly unknown[])[] {
  if (!Array.isArray(value) || !value.every(Array.isArray))
    throw new Misuse(`${what} takes rows of cells, not ${typeof value}`);
  const table = value as readonly (readonly unknown[])[];
  if (table.length !== rows || table.some((row) => row.length !== columns))
    throw new OfficeError(
      "InvalidArgument",
      `${what}: ${table.length} × ${table[0]?.length ?? 0} cells were given for a range of ${rows} × ${columns}`,
    );
  return table;
}

/** Do the brackets close? Enough to refuse what cannot be a formula. */
function closes(formula: string): boolean {
  let depth = 0;
  for (const c of formula.replace(/"(?:[^"]|"")*"|'(?:[^']|'')*'/g, "")) {
    if (c === "(") depth++;
    if (c === ")" && --depth < 0) return false;
  }
  return depth === 0 && !/[-+*/^,(=]$/.test(formula.trim());
}

/** What an entry makes of a cell, as if typed: the program reads numbers, dates, truth values and formulas out of texts. */
export function enter(cell: FakeCell, entry: unknown): void {
  if (entry === null) return;
  cell.formula = undefined;
  if (typeof entry === "boolean") cell.value = entry;
  else if (typeof entry === "number") {
    if (!Number.isFinite(entry)) throw new OfficeError("InvalidArgument", `${entry} is no number of a cell`);
    cell.value = entry;
  } else if (typeof entry === "string") enterText(cell, entry);
  else throw new Misuse(`a cell cannot hold ${typeof entry}`);
}

function enterText(cell: FakeCell, text: string): void {
  if (text.length > longestText) throw new OfficeError("InvalidArgument", "the text is too long for a cell");
  if (text.startsWith("'")) cell.value = text.slice(1);
  else if (/^[=+\-@]/.test(text) && text.length > 1) {
    if (text.length > longestFormula || !closes(text))
      throw new OfficeError("InvalidArgument", `the formula ${text} cannot be read`);
    cell.formula = text.startsWith("=") ? text : `=${text}`;
    cell.value = "";
  } else if (/^(true|false)$/i.test(text)) cell.value = text.toLowerCase() === "true";
  else if (text.trim() !== "" && /^\s*[\d.,]/.test(text)) {
    // A number, percentage, date, fraction or time, whichever the language of the program makes of it: never the text.
    cell.value = Number.parseFloat(text.replace(",", "."));
  } else cell.value = text;
}
