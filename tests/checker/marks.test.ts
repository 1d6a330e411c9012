import { a1, type Address } from "../../src/cells/index.ts";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import {
  markCells,
  nameOfPart,
  NotMarkable,
  partsAt,
  partsOf,
  progressOf,
  readMarks,
  readRevisions,
  recogniseAmong,
  revisionCells,
  takeSnapshot,
  unmarkCells,
  type EnteredCell,
  type Mark,
  type Part,
  type Recognised,
} from "../../src/checker/index.ts";
import { writeWorkbook, type CellContent } from "../../src/hosts/index.ts";
import { readWorkbook } from "../hosts/ourFile.ts";
import { columns, expand, lint, type Inputs, type Plan, type Template } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { copy } from "../unit/sheet/small.ts";
import type { Faults, TestHost } from "./faults.ts";
import { MemoryFaults } from "./memoryFaults.ts";

const date = "2026-11-26";

/** The small template with a revision table of three lines. */
function withRevisions(version = "1.2.3"): Template {
  const other = copy();
  Object.assign(other, { version });
  Object.assign(other.dimensions, { line: { label: "line", size: 3 } });
  const columns = ["revName", "revWhat", "revDate", "revBy", "revChecked"].map((id) => ({
    id,
    text: id,
    format: "@",
    record: true,
  }));
  (other.blocks as unknown[]).push({
    id: "revisions",
    title: "Revisions",
    items: [
      {
        table: "revisionTable",
        title: "Revisions",
        over: ["line"],
        columns: [...columns, { id: "revState", text: "state", record: true }],
      },
    ],
  });
  return other;
}
const small = withRevisions();
const inputs: Inputs = { ...small.example.inputs, limit: 1500, project: "Alder Quay (invented)" };

const living = new Set<TestHost>();
const end = (host: TestHost): void => {
  living.delete(host);
  host.dispose();
};
afterEach(() => {
  for (const host of living) end(host);
});

interface Build {
  readonly plan?: Plan;
  readonly known?: readonly Template[];
  /** Left to the caller to end. */
  readonly stays?: true;
}

/** A sheet with its marks. */
class Sheet {
  private constructor(
    readonly faults: Faults,
    readonly plan: Plan,
    readonly name: string,
    private readonly known: readonly Template[],
  ) {}

  static async built(
    template: Template,
    values: Inputs,
    { plan = expand(template, values), known = [template], stays }: Build = {},
  ): Promise<Sheet> {
    const faults = new MemoryFaults();
    if (!stays) living.add(faults.host);
    await faults.host.apply(plan, { sheetName: "Beam", progress: () => undefined });
    return new Sheet(faults, plan, "Beam", known);
  }

  get host(): TestHost {
    return this.faults.host;
  }

  async recognised(sheet = this.name, host = this.host): Promise<Recognised> {
    const found = recogniseAmong(await takeSnapshot(host, sheet), this.known);
    if (!found) throw new Error("the sheet is not recognised");
    return found;
  }

  async marks(): Promise<readonly Mark[]> {
    return readMarks(await this.recognised());
  }

  async enter(cells: readonly EnteredCell[]): Promise<void> {
    await this.host.enterAll(this.name, cells);
  }

  at(id: string, line = 0): Address {
    const { row, column } = this.plan.meanings.find((m) => m.id === id)!.at;
    return { row: row + line, column };
  }

  async type(id: string, value: string | number, line = 0): Promise<void> {
    await this.enter([{ ...this.at(id, line), value }]);
  }

  /** What the sheet itself shows. */
  async shown(at: Address): Promise<unknown> {
    const cell = (await this.host.read(this.name, { ...at, rows: 1, columns: 1 }))[0]![0]!;
    return cell.error?.code ?? cell.value;
  }

  part(kind: Part["kind"], id: string): Part {
    const { row } = this.at(id);
    const { item, block } = partsAt(this.plan, row);
    return kind === "block" ? block! : item!;
  }

  async mark(kind: Part["kind"], id: string, by = "AB"): Promise<Address> {
    const [cell] = await this.markAll([this.part(kind, id)], by);
    return cell!;
  }

  async markAll(parts: readonly Part[], by = "AB"): Promise<readonly EnteredCell[]> {
    const recognised = await this.recognised();
    const cells = parts.flatMap((part) => markCells(part, recognised, by, date));
    await this.enter(cells);
    return cells;
  }
}

const states = (marks: readonly Mark[]): readonly string[] =>
  marks.map(({ part, state }) => `${part.kind} ${part.item}: ${state}`);

