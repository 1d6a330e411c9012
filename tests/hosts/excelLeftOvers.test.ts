import { describe, expect, it } from "vitest";
import { isLeftOver, passingName } from "../../src/hosts/excel/passingSheets.ts";
import { gridCalculator } from "./excelFake/gridCalculator.ts";
import { openFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

const hour = 3_600_000;
const now = Date.now();
const old = passingName(now - 2 * hour);
const young = passingName(now - hour / 2);

function withSheets(...names: readonly (readonly [name: string, visibility: "Visible" | "VeryHidden"])[]) {
  const open = openFake({ calculator: gridCalculator() });
  const { workbook } = open.excel;
  for (const [name, visibility] of names)
    workbook.sheets.push({ ...structuredClone(workbook.sheets[0]!), id: `{${name}}`, name, visibility });
  return open;
}
const namesIn = (open: ReturnType<typeof withSheets>): readonly string[] =>
  open.excel.workbook.sheets.map(({ name }) => name);

describe("sheets that a build or an evaluation left when it broke off", () => {
  it("are known by their name, an hour after they were made", () => {
    expect(isLeftOver(old, now)).toBe(true);
    expect(isLeftOver(young, now)).toBe(false);
    for (const name of ["kb-", "kb-beam", "kb-2024-12345678x", `${old} (2)`, "Kernbook"])
      expect(isLeftOver(name, now), name).toBe(false);
  });

  it("are removed, hidden ones too, and named; others stay", async () => {
    const other = passingName(now - 3 * hour);
    const open = withSheets([old, "Visible"], [other, "VeryHidden"], [young, "VeryHidden"], ["kb-mine", "Visible"]);
    expect(await open.host.sweep()).toEqual([old, other]);
    expect(namesIn(open)).toEqual(["Sheet1", young, "kb-mine"]);
    expect(await open.host.sweep()).toEqual([]);
  });

  it("a build that breaks off without a clean-up leaves such a name, never the final one", async () => {
    const open = withSheets();
    let names: readonly string[] = [];
    const failing = open.host.apply(smallPlan, {
      sheetName: "Beam",
      progress: (done, of) => {
        if (done < of) names = namesIn(open);
      },
    });
    await failing;
    const between = names.filter((name) => name !== "Sheet1");
    expect(between).toHaveLength(1);
    expect(isLeftOver(between[0]!, now + 2 * hour)).toBe(true);
  });
});
