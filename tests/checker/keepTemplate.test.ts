import { describe, expect, it } from "vitest";
import type { Address } from "../../src/cells/index.ts";
import { idOfName, keepSheet, keepTemplate, type About, type KeptSheet } from "../../src/office/index.ts";
import {
  Anatomy,
  columns,
  expand,
  logoName,
  type Column,
  type Plan,
  type TableItem,
  type Template,
} from "../../src/sheet/index.ts";
import { idsInFormulas, type FoundFormula, type Standing } from "../../src/office/keep/idsInFormula.ts";
import { templates } from "../../src/templates/index.ts";
import { Built, en, enPre, is, isPre, name } from "./planted.ts";

const about: About = { id: "alder-beam", name: "Alder beam", version: "1.0.0", office: "Alder Office (invented)" };

/** Built and read as people leave it; the template is checked in the configuration of the sheet. */
async function kept(built: Built, more: Partial<About> = {}): Promise<KeptSheet> {
  return keepTemplate(await built.compared(), { ...about, ...more });
}

const others = (kept: KeptSheet) => kept.rows.filter(({ kind }) => kind !== "kept");
/** What its template builds, without the row that names the office: the same rows as on the sheet it was made of. */
function planOf({ template }: KeptSheet, { title }: Template): Plan {
  const { office: _office, ...plain } = template!;
  // Under the title of the sheet: what stands beside it begins where the title ends.
  return expand({ ...plain, title }, plain.example.inputs);
}
const formulas = (plan: Plan) =>
  plan.cells.flatMap(({ row, column, formula }) => (formula === undefined ? [] : [`${row},${column} ${formula}`]));
const row = (row: number, column: number): Address => ({ row, column });