describe("what can be marked", () => {
  const plan = expand(small, inputs);

  it("is every block, row and table but the revision table", () => {
    expect(lint(small)).toEqual([]);
    const blocks = partsOf(plan);
    expect(blocks.map(({ block }) => nameOfPart(block))).toEqual([
      "block 1, Inputs",
      "block 2, Places",
      "block 3, Losses",
      "block 4, Checks",
      "block 5, Summary",
      "block 6, Configuration, template and conventions",
    ]);
    expect(blocks[2]!.items.map(nameOfPart)).toEqual([
      "table 3.1, Along each tendon",
      "table 3.2, At each station",
      "table 3.3, Means",
      "table 3.4, Ends",
      "row 3.5, stress at the reference point",
      expect.stringMatching(/^row 3\.6, /),
      expect.stringMatching(/^row 3\.7, /),
    ]);
    const marks = plan.cells.filter(({ role }) => role === "mark").map(({ row }) => row);
    expect(blocks.flatMap(({ block, items }) => [block, ...items]).map(({ markRow }) => markRow)).toEqual(
      marks.sort((a, b) => a - b),
    );
  });

  it("ends with the last row of a table, or the last of a block", () => {
    const along = plan.meanings.find(({ id }) => id === "sfr")!.at;
    expect(partsAt(plan, along.row).item).toMatchObject({ kind: "table", last: along.row + along.rows - 1, wide: [] });
    const all = partsOf(plan).map(({ block }) => block);
    const filled = new Set(plan.cells.map(({ row }) => row));
    all.slice(1).forEach((block, i) => {
      const { last } = all[i]!;
      expect(filled.has(last)).toBe(true);
      expect(Array.from({ length: block.first - last - 1 }, (_, r) => filled.has(last + 1 + r))).not.toContain(true);
    });
  });

  it("has a column of its own: no table's values stand there", () => {
    for (const template of templates)
      for (const { block } of partsOf(expand(template, template.example.inputs))) expect(block.wide).toEqual([]);
  });
});

describe("marks on a sheet", () => {
  let sheet: Sheet;
  beforeAll(async () => {
    sheet = await Sheet.built(small, inputs, { stays: true });
  }, 60_000);
  afterAll(() => end(sheet.host));
  afterEach(async () => {
    await sheet.enter([
      ...(await sheet.marks()).flatMap(unmarkCells),
      { ...sheet.at("mu"), value: 0.2 },
      { ...sheet.at("limit"), value: 1500 },
    ]);
  }, 60_000);

  it("show whose they are, and STALE on the sheet itself once an input upstream changes", async () => {
    const row = await sheet.mark("row", "sRef");
    const table = await sheet.mark("table", "vs", "CD");
    const block = await sheet.mark("block", "mu");
    expect([await sheet.shown(row), await sheet.shown(table), await sheet.shown(block)]).toEqual([
      `AB ${date}`,
      `CD ${date}`,
      `AB ${date}`,
    ]);
    expect(states(await sheet.marks())).toEqual(["block 1: holds", "row 3.5: holds", "table 4.2: holds"]);
    await sheet.type("mu", 0.21);
    expect([await sheet.shown(row), await sheet.shown(table), await sheet.shown(block)]).toEqual([
      `STALE: AB ${date}`,
      `STALE: CD ${date}`,
      `STALE: AB ${date}`,
    ]);
    expect(states(await sheet.marks())).toEqual([
      "block 1: stale: values changed",
      "row 3.5: stale: values changed",
      "table 4.2: stale: values changed",
    ]);
    // The same input back, and nothing was lost.
    await sheet.type("mu", 0.2);
    expect([await sheet.shown(row), await sheet.shown(table), await sheet.shown(block)]).toEqual([
      `AB ${date}`,
      `CD ${date}`,
      `AB ${date}`,
    ]);
  }, 60_000);

  it("stand again after marking again, and go when they are taken off", async () => {
    await sheet.type("mu", 0.21);
    const at = await sheet.mark("row", "sRef", "EF");
    expect(await sheet.shown(at)).toBe(`EF ${date}`);
    const marks = await sheet.marks();
    expect(states(marks)).toContain("row 3.5: holds");
    await sheet.enter(marks.flatMap(unmarkCells));
    expect(await sheet.marks()).toEqual([]);
  }, 60_000);

  it("take texts that read as dates, numbers and truth values as the host does", async () => {
    await sheet.type("project", "2026-11-26");
    const at = await sheet.mark("row", "project");
    expect(await sheet.shown(at)).toBe(`AB ${date}`);
    for (const text of ["2026-11-27", "12.50", "TRUE", "=1+1", 'a "b"\tc']) {
      await sheet.type("project", text);
      expect(await sheet.shown(at), text).toBe(`STALE: AB ${date}`);
      await sheet.mark("row", "project");
      expect(await sheet.shown(at), text).toBe(`AB ${date}`);
      expect(states(await sheet.marks()), text).toEqual(["row 1.1: holds"]);
    }
  }, 60_000);

  it("say where a mark was typed by hand", async () => {
    const { markRow } = sheet.part("row", "jack");
    await sheet.enter([{ row: markRow!, column: columns.mark, value: `AB ${date}` }]);
    expect(await sheet.marks()).toMatchObject([{ state: "unreadable", text: `AB ${date}`, by: "" }]);
  }, 60_000);

  it("count by rows and tables, each by its own mark or its block's", async () => {
    await sheet.type("mu", 0.2);
    await sheet.mark("row", "jack");
    await sheet.mark("row", "sRef");
    await sheet.type("mu", 0.22);
    const counted = async () =>
      Object.fromEntries(
        progressOf(await sheet.recognised(), await sheet.marks()).map(({ block, parts, marked, stale, open }) => [
          block.item,
          [parts, marked, stale, open],
        ]),
      );
    expect((await counted())["3"]).toEqual([7, 1, 1, 5]);
    await sheet.mark("block", "jack");
    expect((await counted())["3"]).toEqual([7, 7, 0, 0]);
    expect((await counted())["6"]).toEqual([1, 0, 0, 1]);
    await sheet.type("mu", 0.2);
    // The block's mark fell; the row's own one holds, the other one is what it was when it was marked.
    expect((await counted())["3"]).toEqual([7, 2, 5, 0]);
  }, 60_000);

  it("are refused where cells show an error, and become stale where they come to", async () => {
    await sheet.type("limit", "");
    const recognised = await sheet.recognised();
    expect(() => markCells(sheet.part("row", "uMax"), recognised, "AB", date)).toThrow(NotMarkable);
    expect(() => markCells(sheet.part("row", "uMax"), recognised, "AB", date)).toThrow(
      new RegExp(`^${a1(sheet.at("uMax"))} .*cannot be marked`),
    );
    await sheet.type("limit", 1500);
    await sheet.mark("row", "uMax");
    await sheet.type("limit", "");
    expect(states(await sheet.marks())).toEqual(["row 5.1: stale: values changed"]);
    await sheet.type("limit", 1500);
    expect(states(await sheet.marks())).toEqual(["row 5.1: holds"]);
  }, 60_000);
});

