import type { PlannedCell } from "../../../src/sheet/index.ts";
import { openGridInNode } from "../../../src/hosts/index.ts";
import { smallPlan } from "../smallPlan.ts";
import { withoutNames } from "./references.ts";
import type { Calculator, Computed } from "./services.ts";
import { placeOf, type FakeSheet, type FakeWorkbook } from "./state.ts";

function planned(sheet: FakeSheet, workbook: FakeWorkbook): PlannedCell[] {
  return [...sheet.cells].map(([key, { value, formula, numberFormat }]): PlannedCell => {
    const [row, column] = placeOf(key);
    return {
      row,
      column,
      role: "value",
      ...(numberFormat !== "General" && { format: numberFormat }),
      ...(formula !== undefined ? { formula: withoutNames(formula, sheet, workbook) } : value !== "" && { value }),
    };
  });
}

/** Room for what formulas fill beside their own cells. */
const beside = 10;

async function compute(workbook: FakeWorkbook): Promise<Values> {
  const grid = await openGridInNode();
  try {
    const out = new Map<string, Map<string, Computed>>();
    for (const sheet of workbook.sheets) {
      const cells = planned(sheet, workbook);
      const rows = Math.max(0, ...cells.map(({ row }) => row)) + 1;
      const columns = Math.max(0, ...cells.map(({ column }) => column)) + 1;
      if (sheet.name === "Sheet1") await grid.insert(sheet.name, cells);
      else
        await grid.apply(
          {
            ...smallPlan,
            rows: rows + beside,
            columns: columns + beside,
            spans: [],
            lines: {},
            cells,
            names: [],
            validations: [],
            highlights: [],
            unlocked: [],
          },
          { sheetName: sheet.name, progress: () => undefined },
        );
      // The grid's own calculation, not what the sheet came with.
      await grid.recalculate();
      const area = {
        row: 0,
        column: 0,
        rows: sheet.name === "Sheet1" ? rows : rows + beside,
        columns: sheet.name === "Sheet1" ? columns : columns + beside,
      };
      const found = new Map<string, Computed>();
      (await grid.read(sheet.name, area)).forEach((line, row) =>
        line.forEach(({ value, text, error }, column) => {
          const own = sheet.cells.get(`${row} ${column}`);
          if (own ? own.formula !== undefined : value !== null || error)
            found.set(
              `${row} ${column}`,
              error ? { value: error.code, text: error.code, error: true } : { value: value ?? 0, text, error: false },
            );
        }),
      );
      out.set(sheet.id, found);
    }
    return out;
  } finally {
    grid.dispose();
  }
}

type Values = ReadonlyMap<string, ReadonlyMap<string, Computed>>;

/** A name that is made anew each time means the same calculation. */
const passing = /kb-[0-9a-f-]{23}/g;

/** Computes with the embedded grid, without a screen. */
export const gridCalculator = (): Calculator => remembering(compute);

/** The same contents are computed once. */
export function remembering(compute: (workbook: FakeWorkbook) => Promise<Values>): Calculator {
  const known = new Map<string, Promise<Values>>();
  return async (workbook) => {
    const contents = JSON.stringify([
      [...workbook.names],
      workbook.sheets.map(({ name, cells, names }) => [
        name,
        [...cells].map(([key, { value, formula, numberFormat }]) => [key, value, formula, numberFormat]),
        [...names],
      ]),
    ]).replace(passing, "kb");
    // A copy: the workbook may be changed while it is computed.
    if (!known.has(contents)) known.set(contents, compute(structuredClone(workbook)));
    // Ids count on from sheet to sheet; the order of the sheets is the same.
    return new Map([...(await known.get(contents)!).values()].map((cells, i) => [workbook.sheets[i]!.id, cells]));
  };
}
