/**
 * What people do to the source of a linked sheet: rename, rows inserted, copy, deletion, rebuild. What spreadsheet
 * programs do to references then is common practice, no source.
 */
import { afterEach, describe, expect, it } from "vitest";
import { a1, cellAt, cellsOf, holds } from "../../src/cells/index.ts";
import {
  compare,
  handOutHeadRows,
  linkAgain,
  linkedPlan,
  markCells,
  partsOf,
  questioned,
  readHandOut,
  readMarks,
  readRevisions,
  recognise,
  revisionCells,
  sheetsOf,
  takeSnapshot,
  Tracer,
  whatIf,
} from "../../src/checker/index.ts";
import { stateOf } from "../../src/checker/marks/marks.ts";
import { wholeSheet } from "../../src/checker/marks/parts.ts";
import { areasOf, sealNow, sealText } from "../../src/checker/marks/seal.ts";
import { branchesOf } from "../../src/checker/trace/tree.ts";
import { GridHost } from "../../src/hosts/grid/gridHost.ts";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { workbookId } from "../../src/hosts/grid/runtime.ts";
import { columns, expand, type Inputs, type Plan } from "../../src/sheet/index.ts";
import { linkedTemplates } from "../../src/templates/index.ts";
import type { Faults, TestHost } from "./faults.ts";
import { GridFaults } from "./gridFaults.ts";
import { MemoryFaults } from "./memoryFaults.ts";

const template = linkedTemplates.find(({ id }) => id === "cross-check-post-tensioned-is1343-1980")!;
const source = template.source!.template;
const [beam, linked] = ["Beam 1", "Cross-check"];
const progress = (): void => undefined;

interface Pair {
  readonly host: TestHost;
  readonly faults: Faults;
  readonly plan: Plan;
  readonly of: Plan;
}
let open: TestHost | undefined;
afterEach(() => open?.dispose());

/** On the grid, where every edit takes seconds: the example with fewer stations and without what may be left out. */
const fewer = { intervals: 1, web: "NO", detailing: "NO", lifted: "NO" };

async function pairOn(host: TestHost, faults: Faults, shape: Inputs = {}): Promise<Pair> {
  open = host;
  const of = expand(source, { ...source.example.inputs, ...shape });
  await host.apply(of, { sheetName: beam, progress });
  const plan = await linkedPlan(host, template, beam, template.example.inputs);
  await host.apply(plan, { sheetName: linked, progress });
  return { host, faults, plan, of };
}

function inMemory(): Promise<Pair> {
  const faults = new MemoryFaults();
  return pairOn(faults.host, faults);
}

async function onGrid(): Promise<Pair> {
  const grid = nodeGrid();
  return pairOn(grid.host, new GridFaults(grid), fewer);
}

async function valueOf({ host, plan }: Pair, id: string, sheet = linked): Promise<unknown> {
  const { row, column } = plan.meanings.find((one) => one.id === id)!.at;
  return cellAt(await takeSnapshot(host, sheet), row, column).value;
}

async function overall({ host, plan }: Pair): Promise<unknown> {
  const { row, column } = plan.summary.overall;
  return cellAt(await takeSnapshot(host, linked), row, column).value;
}

const broken = async (host: TestHost, sheet = linked) =>
  (await compare(host, sheet))!.findings.filter(({ kind }) => kind === "link broken");

describe.each([
  ["in memory", inMemory],
  ["on the grid", onGrid],
] as const)("a linked sheet %s", (_where, built) => {
  it(
    "follows the source's inputs, a new name and rows inserted there; deletion is told, a rebuilt source is linked again",
    { timeout: 300_000 },
    async () => {
      const pair = await built();
      const { host, faults, of } = pair;
      expect(await sheetsOf(host, template.source!.template.id)).toEqual([beam]);
      expect(await overall(pair)).toBe("OK");
      expect((await compare(host, linked))!.clean).toBe(true);

      const { row, column } = of.meanings.find(({ id }) => id === "tg")!.at;
      const before = await valueOf(pair, "soPct");
      await host.enter({ sheet: beam, row, column }, 90);
      expect(await valueOf(pair, "tg")).toBe(90);
      expect(await valueOf(pair, "soPct")).not.toBe(before);

      await faults.rename(beam, "B1, main span");
      await faults.unprotected("B1, main span");
      await faults.insertRows("B1, main span", of.meanings.find(({ id }) => id === "fck")!.at.row, 2);
      await host.enter({ sheet: "B1, main span", row: row + 2, column }, 60);
      expect(await valueOf(pair, "tg")).toBe(60);
      expect(await valueOf(pair, "soPct")).toBeCloseTo(before as number, 12);
      expect(await broken(host)).toEqual([]);
      expect(await overall(pair)).toBe("OK");
      // In the grid the words that name the source follow it; programs leave them, and Compare tells.
      const follows = host instanceof GridHost;
      expect(await valueOf(pair, "sourceSheet")).toBe(follows ? "B1, main span" : beam);
      const said = (await compare(host, linked))!.findings.map(({ what }) => what);
      expect(said.some((what) => what.startsWith("The sheet names another"))).toBe(!follows);

      await faults.remove("B1, main span");
      expect(await overall(pair)).toBe("INCOMPLETE");
      const band = cellAt(await takeSnapshot(host, linked), 1, 3).text;
      expect(band).toContain("No value from the source sheet (correct it there, or link it again under Build): ");
      const body = Math.min(...pair.plan.cells.flatMap(({ role, row }) => (role === "block" ? [row] : [])));
      const front = (await takeSnapshot(host, linked)).cells.slice(0, body);
      expect(front.flat().flatMap(({ error, formula }) => (error ? [formula] : []))).toEqual([]);
      expect(await valueOf(pair, "member")).toBe("NO VALUE");
      const found = await broken(host);
      expect(found.length).toBeGreaterThan(20);
      expect(found[0]!.what).toContain("The link is broken");

      await host.apply(of, { sheetName: "Beam 2", progress });
      expect(await overall(pair)).toBe("INCOMPLETE");
      await linkAgain(host, linked, "Beam 2");
      expect(await overall(pair)).toBe("OK");
      expect(await valueOf(pair, "soPct")).toBeCloseTo(before as number, 12);
      expect(await valueOf(pair, "sourceSheet")).toBe("Beam 2");
      expect((await compare(host, linked))!.clean).toBe(true);
    },
  );
});