describe("what a mark outlives and what it does not", () => {
  /** The plan with marks in it, as it stands after other changes to its cells. */
  const changed = (
    plan: Plan,
    marks: readonly EnteredCell[],
    change: (cell: Plan["cells"][number]) => Plan["cells"][number] = (cell) => cell,
  ): Plan => ({
    ...plan,
    cells: plan.cells.map((cell) => {
      const mark = marks.find(({ row, column }) => row === cell.row && column === cell.column);
      return change(mark ? { ...cell, ...mark } : cell);
    }),
  });
  const plan = expand(small, inputs);
  let marks: readonly EnteredCell[];
  let contents: readonly (readonly CellContent[])[];
  beforeAll(async () => {
    const sheet = await Sheet.built(small, inputs, { stays: true });
    marks = await sheet.markAll([sheet.part("row", "sRef"), sheet.part("table", "sfr"), sheet.part("block", "vs")]);
    contents = await sheet.host.read("Beam", plan.print.area);
    end(sheet.host);
  }, 60_000);
  const all = ["table 3.1: holds", "row 3.5: holds", "block 4: holds"];
  const shownAll = async (
    { host }: { readonly host: TestHost },
    found: readonly Mark[],
    name = "Beam",
  ): Promise<readonly unknown[]> =>
    Promise.all(found.map(async ({ at }) => (await host.read(name, { ...at, rows: 1, columns: 1 }))[0]![0]!.value));
  const same = [`AB ${date}`, `AB ${date}`, `AB ${date}`];

  it("rows inserted above and among its rows, and another name of the sheet, leave it", async () => {
    const sheet = await Sheet.built(small, inputs, { plan: changed(plan, marks) });
    await sheet.faults.unprotected("Beam");
    const check = plan.meanings.find(({ id }) => id === "vs")!.at.row;
    await sheet.faults.insertRows("Beam", check + 3, 1);
    await sheet.faults.insertRows("Beam", plan.meanings.find(({ id }) => id === "k")!.at.row, 2);
    await sheet.faults.rename("Beam", "Footbridge B1");
    const found = readMarks(await sheet.recognised("Footbridge B1"));
    expect(states(found)).toEqual(all);
    expect(await shownAll(sheet, found, "Footbridge B1")).toEqual(same);
    expect(found.map(({ at }) => at.row)).toEqual([...marks].map(({ row }) => row + 2).sort((a, b) => a - b));
    // What is written into an inserted row of a marked block is a change of it.
    await sheet.faults.typeOver("Footbridge B1", { row: check + 5, column: columns.description }, 99);
    expect(states(readMarks(await sheet.recognised("Footbridge B1")))).toEqual([
      "table 3.1: holds",
      "row 3.5: holds",
      "block 4: stale: values changed",
    ]);
  }, 60_000);

  it("a row deleted from it makes it stale", async () => {
    const sheet = await Sheet.built(small, inputs, { plan: changed(plan, marks) });
    await sheet.faults.unprotected("Beam");
    await sheet.faults.deleteRows("Beam", plan.meanings.find(({ id }) => id === "vs")!.at.row + 2, 1);
    expect(states(await sheet.marks())).toContain("block 4: stale: values changed");
  }, 60_000);

  it("a copy in the same workbook and cells copied to another one keep it", async () => {
    const sheet = await Sheet.built(small, inputs, { plan: changed(plan, marks) });
    const twin = await sheet.faults.duplicate("Beam");
    const twins = readMarks(await sheet.recognised(twin));
    expect([states(twins), await shownAll(sheet, twins, twin)]).toEqual([all, same]);
    const other = await sheet.faults.copyToAnotherBook("Beam");
    living.add(other.host);
    const found = readMarks(await sheet.recognised(other.sheet, other.host));
    expect([states(found), await shownAll(other, found, other.sheet)]).toEqual([all, same]);
  }, 60_000);

  it("the same sheet built in another workbook with it keeps it", async () => {
    expect(states(await (await Sheet.built(small, inputs, { plan: changed(plan, marks) })).marks())).toEqual(all);
  }, 60_000);

  it("a workbook file keeps it", () => {
    const file = readWorkbook(writeWorkbook(changed(plan, marks), contents, "Beam"));
    for (const { row, column, formula } of marks)
      expect(file.cells.find((cell) => cell.row === row && cell.column === column)).toMatchObject({
        formula,
        value: `AB ${date}`,
        locked: false,
      });
  });

  it("a value typed over a formula that gives the same is seen by the panel, though the sheet cannot", async () => {
    const at = plan.meanings.find(({ id }) => id === "sRef")!.at;
    const typed = await Sheet.built(small, inputs, {
      plan: changed(plan, marks, (cell) => {
        if (cell.row !== at.row || cell.column !== at.column) return cell;
        const { formula, ...rest } = cell;
        return {
          ...rest,
          value: contents[at.row]![at.column]!.value as number,
          role: formula === undefined ? cell.role : "value",
        };
      }),
    });
    const found = await typed.marks();
    expect(states(found)).toEqual(["table 3.1: holds", "row 3.5: stale: formulas changed", "block 4: holds"]);
    expect(await typed.shown(found[1]!.at)).toBe(`AB ${date}`);
  }, 60_000);

  it("a label changed makes it stale", async () => {
    const at = plan.meanings.find(({ id }) => id === "sRef")!.at;
    const other = await Sheet.built(small, inputs, {
      plan: changed(plan, marks, (cell) =>
        cell.row === at.row && cell.column === columns.description ? { ...cell, value: "stress somewhere" } : cell,
      ),
    });
    expect(states(await other.marks())).toEqual([
      "table 3.1: holds",
      "row 3.5: stale: values changed",
      "block 4: holds",
    ]);
  }, 60_000);

  it("a mark copied to another row is stale there", async () => {
    const [first] = marks;
    const other = plan.meanings.find(({ id }) => id === "ref")!.at.row;
    const moved = await Sheet.built(small, inputs, {
      plan: changed(plan, [{ ...first!, row: other, column: columns.mark }]),
    });
    expect(states(await moved.marks())).toEqual(["row 3.7: stale: values changed"]);
  }, 60_000);

  it("a later version of the template with a row more above keeps it", async () => {
    const later = withRevisions("1.3.0");
    (later.blocks[0]!.items as unknown[]).splice(2, 0, {
      id: "added",
      text: "a row more",
      symbol: "a",
      input: { default: 1, min: 0, max: 2 },
    });
    const sheet = await Sheet.built(small, inputs, { plan: changed(plan, marks), known: [later] });
    expect((await sheet.recognised()).plan.rows).toBe(plan.rows + 1);
    expect(states(await sheet.marks())).toEqual(all);
  }, 60_000);
});

