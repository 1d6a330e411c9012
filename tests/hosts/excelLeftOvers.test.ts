import { describe, expect, it } from "vitest";
import { isLeftOver, passingName } from "../../src/hosts/excel/passingSheets.ts";
import { sweptText } from "../../taskpane/addin/swept.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { openFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

const hour = 3_600_000;
const now = Date.now();
const old = passingName(now - 2 * hour);
const young = passingName(now - hour / 2);

function withSheets(...names: readonly (readonly [name: string, visibility: "Visible" | "VeryHidden"])[]) {
  const open = openFake({ calculator: memoryCalculator() });
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
    expect((await open.host.sweep()).gone).toEqual([old, other]);
    expect(namesIn(open)).toEqual(["Sheet1", young, "kb-mine"]);
    expect((await open.host.sweep()).gone).toEqual([]);
  });

  it("of the last hour stay, since somebody may be building them; they go in the sweep that is asked for then", async () => {
    const visible = passingName(now - hour / 4);
    const open = withSheets([young, "VeryHidden"], [visible, "Visible"]);
    const first = await open.host.sweep(() => now);
    expect(first).toMatchObject({ gone: [], unfinished: [visible] });
    expect(first.again).toBeGreaterThan((hour * 3) / 4);
    const second = await open.host.sweep(() => now + first.again!);
    expect(second).toEqual({ gone: [young, visible], unfinished: [] });
    expect(namesIn(open)).toEqual(["Sheet1"]);
  });

  it("of a build that breaks off with the program bear such a name, never the final one", async () => {
    const open = withSheets();
    let broken = false;
    open.excel.watch = (label) => {
      broken ||= label === "Range.merge";
      if (broken) throw new Error("the program is gone");
    };
    await expect(open.host.apply(smallPlan, { sheetName: "Beam", progress: () => {} })).rejects.toMatchObject({
      name: "SheetLeft",
    });
    const left = namesIn(open).filter((name) => name !== "Sheet1");
    expect(left).toHaveLength(1);
    expect(isLeftOver(left[0]!, Date.now() + 2 * hour)).toBe(true);
    open.excel.watch = () => undefined;
    expect((await open.host.sweep(() => Date.now() + 2 * hour)).gone).toEqual(left);
    expect(namesIn(open)).toEqual(["Sheet1"]);
  });

  it("are spoken of in words: what was removed, and what may still be built", () => {
    expect(sweptText({ gone: [], unfinished: [] })).toBe("");
    expect(sweptText({ gone: [old], unfinished: [] })).toBe(
      `The sheet ${old} was removed: it was unfinished, left by a build or an evaluation that broke off.`,
    );
    expect(sweptText({ gone: [], unfinished: [young] })).toMatch(
      /^The sheet kb-\S+ is unfinished and less than an hour old: .* delete it; otherwise that happens here after an hour\.$/,
    );
  });
});