describe("a template made from a sheet", () => {
  it.each([en, enPre, is, isPre])("$id: of an unchanged one builds the same", async (template) => {
    const built = await Built.of(template);
    const out = await kept(built);
    expect(out.refused).toEqual([]);
    expect(others(out)).toEqual([]);
    const plan = planOf(out, built.template);
    expect(formulas(plan)).toEqual(formulas(built.plan));
    expect(plan.inputs).toEqual(built.plan.inputs);
  });

  it("holds the edits and nothing else", async () => {
    const built = await Built.unprotected(is);
    const { faults } = built;
    const fck = built.meaning("fck").at;
    await faults.typeOver(name, row(fck.row, columns.description), "cylinder strength as ordered");
    await faults.typeOver(name, row(fck.row, columns.from), 35);
    const check = built.plan.summary.checks.find(({ aside }) => !aside)!;
    const value = built.plan.cells.find(
      (cell) => cell.row === check.utilisation.row && cell.column === columns.value && cell.formula,
    )!;
    await faults.typeOver(name, value, { formula: `${value.formula!}*1` });
    const out = await kept(built);
    expect(out.refused).toEqual([]);
    expect(others(out).map(({ kind, id, what }) => [kind, id, what.split(";")[0]])).toEqual([
      ["changed", "fck", "text"],
      ["changed", "fck", "lower limit"],
      ["changed", check.id, "formula"],
    ]);
    const plan = planOf(out, built.template);
    const before = new Set(formulas(built.plan));
    const changed = formulas(plan).filter((text) => !before.has(text));
    expect(changed).toEqual([`${value.row},${value.column} ${value.formula}*1`]);
  });

  it("takes rows added by hand: an input, a row with a formula, a note", async () => {
    const built = await Built.unprotected(en);
    const { faults } = built;
    const { at } = built.meaning("fck");
    await faults.insertRows(name, at.row + 1, 3);
    const type = async (line: number, texts: Readonly<Record<number, string | number | { formula: string }>>) => {
      for (const [column, entry] of Object.entries(texts))
        await faults.typeOver(name, row(at.row + line, Number(column)), entry);
    };
    const { description, symbol, value, unit, from, to } = columns;
    await type(1, {
      [description]: "reserve of the office",
      [symbol]: "f_res",
      [value]: 2,
      [unit]: "MPa",
      [from]: 0,
      [to]: 10,
    });
    const own = `H${at.row + 1}`;
    await type(2, {
      [description]: "strength less the reserve",
      [symbol]: "f_own",
      [value]: { formula: `=$${own}-H${at.row + 2}` },
      [unit]: "MPa",
    });
    await type(3, { [description]: "Rows of the office (invented)" });
    const out = await kept(built);
    expect(out.refused).toEqual([]);
    expect(others(out).map(({ kind, id, after }) => [kind, id, after])).toEqual([
      ["added", "fres", "2"],
      ["added", "fown", "={fck}-{fres}"],
      ["added", undefined, undefined],
    ]);
    const plan = planOf(out, built.template);
    const made = plan.meanings.filter(({ id }) => ["fck", "fres", "fown"].includes(id)).map((m) => m.at.row);
    expect(made).toEqual([at.row, at.row + 1, at.row + 2]);
  });

  it("is checked in every kind of configuration", async () => {
    const built = await Built.of(isPre);
    const out = await keepSheet(built.faults.host, name, about);
    expect(out!.refused).toEqual([]);
    expect(out!.template!.madeFrom).toEqual({ template: isPre.id, version: isPre.version });
  }, 120_000);

  it("leaves out rows that were deleted, where nothing needs them", async () => {
    const built = await Built.unprotected(en);
    const note = built.plan.cells.find(({ role, row: at }) => role === "note" && at > built.meaning("fck").at.row)!;
    await built.faults.deleteRows(name, note.row, 1);
    const out = await kept(built);
    expect(out.refused).toEqual([]);
    expect(others(out).map(({ kind, label }) => [kind, label])).toEqual([["left out", note.value]]);
  });

  it("is made without a logo that cannot be taken along, and says so", async () => {
    const without = "Without the logo: it is too high.";
    const out = await kept(await Built.of(isPre), { without });
    expect(out.refused).toEqual([]);
    expect(others(out)).toEqual([{ kind: "not understood", label: logoName, what: without }]);
    expect(out.template!.logo).toBeUndefined();
  });

  it("takes a note that was moved as left out and added", async () => {
    const built = await Built.unprotected(en);
    const { faults, plan } = built;
    const from = built.meaning("fck").at.row;
    const note = plan.cells.find(({ role, row: at }) => role === "note" && at > from)!;
    const texts = plan.cells.filter((cell) => cell.row === note.row && cell.value !== undefined);
    expect(texts).toHaveLength(1);
    // A note has no description of its own to be found by: it is left out and added again, at its new place.
    await faults.deleteRows(name, note.row, 1);
    await faults.insertRows(name, from + 1, 1);
    await faults.typeOver(name, row(from + 1, columns.description), note.value as string);
    const out = await kept(built);
    expect(out.refused).toEqual([]);
    expect(others(out).map(({ kind, label }) => [kind, label])).toEqual([
      ["left out", note.value],
      ["added", note.value],
    ]);
  });

  it("holds a formula changed in every row of a column, and refuses one changed in a row alone", async () => {
    const built = await Built.unprotected(is);
    const { faults } = built;
    const anatomy = Anatomy.of(is, built.plan.inputs);
    const ofColumn = (cell: Address) => {
      const part = anatomy.partAt(cell);
      return part?.of === "column" && part.what === "cell" ? part : undefined;
    };
    const first = built.plan.cells.find((cell) => {
      const part = ofColumn(cell);
      return cell.formula !== undefined && part?.column.formula !== undefined && !part.column.verdict;
    })!;
    const { column, table } = ofColumn(first)!;
    const cells = built.plan.cells.filter((cell) => ofColumn(cell)?.column === column);
    await faults.typeOver(name, first, { formula: `${first.formula}*1` });
    const one = await kept(built);
    expect(one.template).toBeUndefined();
    expect(one.refused.map(({ what }) => what).join()).toContain("change all of them alike");
    for (const cell of cells) await faults.typeOver(name, cell, { formula: `${cell.formula}*1` });
    const all = await kept(built);
    expect(all.refused).toEqual([]);
    expect(others(all).map(({ kind, id }) => [kind, id])).toEqual([["changed", column.id]]);
    const plan = planOf(all, built.template);
    const before = new Set(formulas(built.plan));
    const changed = formulas(plan).filter((text) => !before.has(text));
    expect(changed).toEqual(cells.map((cell) => `${cell.row},${cell.column} ${cell.formula}*1`));
    expect(table.columns).toContain(column);
  });

  it("refuses a formula that lost a cell, with the cell and why", async () => {
    const built = await Built.unprotected(en);
    await built.faults.deleteRows(name, built.meaning("fck").at.row, 1);
    const out = await kept(built);
    expect(out.template).toBeUndefined();
    expect(out.refused.some(({ at, what }) => at !== undefined && what.includes("#REF!"))).toBe(true);
  });

  it("refuses a number typed into a formula, with its cell", async () => {
    const built = await Built.unprotected(is);
    const value = built.plan.cells.find(
      ({ role, column, formula }) => role === "value" && column === columns.value && formula,
    )!;
    await built.faults.typeOver(name, value, { formula: `${value.formula!}*7.5` });
    const out = await kept(built);
    expect(out.template).toBeUndefined();
    expect(out.refused[0]!.what).toContain("the number 7.5 is typed into the formula");
    expect(out.refused[0]!.at).toEqual(row(value.row, value.column));
  });
});

