/** A sheet of an older version of its template becomes one of today's, with what changes told before it is built. */
import { describe, expect, it } from "vitest";
import { changeOfSheet, type ChangeOfSheet } from "../../src/checker/rebuild/changeOfSheet.ts";
import { recogniseAmong } from "../../src/checker/index.ts";
import { a1, cellAt, type CellContent, type Snapshot } from "../../src/cells/index.ts";
import { planValues } from "../../src/hosts/index.ts";
import { columns, expand, plannedSnapshot, type Inputs, type Plan, type Template } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";

const old = templates.find(({ id }) => id === "pre-tensioned-en1992-2004")!;
const plan: Plan = expand(old, old.example.inputs);

/** As it stands in a workbook, computed. */
const sheet: Snapshot = { ...plannedSnapshot(plan, "Beam"), cells: planValues(plan, "Beam")! };

/** The sheet with one cell of the row of an id otherwise. */
function typed(id: string, column: number, content: Partial<CellContent>): Snapshot {
  const { row } = plan.meanings.find((one) => one.id === id)!.at;
  const cell = { ...cellAt(sheet, row, column), ...content };
  return {
    ...sheet,
    cells: sheet.cells.map((line, r) => (r === row ? line.map((one, c) => (c === column ? cell : one)) : line)),
  };
}

type Row = Readonly<Record<string, unknown>>;

/** `null` takes a property away. */
const otherwise = (row: object, change: Row): Row =>
  Object.fromEntries(Object.entries({ ...row, ...change }).filter(([, value]) => value !== null));

/** A later version of the template: one row otherwise, and ids by other names. */
function later(id: string, change: Row = {}, text: (json: string) => string = (json) => json): Template {
  const template = JSON.parse(text(JSON.stringify(old))) as Template;
  const blocks = template.blocks.map((block) => ({
    ...block,
    items: block.items.map((item) => ("id" in item && item.id === id ? otherwise(item, change) : item)),
  }));
  return { ...template, version: "99.0.0", blocks } as Template;
}

const alike = later("");

function upgraded(template: Template, from: Snapshot = sheet, shape: Inputs = {}): ChangeOfSheet {
  return changeOfSheet(recogniseAmong(from, [template])!, template, shape);
}
const flat = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value.flatMap(flat) : [value]);

describe("a sheet of an older version", () => {
  it("with nothing otherwise: no changed row, every input kept, verdicts as they are", () => {
    const { rows, carried, overall, checks, checksAlike } = upgraded(alike);
    expect(rows).toEqual([]);
    expect(carried.lost).toEqual([]);
    for (const [id, value] of Object.entries(plan.inputs)) expect(flat(carried.inputs[id]), id).toEqual(flat(value));
    expect(overall.after).toBe(overall.before);
    expect(checks).toEqual([]);
    expect(checksAlike).toBe(plan.summary.checks.length);
  });

  it("another formula is listed with what it does to the verdict", () => {
    const formula = "{bedLength}/({members}*{L})";
    const { rows, overall, checks } = upgraded(later("bedUse", { formula }));
    expect(rows.map(({ id, change }) => [id, change])).toEqual([["bedUse", "formula"]]);
    expect(rows[0]).toMatchObject({ before: "=members*lu/bedlength", after: "=bedlength/(members*l)" });
    expect(overall.before).not.toBe("FAIL");
    expect(overall.after).toBe("FAIL");
    expect(checks.some(({ before, after }) => before.verdict !== after.verdict)).toBe(true);
  });

  it("other words are listed as such", () => {
    const { rows } = upgraded(later("bedUse", { text: "share of the bed in use" }));
    expect(rows.map(({ id, change }) => [id, change])).toEqual([["bedUse", "label"]]);
  });

  it("an input under another id is new, the old one gone with its value told", () => {
    const renamed = (json: string): string => json.replaceAll(/\btBed\b/g, "tHeld");
    const { rows, carried } = upgraded(later("", {}, renamed));
    expect(rows.filter(({ change }) => change === "new").map(({ id }) => id)).toEqual(["tHeld"]);
    expect(rows.filter(({ change }) => change === "gone").map(({ id }) => id)).toEqual(["tbed"]);
    expect(carried.lost).toMatchObject([
      { id: "tbed", value: expect.stringContaining(String(plan.inputs["tBed"])) as string },
    ]);
  });

  it("a value asked for in another unit is not carried over, but listed", () => {
    const { rows, carried } = upgraded(later("members", { quantity: null, text: "members", unit: "%" }));
    expect(rows.filter(({ change }) => change === "unit")).toMatchObject([{ id: "members", before: "–", after: "%" }]);
    expect(carried.inputs["members"]).toBeNull();
    expect(carried.lost).toMatchObject([{ id: "members", value: plan.inputs["members"], unit: "–" }]);
  });

  it("a value that is no longer allowed is listed with the reason", () => {
    const { carried } = upgraded(later("fckt", { input: { min: 60 } }));
    expect(carried.inputs["fckt"]).toBeNull();
    expect(carried.lost).toMatchObject([
      { id: "fckt", value: plan.inputs["fckt"], why: expect.stringContaining("60") as string },
    ]);
  });

  it("what nobody has confirmed stays marked, and a formula to another sheet stays a formula", () => {
    const { row } = plan.meanings.find(({ id }) => id === "fckt")!.at;
    const value = { row, column: columns.value };
    const mark = { row, column: columns.mark };
    const formula = `=IF(${a1(value)}=${String(plan.inputs["fckt"])},"assumed","")`;
    // By the word that sheets of earlier versions have, and by the formula of this one.
    for (const content of [{}, { formula }])
      expect(
        upgraded(alike, typed("fckt", columns.mark, { value: "assumed", text: "assumed", ...content })).marks,
      ).toEqual([{ ...mark, formula }]);
    const linked = { formula: "=Loads!$B$4", value: 30, text: "30" };
    expect(upgraded(alike, typed("fckt", columns.value, linked)).formulas).toEqual([
      { ...value, formula: "=Loads!$B$4" },
    ]);
  });

  it("what was typed over since is not said to be assumed on the new sheet", () => {
    const { row } = plan.meanings.find(({ id }) => id === "fckt")!.at;
    const formula = `=IF(${a1({ row, column: columns.value })}=12.5,"assumed","")`;
    expect(upgraded(alike, typed("fckt", columns.mark, { formula, value: "", text: "" })).marks).toEqual([]);
  });
});
