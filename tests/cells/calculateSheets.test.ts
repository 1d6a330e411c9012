import { afterEach, describe, expect, it } from "vitest";
import { valuesAgainstHost } from "../../src/cells/index.ts";
import { bookOfSheets } from "../../src/checker/index.ts";
import type { GridHost } from "../../src/hosts/index.ts";
import type { Inputs } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { gridBook } from "../checker/books.ts";
import { profile } from "../plan/profile.ts";

let host: GridHost | undefined;
afterEach(() => host?.dispose());

/** A sheet that comes to the grid with its values is computed once more by the grid itself: nothing is held against its own values. */
async function computedByTheGrid(id: string, inputs: Inputs = {}) {
  const built = await gridBook(id, inputs);
  host = built.host;
  let calls = 0;
  const counted = host.onCalculated(() => calls++);
  await host.recalculate();
  counted();
  expect(calls).toBeGreaterThan(0);
  return built;
}

/** Every formula computed, and nothing but what the host says. */
async function allAgree(id: string, inputs: Inputs = {}): Promise<void> {
  const built = await computedByTheGrid(id, inputs);
  const book = bookOfSheets([await built.snapshot()]);
  const { compared, differences, notCompared } = valuesAgainstHost(book);
  expect(notCompared).toEqual([]);
  expect(differences).toEqual([]);
  expect(compared).toBe(book.formulas.cells.size);
  expect(compared).toBeGreaterThan(4000);
}

describe("every cell of a shipped template's sheet is what its formula gives", () => {
  it.each(templates.map(({ id }) => id))("%s, the example", async (id) => allAgree(id), 120_000);
  it(
    "with a limit exceeded and warnings",
    () => allAgree("post-tensioned-en1992-2004", { fck: 40, mu: 0.35 }),
    120_000,
  );
  it("with inputs left empty: the same errors and messages, but where the grid passes over an error in a comparison", async () => {
    const built = await computedByTheGrid("pre-tensioned-en1992-2004", { fck: null, tRelax: null, RH: null });
    const book = bookOfSheets([await built.snapshot()]);
    const { differences, notCompared } = valuesAgainstHost(book);
    expect(notCompared).toEqual([]);
    expect(differences.filter(({ passedOver }) => !passedOver)).toEqual([]);
    const errors = [...book.formulas.cells.values()].filter(
      ({ sheet, row, column }) => book.content(sheet, row, column).error,
    );
    expect(errors.length).toBeGreaterThan(1000);
  }, 120_000);
  it(
    "with another number of tendons",
    () =>
      allAgree("post-tensioned-is1343-1980", {
        tendons: 2,
        tendonName: ["lower", "upper"],
        strands: [8, 6],
        duct: [65, 65],
        sigj: [1380, 1300],
        end: ["LEFT", "LEFT"],
        order: [2, 1],
        zt: [0, 0],
        Rlim: [6, 6],
        ...profile({
          cpx: [
            [0, 12, 24],
            [0, 12, 24],
          ],
          cpe: [
            [360, 550, 360],
            [-320, 450, -320],
          ],
          cps: [
            ["TO_LEVEL", "FROM_LEVEL", "LINE"],
            ["TO_LEVEL", "FROM_LEVEL", "LINE"],
          ],
        }),
      }),
    120_000,
  );
});

describe("a value that its formula does not give is told", () => {
  it("a number changed in the host's answer, with what follows from it left alone", async () => {
    const built = await computedByTheGrid("pre-tensioned-is1343-1980");
    const snapshot = await built.snapshot();
    const check = built.plan.summary.checks[0]!.utilisation;
    const cells = snapshot.cells.map((row, r) =>
      row.map((cell, c) =>
        r === check.row && c === check.column ? { ...cell, value: (cell.value as number) * (1 + 1e-6) } : cell,
      ),
    );
    const { differences } = valuesAgainstHost(bookOfSheets([{ ...snapshot, cells }]));
    expect(differences).toHaveLength(1);
    expect(differences[0]).toMatchObject({
      place: { sheet: "Beam", ...check },
      formula: snapshot.cells[check.row]![check.column]!.formula,
    });
  }, 120_000);
});