const standingOf = (anatomy: Anatomy): Standing => ({
  sheet: "Beam",
  anatomy,
  rowPlanned: (now) => now,
  columnPlanned: (now) => now,
  addedAt: () => undefined,
  named: () => undefined,
});

describe("addresses become ids again", () => {
  it.each(templates)("$id: in every formula of a row", (template) => {
    const plan = expand(template, template.example.inputs);
    const anatomy = Anatomy.of(template, plan.inputs);
    const standing = standingOf(anatomy);
    let count = 0;
    const wrong: string[] = [];
    for (const cell of plan.cells) {
      const part = anatomy.partAt(cell);
      if (cell.formula === undefined || part?.of !== "row" || part.what !== "value" || !part.row.formula) continue;
      const special = anatomy.specialsIn(part.row.formula, cell);
      const specials = special.map(({ text, written }) => ({ text, written: written.slice(1).replaceAll("$", "") }));
      const read = idsInFormulas([{ formula: cell.formula, at: cell }], standing, specials, part.row.formula);
      count++;
      const wanted = part.row.formula.replace(/^=/, "").replace(/\s/g, "");
      if (!("text" in read) || read.text.replace(/\s/g, "") !== wanted)
        wrong.push(`${part.row.id}: ${wanted} read as ${JSON.stringify(read)}`);
    }
    expect(wrong.slice(0, 5)).toEqual([]);
    expect(count).toBeGreaterThan(30);
  });

  it.each(templates)("$id: in every formula of a column", (template) => {
    const plan = expand(template, template.example.inputs);
    const anatomy = Anatomy.of(template, plan.inputs);
    const columns = new Map<Column, { table: TableItem; found: (FoundFormula & { index: number })[] }>();
    for (const cell of plan.cells) {
      const part = anatomy.partAt(cell);
      if (cell.formula === undefined || part?.of !== "column" || part.what !== "cell" || !part.column.formula) continue;
      const { context, part: group } = anatomy.rowsOf(part.table)[part.index]!;
      if (group > 0) continue;
      const known = columns.get(part.column) ?? { table: part.table, found: [] };
      known.found.push({ formula: cell.formula, at: cell, context, index: part.index });
      columns.set(part.column, known);
    }
    const wrong: string[] = [];
    for (const [column, { found }] of columns) {
      const read = idsInFormulas(found, standingOf(anatomy), [], column.formula);
      const wanted = column.formula!.replace(/^=/, "").replace(/\s/g, "");
      const text = "text" in read ? read.text.replace(/\s/g, "").replaceAll("{pass}", '"OK"') : JSON.stringify(read);
      if (text !== wanted) wrong.push(`${column.id}: ${wanted} read as ${text}`);
    }
    expect(wrong.slice(0, 5)).toEqual([]);
    expect(columns.size).toBeGreaterThan(20);
  });

  it("another sheet, a lost cell and an unknown name are told", () => {
    const anatomy = Anatomy.of(is, {});
    const told = (formula: string) => idsInFormulas([{ formula, at: row(9, 7) }], standingOf(anatomy));
    expect(told("=Other!A1")).toMatchObject({ fault: expect.stringContaining("another sheet") as unknown });
    expect(told("=#REF!+1")).toMatchObject({ fault: expect.stringContaining("#REF!") as unknown });
    expect(told("=rate*2")).toMatchObject({ fault: expect.stringContaining("the name RATE") as unknown });
    expect(told("=A1+1")).toMatchObject({ fault: expect.stringContaining("neither the value of a row") as unknown });
  });

  it("an id is made of a name", () => {
    expect(idOfName("Alder beam, 2026 – Überbau")).toBe("alder-beam-2026-uberbau");
  });
});
