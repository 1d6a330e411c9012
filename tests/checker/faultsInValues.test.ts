import { type Address } from "../../src/cells/index.ts";
import { describe, expect, it } from "vitest";
import { Built, en, enPre, finds, is, isPre, isValue, name } from "./planted.ts";

describe("a fault planted in a built sheet is found", () => {
  it("a value typed over a formula, though it is the very value", async () => {
    const built = await Built.unprotected(en);
    const { row, column } = built.cell("formula", (c) => isValue(c) && c.formula?.includes("KERN.") === true);
    const { value } = (await built.faults.host.read(name, { row, column, rows: 1, columns: 1 }))[0]![0]!;
    await built.faults.typeOver(name, { row, column }, value);
    const { findings } = await finds(built, "typed over", "serious", { row, column });
    expect(findings[0]!.expected).toContain("KERN.");
  });

  it("a number changed within a formula", async () => {
    const built = await Built.unprotected(enPre);
    const at = built.cell("formula with a number", (c) => isValue(c) && /(?<![\w.$])1(?![\w.])/.test(c.formula ?? ""));
    await built.faults.typeOver(name, at, { formula: at.formula!.replace(/(?<![\w.$])1(?![\w.])/, "1.05") });
    await finds(built, "constant changed", "serious", at);
  });

  it("two arguments swapped: by Compare, and by Trace from their units", async () => {
    const built = await Built.unprotected(is);
    const two = /(KERN\.TENDON_STRESS\()([^(),]+),([^(),]+)\)/;
    const at = built.cell("call of TENDON_STRESS", ({ formula }) => two.test(formula ?? ""));
    expect(await built.flags(at)).toEqual([]);
    await built.faults.typeOver(name, at, { formula: at.formula!.replace(two, "$1$3,$2)") });
    await finds(built, "arguments in another order", "serious", at);
    expect((await built.flags(at)).map(({ kind }) => kind)).toContain("swapped");
  });

  it("and said what it comes to: the value beside the template's, for which member of a table, and the verdict of the whole", async () => {
    const built = await Built.unprotected(en);
    const cells = async () =>
      built.faults.host.read(name, { row: 0, column: 0, rows: built.plan.rows, columns: built.plan.columns });
    const before = await cells();
    const { summary, meanings } = built.plan;
    const loss = built.cell(
      "friction in a table",
      ({ formula, row, column }) =>
        formula?.startsWith("=KERN.") === true &&
        meanings.some(({ at }) => at.rows > 5 && at.column === column && row > at.row && row < at.row + at.rows),
    );
    const most = summary.checks.reduce((a, b) =>
      Number(before[b.utilisation.row]![b.utilisation.column]!.value) >
      Number(before[a.utilisation.row]![a.utilisation.column]!.value)
        ? b
        : a,
    );
    const value = Number(before[loss.row]![loss.column]!.value);
    await built.faults.typeOver(name, loss, value * 1.25);
    await built.faults.typeOver(name, most.utilisation, 0.125);
    await built.faults.typeOver(name, summary.overall, "OK");
    const { findings, effect } = await built.compared();
    const at = (place: Address) =>
      findings.find((f) => f.kind === "typed over" && f.at?.row === place.row && f.at.column === place.column)!;
    expect(at(loss).what).toContain("(+25 %); with the template's formulas it would be");
    expect(at(loss).member).toMatch(/^\S+ \S+/);
    expect(at(most.utilisation).what).toContain("It shows 0.125");
    // What the grid computed before anything was typed over.
    const was = Number(before[most.utilisation.row]![most.utilisation.column]!.value);
    expect(effect!.overall).toEqual({
      sheet: "OK",
      template: before[summary.overall.row]![summary.overall.column]!.value,
    });
    expect(effect!.governing.template!.of).toBe(most.description);
    expect(Math.abs(effect!.governing.template!.utilisation / was - 1)).toBeLessThan(1e-9);
    expect(effect!.governing.sheet!.of).not.toBe(most.description);
  });

  it("an input that is allowed but unusual, for a look; the sheet stays as its template", async () => {
    const built = await Built.of(en);
    const wobble = built.plan.cells.find(
      ({ row, role }) =>
        role === "input" &&
        built.plan.meanings.some(({ at, symbol }) => at.row === row && at.rows === 1 && symbol === "k"),
    )!;
    await built.faults.typeOver(name, wobble, 0.08);
    const comparison = await finds(built, "input unusual", "note", wobble);
    expect(comparison.findings.find(({ kind }) => kind === "input unusual")).toMatchObject({
      expected: "usually 0.005 to 0.01 rad/m",
      found: "0.08",
    });
    expect(comparison.effect).toBeUndefined();
  });

  it("what an input takes, widened, taken away or taken from all", async () => {
    const built = await Built.unprotected(is);
    const numbers = built.plan.validations.filter(({ rule, rows }) => rule.kind === "number" && rows === 1);
    const [one, other] = [numbers[2]!, numbers[5]!];
    built.faults.setEntryRule(name, one, [-1e6, 1e6]);
    expect((await finds(built, "entry rule changed", "look", one)).findings[0]).toMatchObject({
      found: "number, at least −1000000, at most 1000000",
    });
    built.faults.setEntryRule(name, other);
    await finds(built, "entry rule missing", "look", other, ["entry rule changed"]);
    for (const { row, column, rows, columns } of built.plan.validations)
      for (let r = 0; r < rows; r++)
        for (let c = 0; c < columns; c++) built.faults.setEntryRule(name, { row: row + r, column: column + c });
    await finds(built, "entry rule missing", "look", undefined);
  });

  it("colours by content that hide a value, turn a verdict's meaning or are gone; letters too small to be read", async () => {
    const built = await Built.unprotected(is);
    const values = built.plan.cells.filter((cell) => isValue(cell) && cell.format === "0.0");
    const [white, blank, tiny] = [values[2]!, values[5]!, values[8]!];
    built.faults.setSize(name, tiny, 1);
    await finds(built, "value hidden by size", "serious", tiny);
    built.faults.setSize(name, tiny, 10);
    built.faults.addColours(name, { ...white, rows: 1, columns: 1 }, 0, { color: "#FFFFFF" });
    await finds(built, "value hidden by colour", "serious", white);
    built.faults.addColours(name, { ...blank, rows: 1, columns: 1 }, 0, { color: "#333333", format: ";;;" });
    await finds(built, "value hidden by format", "serious", blank, ["value hidden by colour"]);
    built.faults.clearColours(name);
    await finds(built, "colour missing", "look", undefined);
  });

  it("a FAIL in the colours of an OK, and a colour that is only somebody's own", async () => {
    const built = await Built.unprotected(isPre);
    const [value] = built.plan.cells.filter((cell) => isValue(cell) && cell.format === "0.0");
    built.faults.addColours(name, { ...value!, rows: 1, columns: 1 }, 0, { color: "#333333", background: "#FFFF00" });
    await finds(built, "colour added", "note", value);
    built.faults.swapColours(name, "FAIL", "OK");
    const comparison = await finds(built, "colour changed", "look", undefined, ["colour changed"]);
    expect(comparison.findings.filter(({ kind }) => kind === "colour changed").length).toBe(
      built.plan.highlights.filter(({ text }) => text === "FAIL").length,
    );
    expect(comparison.findings.find(({ kind }) => kind === "colour changed")).toMatchObject({
      what: "FAIL takes other colours.",
    });
  });
});