describe("the revision table", () => {
  it("seals the workings, which stand below it", async () => {
    const template = withRevisions("1.4.0");
    Object.assign(
      template.blocks.find(({ id }) => id === "losses")!,
      { results: ["jack"] },
    );
    const sheet = await Sheet.built(template, inputs);
    const revision = { name: "A", date, what: "First issue", by: "AB", checkedBy: "" };
    await sheet.enter(revisionCells(await sheet.recognised(), revision));
    const state = async () => readRevisions(await sheet.recognised())!.revisions[0]!.state;
    expect(sheet.at("ref").row).toBeGreaterThan(sheet.at("revState").row);
    expect(await state()).toBe("holds");
    await sheet.faults.unprotected("Beam");
    await sheet.faults.typeOver("Beam", sheet.at("ref"), 9);
    expect(await state()).toMatch(/^stale/);
    expect(await sheet.shown(sheet.at("revState"))).toBe(`STALE: rev A ${date}`);
  });

  it("is filled line by line with the seal of the sheet, the line before superseded", async () => {
    const sheet = await Sheet.built(small, inputs);
    const read = async () => readRevisions(await sheet.recognised())!;
    const issue = async (name: string): Promise<void> =>
      sheet.enter(
        revisionCells(await sheet.recognised(), { name, date, what: "First issue", by: "AB", checkedBy: "CD" }),
      );
    expect(await read()).toEqual({ revisions: [], lines: 3, next: 0, suggested: "A" });
    await sheet.mark("row", "sRef");
    await issue("A");
    expect(await read()).toMatchObject({
      revisions: [{ name: "A", date, what: "First issue", by: "AB", checkedBy: "CD", line: 0, state: "holds" }],
      next: 1,
      suggested: "B",
    });
    expect(await sheet.shown(sheet.at("revState"))).toBe(`rev A ${date}`);
    // Marks are no content.
    await sheet.mark("row", "jack");
    expect((await read()).revisions[0]!.state).toBe("holds");
    await sheet.type("project", "another");
    expect(await sheet.shown(sheet.at("revState"))).toBe(`STALE: rev A ${date}`);
    expect((await read()).revisions[0]!.state).toBe("stale: values changed");
    const sealed = (await read()).revisions[0]!.seal!;
    await issue("B");
    const after = await read();
    expect(after.revisions.map(({ name, state }) => [name, state])).toEqual([
      ["A", undefined],
      ["B", "holds"],
    ]);
    expect(await sheet.shown(sheet.at("revState"))).toBe(`superseded ${sealed.slice(0, 12)}`);
    await issue("C");
    const full = await sheet.recognised();
    expect(readRevisions(full)).not.toHaveProperty("next");
    expect(() => revisionCells(full, { name: "D", date, what: "", by: "", checkedBy: "" })).toThrow(/no empty line/);
  }, 90_000);

  it("asks for nothing and is not there on sheets of templates without it", async () => {
    const plain = copy();
    const sheet = await Sheet.built(plain, inputs);
    expect(readRevisions(await sheet.recognised())).toBeUndefined();
  }, 60_000);
});