it(
  "on the grid the words that name the source also follow when its renaming is taken back and done again",
  { timeout: 300_000 },
  async () => {
    const grid = nodeGrid();
    const pair = await pairOn(grid.host, new GridFaults(grid), fewer);
    const { core, univer } = grid.runtime;
    const injector = univer.__getInjector();
    const again = async (id: string): Promise<unknown> => {
      injector.get(core.IUniverInstanceService).focusUnit(workbookId);
      expect(await injector.get(core.ICommandService).executeCommand(id)).toBe(true);
      return valueOf(pair, "sourceSheet");
    };
    await pair.faults.rename(beam, "B1");
    expect(await valueOf(pair, "sourceSheet")).toBe("B1");
    expect(await again(core.UndoCommand.id)).toBe(beam);
    expect(await again(core.RedoCommand.id)).toBe("B1");
  },
);

describe("the seal of a whole linked sheet", () => {
  const known = (host: TestHost) => recognise(host, linked);
  const revised = async (host: TestHost) => readRevisions((await known(host))!)!.revisions[0]!.state;

  it("leaves out the words that name its source, and nothing beside them", { timeout: 120_000 }, async () => {
    const pair = await inMemory();
    const { host, faults, plan } = pair;
    const name = plan.meanings.find(({ id }) => id === "sourceSheet")!.at;
    const before = (await known(host))!;
    const older = sealText(sealNow(wholeSheet(plan), before, "all")!);
    const ofOlder = async () => stateOf({ value: "", text: "" }, older, wholeSheet(plan), (await known(host))!);
    /** Cells of the first page that the seal leaves out, marks aside. */
    const leftOut = async () => {
      const areas = areasOf(wholeSheet(plan), (await known(host))!);
      const cells = cellsOf({ row: 0, column: 0, rows: name.row + 10, columns: columns.mark });
      return cells.filter((cell) => !areas.some((area) => holds(area, cell))).map((cell) => a1(cell));
    };
    const revision = { name: "A", what: "first issue", date: "2026-11-30", by: "RS", checkedBy: "MT" };
    await faults.unprotected(linked);
    for (const { row, column, value, formula } of revisionCells(before, revision))
      await host.enter({ sheet: linked, row, column }, formula ?? value ?? "");
    const { row, column } = (await known(host))!.plan.meanings.find(({ id }) => id === "revState")!.at;
    const shown = async (below = 0) => cellAt(await takeSnapshot(host, linked), row + below, column).text;
    expect([await revised(host), await ofOlder()]).toEqual(["holds", "holds"]);
    expect(await shown()).not.toMatch(/^STALE/);

    await host.enter({ sheet: linked, ...name }, "Beam 2");
    expect([await revised(host), await ofOlder()]).toEqual(["holds", "stale: values changed"]);
    expect(await shown()).not.toMatch(/^STALE/);

    for (const [beside, now] of [
      [name.row, name.row + 1],
      [name.row + 1, name.row],
    ] as const) {
      await faults.insertRows(linked, beside, 1);
      await host.enter({ sheet: linked, row: beside, column: 1 }, "Loads halved");
      expect(await leftOut()).toEqual([a1({ row: now, column: name.column })]);
      expect(await revised(host)).toBe("stale: values changed");
      expect(await shown(1)).toMatch(/^STALE/);
      await faults.deleteRows(linked, beside, 1);
      expect(await revised(host)).toBe("holds");
    }
    expect(await leftOut()).toEqual([a1(name)]);
  });
});

