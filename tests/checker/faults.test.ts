import { a1, type Address } from "../../src/cells/index.ts";
import { afterEach, describe, expect, it } from "vitest";
import {
  compare,
  markCells,
  partsOf,
  readHandOut,
  recognise,
  tracerOf,
  type Comparison,
  type FindingKind,
  type Flag,
  type Grade,
} from "../../src/checker/index.ts";
import { expand, type Meaning, type Plan, type PlannedCell, type Template } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { gridWithFaults, type GridFaults } from "./gridFaults.ts";

const name = "Beam";
let open: GridFaults | undefined;
afterEach(() => {
  open?.host.dispose();
  open = undefined;
});

/** A freshly built sheet with its invented example, and ways to point at its cells. */
class Built {
  readonly plan: Plan;
  private constructor(
    readonly template: Template,
    readonly faults: GridFaults,
  ) {
    this.plan = expand(template, template.example.inputs);
  }

  static async of(template: Template): Promise<Built> {
    open?.host.dispose();
    const built = new Built(template, (open = gridWithFaults()));
    await built.faults.host.apply(built.plan, { sheetName: name, progress: () => undefined });
    return built;
  }

  /** Ready to be changed where it is protected. */
  static async unprotected(template: Template): Promise<Built> {
    const built = await Built.of(template);
    await built.faults.unprotected(name);
    return built;
  }

  cell(where: string, fits: (cell: PlannedCell) => boolean): PlannedCell {
    const found = this.plan.cells.find(fits);
    if (!found) throw new Error(`${this.template.id} has no ${where}`);
    return found;
  }

  meaning(id: string): Meaning {
    const found = this.plan.meanings.find((m) => m.id === id);
    if (!found) throw new Error(`${this.template.id} has no ${id}`);
    return found;
  }

  async compared(sheet = name): Promise<Comparison> {
    const comparison = await compare(this.faults.host, sheet);
    if (!comparison) throw new Error(`“${sheet}” was not recognised`);
    return comparison;
  }

  async flags(at: Address): Promise<readonly Flag[]> {
    return (await tracerOf(this.faults.host).trace({ sheet: name, row: at.row, column: at.column })).calls.flatMap(
      ({ flags }) => flags,
    );
  }
}

const alarms = ({ findings }: Comparison) => findings.filter(({ grade }) => grade !== "note");
const [en, enPre, is, isPre] = templates as readonly [Template, Template, Template, Template];

/** Does a comparison name this fault at this cell, and nothing else that is no consequence of it? */
async function finds(
  built: Built,
  kind: FindingKind,
  grade: Grade,
  at: Address | undefined,
  consequences: readonly FindingKind[] = [],
): Promise<Comparison> {
  const comparison = await built.compared();
  const found = comparison.findings.find(
    (f) => f.kind === kind && (at === undefined || (f.at?.row === at.row && f.at.column === at.column)),
  );
  expect(
    found,
    `${kind} at ${at ? a1(at) : "the sheet"}; found ${JSON.stringify(alarms(comparison).slice(0, 5))}`,
  ).toBeDefined();
  expect(found!.grade).toBe(grade);
  expect(comparison.clean).toBe(grade === "note");
  expect(
    alarms(comparison)
      .filter((f) => f !== found && !consequences.includes(f.kind))
      .map((f) => `${f.kind} ${f.at ? a1(f.at) : ""} ${f.what}`),
  ).toEqual([]);
  return comparison;
}

