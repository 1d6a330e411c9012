import { a1 } from "../../src/cells/index.ts";
import { afterEach, describe, expect, it } from "vitest";
import { handOutHeadRows, readHandOut } from "../../src/checker/index.ts";
import { openGridInNode, writeWorkbook, type CellContent } from "../../src/hosts/index.ts";
import { readWorkbook } from "../hosts/ourFile.ts";
import { columnCount, expand, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { memoryCalculator } from "../hosts/excelFake/memoryCalculator.ts";
import { MemoryHost } from "../hosts/memory/memoryHost.ts";
import { openFake } from "../hosts/openFake.ts";
import { smallPlan } from "../hosts/smallPlan.ts";
import type { TestHost } from "./faults.ts";

const facts = { when: "1 January 2026, 12:00", host: "the grid" };
const sheetName = "Beam";
const none = () => undefined;
type Cells = readonly (readonly CellContent[])[];

type Opened = { readonly host: TestHost };
let open: TestHost | undefined;
afterEach(() => open?.dispose());

async function built(plan: Plan, host: TestHost = new MemoryHost()): Promise<Opened> {
  open?.dispose();
  open = host;
  await host.apply(plan, { sheetName, progress: none });
  return { host };
}

const planOf = (id: string): Plan => {
  const template = templates.find((t) => t.id === id)!;
  return expand(template, template.example.inputs);
};

/** The copy's plan, and the copy itself beside the original. */
async function copied({ host }: Opened) {
  const { plan, recognised } = await readHandOut(host, sheetName, facts);
  const used = await host.used(sheetName);
  const original = await host.read(sheetName, used);
  await host.apply(plan, { sheetName: "Copy", progress: none });
  const copy = await host.read("Copy", { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
  return { plan, recognised, original, copy };
}

const shown = ({ value, error }: CellContent) => error?.code ?? (value === "" ? null : value);

function expectSameValues(original: Cells, copy: Cells): void {
  const others = original.flatMap((cells, row) =>
    cells.flatMap((content, column) => {
      const there = copy[handOutHeadRows + row]![column]!;
      const same = there.value === shown(content) && (typeof content.value !== "number" || there.text === content.text);
      return same ? [] : [`${a1({ row, column })}: ${content.text} copied as ${there.text}`];
    }),
  );
  expect(others).toEqual([]);
}

/** Every formula beside its row or said once for a column, and none said that is not there. */
function expectFormulasSaid(original: Cells, copy: Cells): void {
  const lines = copy.flatMap((cells) => String(cells.at(-1)!.value ?? "").split("\n"));
  const addressed = /^([A-Z]+)(\d+)(?: to [A-Z]+(\d+), each as the first)?: (.*)$/;
  const covered = new Map<string, string>();
  lines.forEach((line, i) => {
    const found = addressed.exec(line);
    if (!found) return;
    const [, letters, first, last, said] = found;
    // On the line of the words where both fit, else on the next one.
    const stands = said!.startsWith("=") ? said! : (/   (=.*)$/.exec(said!)?.[1] ?? lines[i + 1]!);
    expect(stands, line).toMatch(/^=/);
    for (let row = Number(first); row <= Number(last ?? first); row++)
      covered.set(`${letters}${row}`, `${letters}${first} ${stands}`);
  });
  const wrong: string[] = [];
  let formulas = 0;
  original.forEach((cells, row) =>
    cells.forEach(({ formula }, column) => {
      if (formula === undefined) return;
      formulas++;
      const here = a1({ row: row + handOutHeadRows, column });
      const told = covered.get(here);
      covered.delete(here);
      const [start, ...text] = (told ?? "A1").split(" ");
      const distance = Number(/\d+$/.exec(start!)![0]) - 1 - handOutHeadRows - row;
      if (told === undefined || !shiftedAlike(formula, text.join(" "), distance))
        wrong.push(`${here}: ${formula} told as ${told}`);
    }),
  );
  expect(wrong).toEqual([]);
  expect([...covered.keys()]).toEqual([]);
  expect(formulas).toBeGreaterThan(0);
}

/**
 * Each reference moved down by the head's rows, and in a formula said once perhaps by the way to the first cell as
 * well; all else letter by letter.
 */
function shiftedAlike(formula: string, told: string, distance: number): boolean {
  const [a, b] = [formula, told].map((text) => text.split(/("(?:[^"]|"")*"|\$?\b[A-Z]{1,3}\$?\d+\b(?!\())/));
  return (
    a!.length === b!.length &&
    a!.every((piece, i) => {
      const [x, y] = [piece, b![i]!].map((text) => /^(\$?[A-Z]{1,3}\$?)(\d+)$/.exec(text));
      if (!x || !y) return piece === b![i];
      return x[1] === y[1] && [handOutHeadRows, handOutHeadRows + distance].includes(Number(y[2]) - Number(x[2]));
    })
  );
}

const remark = "a remark of the user's own";

/** The plan as the sheet stands after `count` rows were put in before a row, with a remark in the first of them. */
function withRows(plan: Plan, before: number, count: number): Plan {
  const down = (row: number): number => (row >= before ? row + count : row);
  const moved = <T extends { readonly row: number }>(all: readonly T[]): readonly T[] =>
    all.map((one) => ({ ...one, row: down(one.row) }));
  const area = <T extends { readonly row: number; readonly rows: number }>(one: T): T => ({
    ...one,
    row: down(one.row),
    rows: down(one.row + one.rows - 1) - down(one.row) + 1,
  });
  const formula = (text: string): string =>
    text.replace(
      /("(?:[^"]|"")*")|(?<![\w.])(\$?[A-Z]{1,3}\$?)(\d+)(?![\w(.])/g,
      (all, string: string | undefined, column: string, row: string) =>
        string === undefined ? `${column}${down(Number(row) - 1) + 1}` : all,
    );
  return {
    ...plan,
    rows: plan.rows + count,
    cells: [
      ...moved(plan.cells).map((cell) =>
        cell.formula === undefined ? cell : { ...cell, formula: formula(cell.formula) },
      ),
      { row: before, column: 1, value: remark, role: "description" },
    ],
    names: plan.names.map(area),
    validations: plan.validations.map(area),
    highlights: plan.highlights.map(area),
    unlocked: plan.unlocked.map(area),
    spans: plan.spans.map(area),
    lines: Object.fromEntries(Object.entries(plan.lines).map(([row, lines]) => [down(Number(row)), lines])),
    charts: [],
  };
}

/** Every template in memory, one on the grid too. */
const copies = [
  ...templates.map(({ id }) => ({ id, where: "in memory", host: () => new MemoryHost() })),
  { id: templates[0]!.id, where: "on the grid", host: openGridInNode },
];

describe.each(copies)("the hand-out copy of $id $where", ({ id, host }) => {
  it("holds every value, no formula, and every formula as text", async () => {
    const { plan, recognised, original, copy } = await copied(await built(planOf(id), await host()));
    expect(recognised?.template.id).toBe(id);
    expect(plan.cells.filter(({ formula }) => formula !== undefined)).toEqual([]);
    expect(copy.flat().filter(({ formula }) => formula !== undefined)).toEqual([]);
    expectSameValues(original, copy);
    expectFormulasSaid(original, copy);
    const places = plan.cells.map(({ row, column }) => `${row} ${column}`);
    expect(new Set(places).size).toBe(places.length);
    expect(plan.charts).toHaveLength(recognised!.plan.charts.length);
  }, 120_000);
});

describe("the hand-out copy", () => {
  const id = "post-tensioned-en1992-2004";

  it("keeps looks, charts on the copied values, and says formulas in symbols", async () => {
    const plan = planOf(id);
    const { plan: copy } = await copied(await built(plan));
    const roles = new Map(copy.cells.map(({ row, column, role }) => [`${row - handOutHeadRows} ${column}`, role]));
    // Rows without content at the end, such as those for revisions to come, are left out.
    const lastRow = Math.max(...copy.cells.map(({ row }) => row)) - handOutHeadRows;
    expect(
      plan.cells.filter(
        ({ row, column, role, value, formula }) =>
          row <= lastRow && (value !== undefined || formula !== undefined) && roles.get(`${row} ${column}`) !== role,
      ),
    ).toEqual([]);
    expect(copy.widths.slice(0, plan.columns).every((width, column) => width <= plan.widths[column]!)).toBe(true);
    expect(copy.charts[0]!.series.map(({ y }) => y.row)).toEqual(
      plan.charts[0]!.series.map(({ y }) => y.row + handOutHeadRows),
    );
    const friction = copy.cells.find(({ value }) => typeof value === "string" && /KERN\.\w+\(\S+ \[\d/.test(value));
    expect(friction?.value).toMatch(/KERN\.\w+\([^,()]+ \[\d+\.\d+/);
    expect(copy.cells.some(({ value }) => typeof value === "string" && value.includes("HAND-OUT COPY"))).toBe(true);
  }, 120_000);

  it("is printed so that it can be read: the sheet on one page, formulas on the facing one, pages from block to block", async () => {
    const { plan, copy } = await copied(await built(planOf(id)));
    const sum = (widths: readonly number[]): number => widths.reduce((all, width) => all + width, 0);
    const left = sum(plan.widths.slice(0, columnCount));
    // A4 lying is 842 pt wide, less an inch; a character is 5.25 pt and letters are of 10 pt: no smaller than 6.5 pt.
    expect((10 * (842 - 72)) / (left * 5.25 + 14 * 3.75 + 30)).toBeGreaterThan(6.5);
    expect(sum(plan.widths)).toBe(2 * left);
    expect(
      plan.spans.filter(({ row, column, columns: width }) => row < handOutHeadRows && column + width > columnCount),
    ).toEqual([]);
    const blocks = plan.cells.filter(({ role, column }) => role === "block" && column === 0).map(({ row }) => row);
    expect(plan.print.breaks!.length).toBeGreaterThan(3);
    expect(plan.print.breaks!.filter((row) => !blocks.includes(row))).toEqual([]);
    const { print } = readWorkbook(writeWorkbook(plan, copy, "Copy"));
    expect(print).toMatchObject({
      pagesWide: "2",
      pageOrder: "overThenDown",
      addresses: true,
      breaks: plan.print.breaks,
    });
    // What is too long to fit twice is said once in words, then of other rows by the addresses alone.
    expect(
      copy
        .flatMap((cells) => String(cells.at(-1)!.value ?? "").split("\n"))
        .some((line) => /^[A-Z]+\d+: as [A-Z]+\d+ {3}=/.test(line)),
    ).toBe(true);
  }, 120_000);

  it("of a narrow sheet has its formulas on the same page", async () => {
    const { plan } = await copied(await built(smallPlan));
    expect(plan.print).toMatchObject({ addresses: true, breaks: [] });
    expect(plan.print.pagesWide).toBeUndefined();
  });

  it("copies a sheet into which rows were put", async () => {
    const plan = planOf(id);
    const {
      item,
      at: { row: middle },
    } = plan.meanings.find((meaning) => meaning.id === "fck")!;
    const { recognised, original, copy, plan: handOut } = await copied(await built(withRows(plan, middle, 2)));
    expect(recognised?.rowNow(middle)).toBe(middle + 2);
    expectSameValues(original, copy);
    expectFormulasSaid(original, copy);
    expect(copy[middle + handOutHeadRows]![1]!.value).toBe(remark);
    const charted = plan.charts[0]!.series[0]!.y.row;
    expect(handOut.charts[0]!.series[0]!.y.row).toBe(charted + 2 + handOutHeadRows);
    // Below the new rows, formulas still say the same in words.
    expect(
      copy.flatMap((cells) => String(cells.at(-1)!.value ?? "").split("\n")).some((line) => line.includes(`[${item}`)),
    ).toBe(true);
  }, 120_000);

  it("copies any other sheet, errors and texts that look like formulas as texts", async () => {
    const { plan, recognised, original, copy } = await copied(
      await built({
        ...smallPlan,
        cells: [
          ...smallPlan.cells,
          { row: 10, column: 2, formula: "=1/0", role: "value" },
          { row: 11, column: 2, formula: '=KERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m",-1,12)', role: "value" },
        ],
      }),
    );
    expect(recognised).toBeUndefined();
    expectSameValues(original, copy);
    expectFormulasSaid(original, copy);
    expect(copy[handOutHeadRows + 3]![0]).toMatchObject({ value: "=1+1" });
    expect(copy[handOutHeadRows + 10]![2]).toMatchObject({ value: "#DIV/0!" });
    expect(copy.flat().filter(({ error, formula }) => error ?? formula)).toEqual([]);
    expect(String(copy[handOutHeadRows + 11]!.at(-1)!.value)).toContain("#VALUE!:");
    expect(plan.charts).toEqual([]);
  });

  it("is a workbook file without a formula", async () => {
    const { plan, copy } = await copied(await built(planOf(id)));
    const read = readWorkbook(writeWorkbook(plan, copy, "Copy"));
    expect(read.cells.filter(({ formula }) => formula !== undefined)).toEqual([]);
  }, 120_000);

  it("stands in the spreadsheet program as on the grid", async () => {
    const { plan, copy } = await copied(await built(smallPlan));
    const { host, excel } = openFake({ calculator: memoryCalculator() });
    await host.apply(
      { ...plan, print: { ...plan.print, pagesWide: 2, breaks: [6, 9] } },
      { sheetName: "Copy", progress: none },
    );
    expect(excel.workbook.sheets.find(({ name }) => name === "Copy")!.page).toMatchObject({
      zoom: { horizontalFitToPages: 2 },
      printOrder: "OverThenDown",
      printHeadings: true,
      breaks: [6, 9],
    });
    const there = await host.read("Copy", { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
    expect(there.map((cells) => cells.map(({ value }) => value))).toEqual(
      copy.map((cells) => cells.map(({ value }) => value)),
    );
    expect(there.flat().filter(({ formula, error }) => formula ?? error)).toEqual([]);
  });

  it("refuses a copy of a copy", async () => {
    const { host } = await built(smallPlan);
    const { plan } = await readHandOut(host, sheetName, facts);
    await host.apply(plan, { sheetName: "Copy", progress: none });
    await expect(readHandOut(host, "Copy", facts)).rejects.toThrow("“Copy” is a hand-out copy already");
  });

  it("refuses an empty sheet", async () => {
    const made = await built(smallPlan);
    const free = (await made.host.sheetNames()).find((name) => name !== sheetName)!;
    await expect(readHandOut(made.host, free, facts)).rejects.toThrow(/empty/);
  });
});
