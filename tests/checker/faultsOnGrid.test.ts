import { describe, expect, it } from "vitest";
import { columns } from "../../src/sheet/index.ts";
import { alarms, Built, finds, isPre, isValue, name } from "./planted.ts";

/** The other faults are planted on sheets in memory; here the embedded grid itself, where each edit takes seconds. */
describe("on the embedded grid", () => {
  it("a sheet as built and with another input raises no alarm; what is typed over, hidden or inserted is found", async () => {
    const built = await Built.unprotected(isPre, "grid");
    const input = built.cell(
      "input of a length",
      ({ role, value, column }) =>
        role === "input" &&
        column === columns.value &&
        typeof value === "number" &&
        value > 1 &&
        !Number.isInteger(value),
    );
    await built.faults.typeOver(name, input, (input.value as number) * 0.99);
    expect(alarms(await built.compared())).toEqual([]);
    const [typed, white] = built.plan.cells.filter((c) => isValue(c) && c.formula?.includes("KERN.")) as [
      (typeof built.plan.cells)[number],
      (typeof built.plan.cells)[number],
    ];
    const { value } = (await built.faults.host.read(name, { ...typed, rows: 1, columns: 1 }))[0]![0]!;
    await built.faults.typeOver(name, typed, value);
    built.faults.setColour(name, white, "#FFFFFF");
    const { findings } = await finds(built, "typed over", "serious", typed, ["value hidden by colour"]);
    expect(findings.find(({ kind }) => kind === "value hidden by colour")!.at).toMatchObject({ row: white.row });
    await built.faults.insertRows(name, 30, 1);
    await built.faults.typeOver(name, { row: 30, column: 1 }, "an allowance of mine");
    await finds(built, "row inserted", "look", { row: 30, column: 0 }, ["typed over", "value hidden by colour"]);
  }, 180_000);
});