describe("links that are not as built are told", () => {
  const cellOf = (pair: Pair, id: string) => pair.plan.meanings.find((one) => one.id === id)!.at;

  it.each([
    ["another cell of the source", "='Beam 1'!$H$30", "The link refers to another cell"],
    ["a sheet that is none of the source's", "=Sheet1!$A$1", "which is no sheet of"],
    ["something added", "='Beam 1'!$H$30*1.1", "The link was changed"],
  ])("%s", async (_, formula, what) => {
    const pair = await inMemory();
    await pair.host.enter({ sheet: linked, ...cellOf(pair, "Ecm") }, formula);
    const found = await broken(pair.host);
    expect(found.map((one) => one.what).join("\n")).toContain(what);
  });

  it("a copy in a workbook without the source, until the source is copied too", { timeout: 300_000 }, async () => {
    const pair = await onGrid();
    const { host: other, sheet } = await pair.faults.copyToAnotherBook(linked);
    const found = await broken(other, sheet);
    expect(found.length).toBeGreaterThan(20);
    expect(found[0]!.what).toMatch(/not in this workbook|The link is broken/);
    await other.apply(pair.of, { sheetName: beam, progress });
    await linkAgain(other, sheet, beam);
    expect(await broken(other, sheet)).toEqual([]);
    other.dispose();
  });

  it("a value typed over a link", async () => {
    const pair = await inMemory();
    await pair.host.enter({ sheet: linked, ...cellOf(pair, "Ecm") }, 36);
    const { findings } = (await compare(pair.host, linked))!;
    expect(findings.map(({ kind, what }) => `${kind}: ${what}`)).toContainEqual(
      expect.stringContaining("typed over: A value was typed over the link"),
    );
  });
});

describe("what if", () => {
  it("recomputes the linked sheets too, without touching them", async () => {
    const pair = await inMemory();
    const of = (await questioned(pair.host, beam))!;
    const end = of.inputs.find(({ id }) => id === "tEnd")!;
    const { linked: then, overall: own } = whatIf(of, [{ input: end, amount: { kind: "to", value: null } }]);
    expect(then).toEqual([{ sheet: linked, before: "OK", after: "INCOMPLETE" }]);
    expect(own.after).toBe("INCOMPLETE");
    expect(await overall(pair)).toBe("OK");
  });
});

describe("tracing and handing out", () => {
  it("a linked value leads to its cell of the source, and from there on", async () => {
    const { host, plan, of } = await inMemory();
    const tracer = new Tracer(host);
    const { row, column } = plan.meanings.find(({ id }) => id === "Ecm")!.at;
    const there = of.meanings.find(({ id }) => id === "Ecm")!.at;
    const [branch] = branchesOf(await tracer.trace({ sheet: linked, row, column }), linked);
    expect(branch!.address).toBe(`${beam}!${a1(there)}`);
    expect(branchesOf(await tracer.trace({ sheet: beam, ...there }), beam).length).toBeGreaterThan(0);
  });

  it("a copy to hand out holds the values and says what they were linked to", async () => {
    const { host, plan } = await inMemory();
    const { plan: copy } = await readHandOut(host, linked, { when: "1 January 2026, 12:00", host: "memory" });
    expect(copy.cells.every(({ formula }) => formula === undefined)).toBe(true);
    const { row } = plan.meanings.find(({ id }) => id === "Ecm")!.at;
    const texts = copy.cells
      .filter((cell) => cell.row === row + handOutHeadRows)
      .map(({ value }) => String(value ?? ""));
    expect(texts.join("\n")).toContain("'Beam 1'!$H$");
  });
});

describe("signing off", () => {
  it("a mark on linked values turns stale when the source's values change, and holds when the source is renamed", async () => {
    const pair = await inMemory();
    const { host, faults, of } = pair;
    const known = (await recognise(host, linked))!;
    const part = partsOf(known.plan)
      .flatMap(({ items }) => items)
      .find(({ description }) => description.startsWith("Linked, by station"))!;
    await host.enterAll(linked, markCells(part, known, "AB", "2026-11-29"));
    const state = async () =>
      readMarks((await recognise(host, linked))!).find(({ part: of }) => of.item === part.item)!.state;
    expect(await state()).toBe("holds");
    await faults.rename(beam, "B1");
    const says = (await compare(host, linked))!.findings.filter(({ what }) => what.startsWith("The sheet names"));
    expect(says.map(({ expected, found }) => [expected, found])).toEqual([["B1", beam]]);
    await faults.unprotected("B1");
    await faults.insertRows("B1", 40, 1);
    expect(await state()).toBe("holds");
    const { row, column } = of.meanings.find(({ id }) => id === "fck")!.at;
    await host.enter({ sheet: "B1", row: row < 40 ? row : row + 1, column }, 55);
    expect(await state()).toBe("stale: values changed");
  });
});
