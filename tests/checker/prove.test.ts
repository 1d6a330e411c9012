import { readdirSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { worksheetFunctions } from "../../functions/index.ts";
import { readValidation, validationPlan, type MadeWhere } from "../../src/checker/prove/index.ts";
import { publishedCases } from "../../src/command/cases.ts";
import { version } from "../../src/core/index.ts";
import { openGridInNode, type CellContent, type GridHost } from "../../src/hosts/index.ts";
import { asItShould, judge, loadCases, type PublishedCase } from "../../src/published/index.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { gridCalculator } from "../hosts/excelFake/gridCalculator.ts";
import { openFake } from "../hosts/openFake.ts";

const cases = publishedCases();
const asBuilt = (all: readonly PublishedCase[]) => (at: MadeWhere) => validationPlan(all, worksheetFunctions, at).plan;
const where = { when: "1 January 2026, 12:00 UTC", host: "the grid" };
const sheetName = "Validation";
const verdictColumn = 14;
const liveColumn = 6;

interface Open {
  readonly host: GridHost;
  readonly cells: readonly (readonly CellContent[])[];
}
let open: GridHost | undefined;
/** A fresh grid each time, the one before closed. */
async function onGrid(plan: Plan): Promise<Open> {
  open?.dispose();
  const host = await openGridInNode();
  open = host;
  await host.apply(plan, { sheetName, progress: () => undefined });
  return { host, cells: await host.read(sheetName, { row: 0, column: 0, rows: plan.rows, columns: plan.columns }) };
}
afterAll(() => open?.dispose());

/** A plan with one cell's value changed, as a wrong entry would. */
function changed(plan: Plan, row: number, column: number, value: number): Plan {
  const cells = plan.cells.map((cell) => (cell.row === row && cell.column === column ? { ...cell, value } : cell));
  expect(cells).not.toEqual(plan.cells);
  return { ...plan, cells };
}

/** Printed as the function gives it. */
const own = cases.find(
  ({ rows, step, mustDiffer }) =>
    rows.length > 1 && step === undefined && !mustDiffer && rows.every(({ then }) => then === undefined),
)!;
const superseded = cases.find(({ mustDiffer }) => mustDiffer)!;
const stepped = cases.find(({ step }) => step !== undefined)!;
const ranged = cases.find(({ rows }) => rows[0]!.inputs.some((input) => Array.isArray(input)))!;

describe("the validation sheet of every published check", () => {
  const made = validationPlan(cases, worksheetFunctions, where);
  let on: Open;
  beforeAll(async () => {
    on = await onGrid(made.plan);
  }, 120_000);

  it(
    "has a live formula and a verdict computed on the sheet for every value, and a refusal for every " +
      "function that declares a range",
    () => {
      expect(made.rows.filter(({ entry }) => entry.rule !== "refuses")).toHaveLength(
        cases.reduce((sum, { rows }) => sum + rows.length, 0),
      );
      for (const { row, function: id } of made.rows) {
        expect(on.cells[row]![liveColumn]!.formula).toMatch(new RegExp(`^=KERN\\.${id}\\(`));
        expect(on.cells[row]![verdictColumn]!.formula).toMatch(/^=IF\(/);
      }
      // Formulas read cells: no number of a check stands in one.
      for (const { row } of made.rows)
        expect(on.cells[row]![liveColumn]!.formula!.replace(/\$?[A-Z]+\$?\d+/g, "").replace(/^=KERN\.\w+/, "")).toMatch(
          /^\([,:]*\)$/,
        );
    },
  );

  it("says of every value what the comparison outside of the sheet says", () => {
    for (const c of cases) {
      const rows = made.rows.filter(({ id, entry }) => id === c.id && entry.rule !== "refuses");
      const { outcomes } = judge(c, worksheetFunctions);
      expect(rows).toHaveLength(outcomes.length);
      rows.forEach(({ row }, i) => {
        const should = !asItShould(c, outcomes[i]!)
          ? "FAIL"
          : c.mustDiffer
            ? outcomes[i]!.agrees
              ? "PASS"
              : "DIFFERS"
            : c.step === undefined
              ? "PASS"
              : "BY TRACE";
        expect(on.cells[row]![verdictColumn]!.value, `${c.id}, row ${i + 1}`).toBe(should);
      });
    }
  });

  it("shows each refusal as the function's own #VALUE!", () => {
    const refusals = made.rows.filter(({ entry }) => entry.rule === "refuses");
    expect(refusals.length).toBeGreaterThan(30);
    for (const { row, entry } of refusals) {
      expect(on.cells[row]![liveColumn]!.error?.code, entry.what).toBe("#VALUE!");
      expect(on.cells[row]![verdictColumn]!.value, entry.what).toBe("REFUSED");
    }
  });

  it("counts live and says PASS, the version now and as built", async () => {
    const read = (await readValidation(on.host, sheetName, asBuilt(cases)))!;
    expect(read.overall).toBe("PASS");
    expect([read.versionNow, read.versionBuilt]).toEqual([version, version]);
    expect(read.failing).toEqual([]);
    expect(read.changed).toEqual([]);
    const all = read.counts.at(-1)!;
    expect(all.values).toBe(made.rows.length);
    expect(all.by.reduce((sum, n) => sum + n, 0)).toBe(made.rows.length);
    expect(read.counts[0]!.values).toBe(
      cases.filter((c) => c.basis === "published" && !c.mustDiffer).reduce((sum, { rows }) => sum + rows.length, 0),
    );
  });

  it("puts no two things into one cell, joins no cells in tables and keeps within itself", () => {
    const { plan } = made;
    const places = plan.cells.map(({ row, column }) => `${row} ${column}`);
    expect(new Set(places).size).toBe(places.length);
    expect(new Set(plan.names.map(({ name }) => name)).size).toBe(plan.names.length);
    for (const { row, column } of plan.cells) expect(row < plan.rows && column < plan.columns).toBe(true);
    const covered = new Set(
      plan.spans.flatMap((span) =>
        Array.from({ length: span.columns - 1 }, (_, i) => `${span.row} ${span.column + 1 + i}`),
      ),
    );
    expect(places.filter((place) => covered.has(place))).toEqual([]);
    expect(plan.spans.filter(({ row }) => made.rows.some((r) => r.row === row))).toEqual([]);
  });
});

describe("what is wrong shows", () => {
  const verdictsOf = async (c: PublishedCase, change: (made: ReturnType<typeof validationPlan>) => Plan) => {
    const made = validationPlan([c], worksheetFunctions, where);
    const { host, cells } = await onGrid(change(made));
    return {
      verdicts: made.rows.map(({ row }) => cells[row]![verdictColumn]!.value),
      read: (await readValidation(host, sheetName, asBuilt([c])))!,
    };
  };

  it("a wrong printed value", async () => {
    const { verdicts, read } = await verdictsOf(own, ({ plan, rows }) =>
      changed(plan, rows[1]!.row, 5, rows[1]!.entry.printed!.number * 1.5 + 1),
    );
    expect(verdicts.slice(0, own.rows.length)).toEqual(own.rows.map((_, i) => (i === 1 ? "FAIL" : "PASS")));
    expect(read.overall).toBe("FAIL");
    expect(read.failing.map(({ no }) => no)).toEqual(["1.2"]);
  });

  it("a wrong input", async () => {
    const { verdicts, read } = await verdictsOf(ranged, ({ plan, rows }) => {
      const block = rows[0]!.inputs.find((input) => "rows" in input)!;
      const cell = plan.cells.find(
        ({ row, column, value }) =>
          row >= block.row && column >= block.column && typeof value === "number" && value > 0,
      )!;
      return changed(plan, cell.row, cell.column, Number(cell.value) * 3);
    });
    expect(verdicts[0]).toBe("FAIL");
    expect(read.overall).toBe("FAIL");
  });

  it("a superseded value that agrees after all", async () => {
    const at = superseded.rows.findIndex(({ coincides }) => !coincides);
    const computed = judge(superseded, worksheetFunctions).outcomes[at]!.computed!;
    const { verdicts, read } = await verdictsOf(superseded, ({ plan, rows }) =>
      changed(plan, rows[at]!.row, 5, computed),
    );
    expect(verdicts[at]).toBe("FAIL");
    expect(read.overall).toBe("FAIL");
  });

  it("a step that is another than printed, and a step whose function fails here", async () => {
    const printed = await verdictsOf(stepped, ({ plan, rows }) => changed(plan, rows[0]!.row, 5, 1e6));
    expect(printed.verdicts[0]).toBe("FAIL");
    const failing = await verdictsOf(stepped, ({ plan, rows }) => ({
      ...plan,
      cells: plan.cells.map((cell) =>
        cell.row === rows[0]!.row && cell.column === liveColumn ? { ...cell, formula: "=KERN.NOT_THERE(1)" } : cell,
      ),
    }));
    expect(failing.verdicts[0]).toBe("FAIL");
  });

  it("a function that gives another result here, on every row that is not superseded or a rounded 0: those by trace too", async () => {
    const made = validationPlan(cases, worksheetFunctions, where);
    const wrong = {
      ...made.plan,
      cells: made.plan.cells.map((cell) =>
        cell.column === liveColumn && cell.formula?.startsWith("=KERN.") && cell.role === "value"
          ? { ...cell, formula: `${cell.formula}*1.5` }
          : cell,
      ),
    };
    const { cells } = await onGrid(wrong);
    const still = made.rows.filter(
      ({ row, entry }) =>
        entry.rule !== "refuses" &&
        entry.rule !== "differs" &&
        entry.printed!.number !== 0 &&
        cells[row]![verdictColumn]!.value !== "FAIL",
    );
    expect(still.map(({ id, no }) => `${no} ${id}`)).toEqual([]);
    expect(made.rows.filter(({ entry }) => entry.rule === "by trace").length).toBeGreaterThan(50);
  }, 120_000);

  it("an input that is not refused, and a function that is not there instead of refusing", async () => {
    const last = (rows: ReturnType<typeof validationPlan>["rows"]) => rows.at(-1)!;
    const allowed = await verdictsOf(own, ({ plan, rows }) => ({
      ...plan,
      cells: plan.cells.map((cell) =>
        cell.row === last(rows).row && cell.column === liveColumn
          ? { ...cell, formula: plan.cells.find((c) => c.row === rows[0]!.row && c.column === liveColumn)!.formula! }
          : cell,
      ),
    }));
    expect(allowed.verdicts.at(-1)).toBe("FAIL");
    const gone = await verdictsOf(own, ({ plan, rows }) => ({
      ...plan,
      cells: plan.cells.map((cell) =>
        cell.row === last(rows).row && cell.column === liveColumn ? { ...cell, formula: "=KERN.NOT_THERE(1)" } : cell,
      ),
    }));
    expect(gone.verdicts.at(-1)).toBe("FAIL");
  });

  it("a value, a verdict and the word for the whole typed over their formulas", async () => {
    const typedAt = (row: number, column: number, value: number | string) => async () => {
      const { read } = await verdictsOf(own, ({ plan }) => ({
        ...plan,
        cells: plan.cells.map(({ formula, ...cell }) =>
          cell.row === row && cell.column === column
            ? { ...cell, value }
            : { ...cell, ...(formula !== undefined && { formula }) },
        ),
      }));
      return [read.overall, read.failing.map(({ no, verdict }) => [no, verdict])];
    };
    const { rows, plan } = validationPlan([own], worksheetFunctions, where);
    const { row, entry } = rows[0]!;
    expect(await typedAt(row, liveColumn, entry.printed!.number)()).toEqual([
      "FAIL",
      [["1.1", "PASS, typed over a formula"]],
    ]);
    expect(await typedAt(row, verdictColumn, "PASS")()).toEqual(["FAIL", [["1.1", "PASS, typed over a formula"]]]);
    expect(await typedAt(plan.summary.overall.row, plan.summary.overall.column, "PASS")()).toEqual(["FAIL", []]);
  });

  it("a wrong printed value with a tolerance that lets it pass", async () => {
    const { verdicts, read } = await verdictsOf(own, ({ plan, rows: [first] }) =>
      changed(changed(plan, first!.row, 5, first!.entry.printed!.number * 1.5 + 1), first!.row, 13, 1e9),
    );
    expect(verdicts[0]).toBe("PASS");
    expect(read.overall).toBe("FAIL");
    expect(read.changed.map(({ column }) => column)).toEqual(expect.arrayContaining([5, 13]));
    expect(read.changed).toHaveLength(2);
  });

  it("functions of another version", async () => {
    const { read } = await verdictsOf(own, ({ plan }) => ({
      ...plan,
      cells: plan.cells.map((cell) => (cell.row === 9 && cell.value === version ? { ...cell, value: "0.0.0" } : cell)),
    }));
    expect(read.overall).toBe("CHANGED");
  });

  it("a check of a function that is not there is refused before anything is built", () => {
    expect(() => validationPlan([{ ...own, function: "NOT_THERE" }], worksheetFunctions, where)).toThrow(/NOT_THERE/);
  });
});

describe("elsewhere", () => {
  it("reads the same in the spreadsheet program", async () => {
    const made = validationPlan([own, superseded, stepped, ranged], worksheetFunctions, where);
    const { host } = openFake({ calculator: gridCalculator() });
    await host.apply(made.plan, { sheetName, progress: () => undefined });
    const area = { row: 0, column: 0, rows: made.plan.rows, columns: made.plan.columns };
    const cells = await host.read(sheetName, area);
    const grid = await onGrid(made.plan);
    const shown = (all: Open["cells"]) =>
      made.rows.map(({ row }) => all[row]!.slice(0, 15).map(({ value, error }) => error?.code ?? value));
    expect(shown(cells)).toEqual(shown(grid.cells));
    expect(cells[13]![2]!.value).toBe("PASS");
  }, 60_000);

  it("loads every file of checks", async () => {
    expect(readdirSync(new URL("../../src/published/cases", import.meta.url)).length).toBeGreaterThan(0);
    expect(await loadCases()).toEqual(cases);
  });
});
