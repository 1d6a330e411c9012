import { a1 } from "../../src/cells/index.ts";
import { describe, expect, it } from "vitest";
import { markCells, partsOf, recognise } from "../../src/checker/index.ts";
import { columns, type Plan, type PlannedCell } from "../../src/sheet/index.ts";
import { alarms, Built, en, enPre, finds, is, isPre, isValue, name } from "./planted.ts";

describe("a fault planted in a built sheet is found", () => {
  it("a row deleted, with the formulas that lost it", async () => {
    const built = await Built.unprotected(en);
    const { at } = built.meaning("fck");
    await built.faults.deleteRows(name, at.row, 1);
    const { findings } = await finds(built, "row deleted", "serious", undefined, ["row deleted"]);
    expect(findings[0]!.label).toContain("characteristic cylinder strength");
    expect(findings[0]!.what).toMatch(/\d+ formulas referred to it/);
  });

  it("a row inserted with something in it", async () => {
    const built = await Built.unprotected(isPre);
    await built.faults.insertRows(name, 60, 1);
    await built.faults.typeOver(name, { row: 60, column: columns.description }, "an allowance of mine");
    await finds(built, "row inserted", "look", { row: 60, column: 0 });
  });

  it("a row hidden, a column hidden", async () => {
    const built = await Built.unprotected(is);
    const { row } = built.cell(
      "verdict",
      ({ role, formula }) => role === "verdict" && formula?.includes("FAIL") === true,
    );
    built.faults.hideRow(name, row);
    built.faults.hideColumn(name, 7);
    await finds(built, "row hidden", "serious", { row, column: 0 }, ["column hidden"]);
    await finds(built, "column hidden", "serious", { row: 0, column: 7 }, ["row hidden"]);
  });

  it("a mark of a checker's that is stale", async () => {
    const built = await Built.of(enPre);
    const recognised = (await recognise(built.faults.host, name))!;
    const input = built.cell(
      "input of a length",
      ({ role, value, column }) =>
        role === "input" &&
        column === columns.value &&
        typeof value === "number" &&
        value > 1 &&
        !Number.isInteger(value),
    );
    const part = partsOf(built.plan)
      .flatMap(({ items }) => items)
      .find(({ kind, first }) => kind === "row" && first === input.row)!;
    await built.faults.host.enterAll(name, markCells(part, recognised, "AB", "2026-11-26"));
    expect(alarms(await built.compared())).toEqual([]);
    await built.faults.host.enter(
      { sheet: name, row: input.row, column: input.column },
      (input.value as number) * 1.01,
    );
    await finds(built, "mark stale", "look", { row: input.row, column: columns.mark });
  });

  it("a limit of an allowed range that was moved", async () => {
    const built = await Built.unprotected(en);
    const at = built.cell(
      "upper limit of an input",
      ({ role, value, column }) => role === "bound" && typeof value === "number" && column === columns.to,
    );
    await built.faults.typeOver(name, at, (at.value as number) * 10);
    const { findings } = await finds(built, "number changed", "serious", at);
    expect(findings[0]!.what).toContain("limit");
  });

  it("a sheet built with an older template, and with older functions", async () => {
    const built = await Built.unprotected(is);
    const { id, version } = built.plan.template;
    const head = built.cell("template and version", ({ value }) => value === `${id} ${version}`);
    await built.faults.typeOver(name, head, `${id} 1.0.0`);
    const functions = built.cell(
      "version as built",
      ({ role, column, value }) =>
        role === "bound" && typeof value === "string" && /^\d+\.\d+\.\d+$/.test(value) && column === columns.from,
    );
    await built.faults.typeOver(name, functions, "0.0.9");
    const { findings } = await finds(built, "template version", "look", undefined, ["functions version"]);
    expect(findings.find(({ kind }) => kind === "template version")).toMatchObject({
      expected: `${id} ${version}`,
      found: `${id} 1.0.0`,
    });
    expect(findings.find(({ kind }) => kind === "functions version")).toMatchObject({ found: "0.0.9" });
  });

  it("a number stored as text in an input, and an input out of its range", async () => {
    const built = await Built.unprotected(isPre);
    const inputs = built.plan.cells.filter(
      ({ role, value, column }) =>
        role === "input" && column === columns.value && typeof value === "number" && value > 1,
    );
    const [first, second] = inputs as [PlannedCell, PlannedCell];
    await built.faults.typeOver(name, first, String(first.value));
    await built.faults.typeOver(name, second, -1e9);
    const { findings } = await finds(built, "input not allowed", "serious", first, ["input not allowed"]);
    expect(findings.find(({ at }) => at?.row === first.row)!.what).toContain("stored as text");
    expect(findings.find(({ at }) => at?.row === second.row)!.what).toContain("below");
  });

  it("an input that takes a result of its own sheet; one that takes another input is but noted", async () => {
    const built = await Built.unprotected(isPre);
    const [first, second] = built.plan.cells.filter(
      ({ role, value, column }) =>
        role === "input" && column === columns.value && typeof value === "number" && value > 1,
    ) as [PlannedCell, PlannedCell];
    await built.faults.typeOver(name, second, { formula: `=${second.value}+0*${a1(first)}` });
    expect(alarms(await built.compared())).toEqual([]);
    await built.faults.typeOver(name, first, {
      formula: `=${first.value}+0*ISERROR(${a1(built.cell("head", ({ formula }) => formula === "=KERN.VERSION()"))})`,
    });
    await finds(built, "input linked", "look", first);
  });

  it("a value hidden by its number format, and one by its colour", async () => {
    const built = await Built.unprotected(en);
    const [first, second] = built.plan.cells.filter((c) => isValue(c) && c.formula?.includes("KERN.")) as [
      PlannedCell,
      PlannedCell,
    ];
    built.faults.setFormat(name, first, ";;;");
    built.faults.setColour(name, second, "#FFFFFF");
    await finds(built, "value hidden by format", "serious", first, ["value hidden by colour"]);
    await finds(built, "value hidden by colour", "serious", second, ["value hidden by format"]);
  });

  it("an input that shapes the sheet, changed without building anew", async () => {
    const built = await Built.unprotected(enPre);
    const at = built.cell("shape input", ({ role, value }) => role === "shape" && typeof value === "number");
    await built.faults.typeOver(name, at, (at.value as number) + 1);
    await finds(built, "shape changed", "serious", at);
  });

  it("a label, a caution and a verdict typed over", async () => {
    const built = await Built.unprotected(is);
    const label = built.cell(
      "description",
      ({ role, column, row }) => role === "description" && column === columns.description && row > 60,
    );
    const caution = built.cell("caution", ({ role }) => role === "caution");
    const verdict = built.cell(
      "verdict",
      ({ role, formula }) => role === "verdict" && formula?.includes("FAIL") === true,
    );
    await built.faults.typeOver(name, label, "something else");
    await built.faults.typeOver(name, caution, null);
    await built.faults.typeOver(name, verdict, "OK");
    const { findings } = await built.compared();
    expect(findings.map(({ kind, grade, at }) => [kind, grade, at?.row])).toEqual(
      expect.arrayContaining([
        ["label changed", "look", label.row],
        ["caution changed", "serious", caution.row],
        ["typed over", "serious", verdict.row],
      ]),
    );
    expect(findings.filter(({ grade }) => grade !== "note")).toHaveLength(3);
  });

  it("a content hash that is not the template's, and a name that stands for other cells", async () => {
    const built = await Built.unprotected(isPre);
    const at = built.cell("hash", ({ value }) => value === built.plan.hash);
    await built.faults.typeOver(name, at, "0123456789abcdef");
    const [first, second] = built.plan.names.filter(({ rows }) => rows === 1) as [
      Plan["names"][number],
      Plan["names"][number],
    ];
    await built.faults.changeName(name, first.name, second);
    const { findings } = await finds(built, "hash", "serious", undefined, ["name moved"]);
    expect(findings.find(({ kind }) => kind === "name moved")!.what).toContain(first.name);
  });
});