const isValue = ({ role, column }: PlannedCell): boolean => role === "value" && column === 3;

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

  it("a formula left open on a protected sheet, and inputs that are not", async () => {
    const built = await Built.unprotected(is);
    const at = built.cell("formula", isValue);
    expect(alarms(await built.compared())).toEqual([]);
    expect((await built.compared()).findings.map(({ kind }) => kind)).toContain("protection off");
    await built.faults.protectedBut(name, at);
    const { findings } = await finds(built, "cell open", "look", at);
    expect(findings.some(({ kind }) => kind === "cell locked")).toBe(true);
    expect(findings.some(({ kind }) => kind === "protection off")).toBe(false);
  });

  it("a unit written otherwise beside its value", async () => {
    const built = await Built.unprotected(isPre);
    const at = built.cell("unit kN", ({ role, value }) => role === "unit" && value === "kN");
    await built.faults.typeOver(name, at, "N");
    await finds(built, "unit changed", "serious", at);
  });

  it("a cell in kN handed over for MPa: Trace says by how much it is wrong", async () => {
    const built = await Built.unprotected(en);
    const planned = built.cell(
      "call of a friction function",
      ({ formula, row }) => row > 60 && /^=KERN\.FRICTION_STRESS/.test(formula ?? ""),
    );
    const row = 60;
    await built.faults.insertRows(name, row - 1, 1);
    await built.faults.typeOver(name, { row: row - 1, column: 1 }, "Force at the jack");
    await built.faults.typeOver(name, { row: row - 1, column: 3 }, 4600);
    await built.faults.typeOver(name, { row: row - 1, column: 4 }, "kN");
    const at = { row: planned.row + 1, column: planned.column };
    const [[{ formula }]] = (await built.faults.host.read(name, { ...at, rows: 1, columns: 1 })) as unknown as [
      [{ formula: string }],
    ];
    await built.faults.typeOver(name, at, { formula: formula.replace(/\([^,]+,/, `($D$${row},`) });
    await finds(built, "other cells", "serious", at, ["row inserted"]);
    const [flag] = (await built.flags(at)).filter(({ kind }) => kind === "unit");
    expect(flag?.message).toMatch(/Force at the jack.*kN.*MPa/);
  }, 60_000);

  it("a cube strength handed over for a cylinder strength: by Compare and by Trace", async () => {
    const built = await Built.unprotected(enPre);
    const fck = built.meaning("fck").at;
    const planned = built.cell(
      "call with f_ck",
      ({ formula, role }) =>
        role === "value" && formula === `=KERN.CONCRETE_TENSILE_STRENGTH_EN1992_2004(${a1(fck, true)})`,
    );
    const row = 60;
    await built.faults.insertRows(name, row - 1, 1);
    await built.faults.typeOver(name, { row: row - 1, column: 1 }, "characteristic cube strength");
    await built.faults.typeOver(name, { row: row - 1, column: 3 }, 50);
    await built.faults.typeOver(name, { row: row - 1, column: 4 }, "MPa");
    const at = { row: planned.row + (planned.row >= row - 1 ? 1 : 0), column: planned.column };
    await built.faults.typeOver(name, at, { formula: `=KERN.CONCRETE_TENSILE_STRENGTH_EN1992_2004($D$${row})` });
    await finds(built, "other cells", "serious", at, ["row inserted"]);
    expect((await built.flags(at)).map(({ kind }) => kind)).toContain("sort");
  });

  it("a range that takes other rows", async () => {
    const built = await Built.unprotected(is);
    const sum = /(SUM|MAX|MIN)\(\$([A-Z])\$(\d+):\$[A-Z]\$(\d+)\)/;
    const at = built.cell("sum over a range", ({ formula, role }) => role !== "warning" && sum.test(formula ?? ""));
    await built.faults.typeOver(name, at, {
      formula: at.formula!.replace(
        sum,
        (_all, f: string, c: string, from: string, to: string) =>
          `${f}($${c}$${Number(from) + 1}:$${c}$${Number(to) + 1})`,
      ),
    });
    await finds(built, "range changed", "serious", at);
  });

  it("a formula filled down from the wrong row", async () => {
    const built = await Built.unprotected(enPre);
    const table = built.plan.meanings.find(
      ({ at }) =>
        at.rows > 5 &&
        built.plan.cells.some(
          (c) => c.row === at.row + 3 && c.column === at.column && /\$[A-Z]\d/.test(c.formula ?? ""),
        ),
    )!.at;
    const at = built.cell("column of formulas", ({ row, column }) => row === table.row + 3 && column === table.column);
    const before = built.cell("the cell above", ({ row, column }) => row === table.row + 2 && column === table.column);
    await built.faults.typeOver(name, at, { formula: before.formula! });
    await finds(built, "other cells", "serious", at);
  });

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
    await built.faults.typeOver(name, { row: 60, column: 1 }, "an allowance of mine");
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
        role === "input" && column === 3 && typeof value === "number" && value > 1 && !Number.isInteger(value),
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
    await finds(built, "mark stale", "look", { row: input.row, column: 11 });
  });

  it("a limit of an allowed range that was moved", async () => {
    const built = await Built.unprotected(en);
    const at = built.cell(
      "upper limit of an input",
      ({ role, value, column }) => role === "bound" && typeof value === "number" && column === 13,
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
      ({ role, row, column, value }) =>
        role === "bound" && typeof value === "string" && /^\d+\.\d+\.\d+$/.test(value) && row < 20 && column === 12,
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
      ({ role, value, column }) => role === "input" && column === 3 && typeof value === "number" && value > 1,
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
      ({ role, value, column }) => role === "input" && column === 3 && typeof value === "number" && value > 1,
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
      ({ role, column, row }) => role === "description" && column === 1 && row > 40,
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

describe("no false alarm", () => {
  /** Cells to type other allowed values into: some numbers moved by a little, and a choice turned. */
  function edits(plan: Plan): readonly { readonly at: Address; readonly value: number | string }[] {
    const rule = ({ row, column }: Address) =>
      plan.validations.find(
        (v) => row >= v.row && row < v.row + v.rows && column >= v.column && column < v.column + v.columns,
      )?.rule;
    const inputs = plan.cells.filter(({ role }) => role === "input" || role === "choice");
    const numbers = inputs.flatMap((cell) => {
      const of = rule(cell);
      if (of?.kind !== "number" || of.whole || typeof cell.value !== "number" || cell.value === 0) return [];
      const value = cell.value * 0.99;
      return value < (of.min ?? -Infinity) || value <= (of.above ?? -Infinity) || value > (of.max ?? Infinity)
        ? []
        : [{ at: cell, value }];
    });
    const choice = inputs.flatMap((cell) => {
      const of = rule(cell);
      const other = of?.kind === "list" ? of.values.find((v) => v !== String(cell.value)) : undefined;
      return other === undefined ? [] : [{ at: cell, value: other }];
    });
    const spread = Array.from({ length: 3 }, (_, i) => numbers[Math.floor(((i + 0.5) * numbers.length) / 3)]!);
    return [...spread, ...choice.slice(0, 1)];
  }

  it.each(templates.map((t) => [t.id, t] as const))(
    "on %s as built, after ordinary edits of inputs, and renamed",
    async (_id, template) => {
      const built = await Built.of(template);
      const fresh = await built.compared();
      expect(fresh.findings).toEqual([]);
      expect(fresh.clean).toBe(true);
      expect(fresh.recognised.plan.hash).toBe(built.plan.hash);
      expect(fresh.compared.computed).toBeGreaterThan(4_000);
      for (const { at, value } of edits(built.plan))
        await built.faults.host.enter({ sheet: name, row: at.row, column: at.column }, value);
      const edited = await built.compared();
      expect(alarms(edited)).toEqual([]);
      expect(edited.recognised.plan.hash).toBe(edited.recognised.head.hash);
      await built.faults.rename(name, "Girder 7 (checked)");
      expect(alarms(await built.compared("Girder 7 (checked)"))).toEqual([]);
    },
  );

  it.each(templates.map((t) => [t.id, t] as const))(
    "on %s with nothing but its defaults, most inputs empty",
    async (_id, template) => {
      open = gridWithFaults();
      await open.host.apply(expand(template, {}), { sheetName: name, progress: () => undefined });
      const comparison = await compare(open.host, name);
      expect(alarms(comparison!)).toEqual([]);
      expect(comparison!.counts.note).toBeGreaterThan(0);
    },
  );

  it("after empty rows were inserted, the sheet duplicated and copied to another workbook; a fault there is found all the same", async () => {
    const built = await Built.unprotected(en);
    await built.faults.insertRows(name, 30, 2);
    expect(alarms(await built.compared())).toEqual([]);
    const copy = await built.faults.duplicate(name);
    expect(alarms(await built.compared(copy))).toEqual([]);
    const target = built.cell("formula", (c) => isValue(c) && c.formula?.includes("KERN.") === true && c.row > 30);
    await built.faults.typeOver(name, { row: target.row + 2, column: target.column }, 1);
    const elsewhere = await built.faults.copyToAnotherBook(name, "From a file");
    // Two grids of one process share what they have parsed.
    built.faults.host.dispose();
    open = undefined;
    try {
      const there = await compare(elsewhere.host, elsewhere.sheet);
      expect(
        there?.findings.filter(({ grade }) => grade !== "note").map(({ kind, at }) => [kind, at && a1(at)]),
      ).toEqual([["typed over", a1({ row: target.row + 2, column: target.column })]]);
    } finally {
      elsewhere.host.dispose();
    }
  });

  it("a hand-out copy is nothing to compare", async () => {
    const built = await Built.of(is);
    const { plan } = await readHandOut(built.faults.host, name, {
      when: "1 January 2026, 12:00 UTC",
      host: "the grid",
    });
    await built.faults.host.apply(plan, { sheetName: "Copy", progress: () => undefined });
    expect(await compare(built.faults.host, "Copy")).toBeUndefined();
  });

  it("on a sheet that no template built there is nothing to compare", async () => {
    open = gridWithFaults();
    await open.host.enter({ sheet: "Sheet1", row: 0, column: 0 }, "my own calculation");
    expect(await compare(open.host, "Sheet1")).toBeUndefined();
  });
});
