import { a1, type Address } from "../../src/cells/index.ts";
import { describe, expect, it } from "vitest";
import { compare, type FindingKind } from "../../src/checker/index.ts";
import { columns, expand } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { changeCell } from "../hosts/excelFake/index.ts";
import { memoryCalculator } from "../hosts/excelFake/memoryCalculator.ts";
import { openFake } from "../hosts/openFake.ts";

const name = "Beam";
const calculator = memoryCalculator();

async function built(template: (typeof templates)[number]) {
  const plan = expand(template, template.example.inputs);
  const { excel, host } = openFake({ calculator });
  await host.apply(plan, { sheetName: name, progress: () => undefined });
  return { plan, host, sheet: excel.workbook.sheets.find((one) => one.name === name)! };
}

describe("comparing through the spreadsheet program's host", () => {
  it.each(templates.map((template) => [template.id, template] as const))(
    "finds nothing on a sheet as built: %s",
    async (_id, template) => {
      const { host } = await built(template);
      const comparison = await compare(host, name);
      expect(comparison?.findings).toEqual([]);
      expect(comparison?.clean).toBe(true);
    },
  );

  it("finds what people do to formulas, looks and rules", async () => {
    const { plan, host, sheet } = await built(templates.at(-1)!);
    const values = plan.cells.filter(
      ({ role, column, formula }) => role === "value" && column === columns.value && formula !== undefined,
    );
    const [typed, tiny, white, open] = values as unknown as [Address, Address, Address, Address];
    const [widened, freed] = plan.validations.filter(({ rule }) => rule.kind === "number");
    changeCell(sheet, typed.row, typed.column, (cell) => Object.assign(cell, { value: 7, formula: undefined }));
    changeCell(sheet, tiny.row, tiny.column, (cell) => {
      cell.size = 1;
    });
    changeCell(sheet, open.row, open.column, (cell) => {
      cell.locked = false;
    });
    const at = ({ row, column }: Address): Address => ({ row, column });
    sheet.highlights.push({ area: { ...at(white), rows: 1, columns: 1 }, type: "Custom", color: "#FFFFFF" });
    const ofPlan = (place: Address) =>
      sheet.validations.find(({ area }) => area.row === place.row && area.column === place.column)!;
    ofPlan(widened!).rule = { decimal: { formula1: -1e9, formula2: 1e9, operator: "Between" } };
    sheet.validations.splice(sheet.validations.indexOf(ofPlan(freed!)), 1);
    const failing = sheet.highlights.filter(({ rule }) => rule?.formula1 === '="FAIL"');
    const passing = sheet.highlights.find(({ rule }) => rule?.formula1 === '="OK"')!;
    for (const one of failing) Object.assign(one, { color: passing.color, fill: passing.fill });
    const { findings } = (await compare(host, name))!;
    const found = (kind: FindingKind): readonly string[] =>
      findings.filter((f) => f.kind === kind).map((f) => (f.at ? a1(f.at) : ""));
    expect(found("typed over")).toEqual([a1(typed)]);
    expect(found("value hidden by size")).toEqual([a1(tiny)]);
    expect(found("value hidden by colour")).toEqual([a1(white)]);
    expect(found("cell open")).toEqual([a1(open)]);
    expect(found("entry rule changed")).toEqual([a1(widened!)]);
    expect(found("entry rule missing")).toEqual([a1(freed!)]);
    expect(found("colour changed")).toHaveLength(failing.length);
    expect(new Set(findings.map(({ kind }) => kind))).toEqual(
      new Set([
        "typed over",
        "value hidden by size",
        "value hidden by colour",
        "cell open",
        "entry rule changed",
        "entry rule missing",
        "colour changed",
      ]),
    );
  });
});
