import { piecesOf, isReference, quotedSheet, splitSheet } from "../../cells/index.ts";
import { faultOfSheetName, freeSheetName, isSheetNameTaken } from "../../sheet/index.ts";
import type { BookEntryRule, BookSheet, Workbook } from "../workbook/workbook.ts";
import type { NotUnderstood } from "./notUnderstood.ts";

/** New names of sheets, by their old ones in small letters. */
type Renamed = ReadonlyMap<string, string>;

/** The formula with the sheets' new names. */
function renamedIn(formula: string, renamed: Renamed): string {
  if (!formula.includes("!")) return formula;
  return piecesOf(formula)
    .map((piece) => {
      const { sheet, rest } = splitSheet(piece.text);
      const name = sheet === undefined || !isReference(piece) ? undefined : renamed.get(sheet.toLowerCase());
      return name === undefined ? piece.text : `${quotedSheet(name)}!${rest}`;
    })
    .join("");
}

function entryWith(entry: BookEntryRule, renamed: Renamed): BookEntryRule {
  const { rule } = entry;
  if (rule.kind !== "other") return entry;
  return { ...entry, rule: { ...rule, formulas: rule.formulas.map((formula) => renamedIn(formula, renamed)) } };
}

function sheetWith(sheet: BookSheet, name: string, renamed: Renamed): BookSheet {
  return {
    ...sheet,
    name,
    cells: sheet.cells.map((cell) =>
      cell.formula === undefined ? cell : { ...cell, formula: renamedIn(cell.formula, renamed) },
    ),
    names: sheet.names.map((one) => ({ ...one, reference: renamedIn(one.reference, renamed) })),
    entries: sheet.entries.map((entry) => entryWith(entry, renamed)),
    colours: sheet.colours.map((rule) => {
      const { when } = rule;
      if (when.kind === "formula") return { ...rule, when: { ...when, formula: renamedIn(when.formula, renamed) } };
      if (when.kind === "text") return rule;
      return { ...rule, when: { ...when, formulas: when.formulas.map((formula) => renamedIn(formula, renamed)) } };
    }),
  };
}

/**
 * The workbook with another name for each sheet whose own no program takes, or that another sheet has; formulas follow.
 * Of two of one name formulas mean the first.
 */
export function withTakenNames(book: Workbook, notUnderstood: NotUnderstood): Workbook {
  const taken: string[] = [];
  const renamed = new Map<string, string>();
  const fits = (name: string): boolean => faultOfSheetName(name) === undefined && !isSheetNameTaken(name, taken);
  // Names that may stay are kept for their sheets.
  const stay = book.sheets.map(({ name }) => {
    const fitting = fits(name);
    if (fitting) taken.push(name);
    return fitting;
  });
  const names = book.sheets.map(({ name }, i) => {
    if (stay[i]) return name;
    const free = freeSheetName(name, taken);
    const another = taken.some((other) => other.toLowerCase() === name.toLowerCase());
    taken.push(free);
    if (!another && !renamed.has(name.toLowerCase())) renamed.set(name.toLowerCase(), free);
    notUnderstood.add("names of sheets that programs do not take: changed", `“${name}” to “${free}”`);
    return free;
  });
  if (stay.every(Boolean)) return book;
  return {
    ...book,
    sheets: book.sheets.map((sheet, i) => sheetWith(sheet, names[i]!, renamed)),
    names: book.names.map((one) => ({ ...one, reference: renamedIn(one.reference, renamed) })),
  };
}
