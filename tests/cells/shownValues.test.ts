import { describe, expect, it } from "vitest";
import { a1, type Book, type FormulaCell, valuesAgainstHost } from "../../src/cells/index.ts";
import { bookOfSheets } from "../../src/checker/index.ts";
import { valueFindings } from "../../src/checker/compare/computed.ts";
import { recogniseAmong } from "../../src/checker/recognise/recognise.ts";
import { templates } from "../../src/templates/index.ts";
import { builtBook } from "../checker/books.ts";

/** Formulas with a number to be falsified, none of which reads another of them. */
function apart(book: Book): readonly FormulaCell[] {
  const chosen = new Map<string, FormulaCell>();
  const readByChosen = new Set<string>();
  for (const cell of book.formulas.cells.values()) {
    const { value } = book.content(0, cell.row, cell.column);
    if (typeof value !== "number" || Math.abs(value) < 1e-6 || readByChosen.has(a1(cell))) continue;
    const readers = book.readersOf({ sheet: "Beam", row: cell.row, column: cell.column }).map((place) => a1(place));
    if (readers.some((reader) => chosen.has(reader))) continue;
    chosen.set(a1(cell), cell);
    for (const reader of readers) readByChosen.add(reader);
  }
  return [...chosen.values()];
}

describe("a false number on a shipped sheet", () => {
  it("is told of in every cell where it stands in place of the formula's", async () => {
    const snapshot = await (await builtBook("post-tensioned-en1992-2004")).snapshot();
    const planted = apart(bookOfSheets([snapshot]));
    expect(planted.length).toBeGreaterThan(2_000);
    const cells = snapshot.cells.map((row) => [...row]);
    for (const { row, column } of planted) cells[row]![column] = { ...cells[row]![column]!, value: 0 };
    const { differences } = valuesAgainstHost(bookOfSheets([{ ...snapshot, cells }]));
    const serious = new Set(differences.filter((one) => !one.byLastDigits).map(({ place }) => a1(place)));
    expect(planted.map((cell) => a1(cell)).filter((cell) => !serious.has(cell))).toEqual([]);
  });

  it("is serious for Compare, and to be looked at where the last digits decide it", async () => {
    const snapshot = await (await builtBook("post-tensioned-en1992-2004")).snapshot();
    const { formula = "" } = snapshot.cells.flat().find((cell) => cell.formula !== undefined)!;
    const of = (row: number, byLastDigits: boolean) => ({
      place: { sheet: "Beam", row, column: 0 },
      formula,
      host: { value: 1 },
      computed: { value: 2 },
      passedOver: false,
      byLastDigits,
    });
    const against = { compared: 2, differences: [of(1, false), of(2, true)], notCompared: [] };
    const findings = valueFindings(recogniseAmong(snapshot, templates)!, against);
    expect(findings.map(({ grade, what }) => [grade, what.slice(0, 23)])).toEqual([
      ["serious", "The cell shows another "],
      ["look", "The result turns on the"],
    ]);
  });
});