describe.each(templates.map((template) => [template.id, template] as const))("%s", (_id, template) => {
  it("can be marked whole, and its marks and revision hold after computing anew", async () => {
    const sheet = await Sheet.built(template, template.example.inputs);
    const recognised = await sheet.recognised();
    const blocks = partsOf(sheet.plan);
    for (const { block, items } of blocks)
      for (const { first, last } of items)
        expect(last >= first && last <= block.last, `${first} to ${last}`).toBe(true);
    const parts = [
      ...blocks.map(({ block }) => block),
      ...blocks.flatMap(({ items }) => items).filter((_, i) => i % 8 === 0),
    ];
    const cells = [
      ...parts.flatMap((part) => markCells(part, recognised, "AB", date)),
      ...revisionCells(recognised, { name: "A", date, what: "First issue", by: "AB", checkedBy: "" }),
    ];
    await sheet.enter(cells);
    await sheet.host.recalculate();
    const marks = await sheet.marks();
    expect(marks).toHaveLength(parts.length);
    for (const mark of marks)
      expect([nameOfPart(mark.part), mark.state, mark.text]).toEqual([nameOfPart(mark.part), "holds", `AB ${date}`]);
    expect(readRevisions(await sheet.recognised())!.revisions).toMatchObject([{ name: "A", state: "holds" }]);
    for (const { stale, open } of progressOf(recognised, marks)) expect([stale, open]).toEqual([0, 0]);
    for (const { formula } of cells) expect((formula ?? "").length).toBeLessThan(8192);
  }, 180_000);
});
