import { a1 } from "../../src/cells/index.ts";
import { describe, expect, it } from "vitest";
import { columns } from "../../src/sheet/index.ts";
import { alarms, Built, en, enPre, finds, is, isPre, isValue, name } from "./planted.ts";

/** Another cell for the stress at the jack, the fifth argument. */
function withJackingStress(formula: string, cell: string): string {
  return formula.replace(
    /^(=KERN\.FRICTION_STRESS\((?:[^,()]+,){4})[^,()]+,/,
    (_all, before: string) => `${before}${cell},`,
  );
}

describe("a fault planted in a built sheet is found", () => {
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
    await built.faults.typeOver(name, { row: row - 1, column: columns.description }, "Force at the jack");
    await built.faults.typeOver(name, { row: row - 1, column: columns.value }, 4600);
    await built.faults.typeOver(name, { row: row - 1, column: columns.unit }, "kN");
    const at = { row: planned.row + 1, column: planned.column };
    const [[{ formula }]] = (await built.faults.host.read(name, { ...at, rows: 1, columns: 1 })) as unknown as [
      [{ formula: string }],
    ];
    await built.faults.typeOver(name, at, { formula: withJackingStress(formula, `$H$${row}`) });
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
    await built.faults.typeOver(name, { row: row - 1, column: columns.description }, "characteristic cube strength");
    await built.faults.typeOver(name, { row: row - 1, column: columns.value }, 50);
    await built.faults.typeOver(name, { row: row - 1, column: columns.unit }, "MPa");
    const at = { row: planned.row + (planned.row >= row - 1 ? 1 : 0), column: planned.column };
    await built.faults.typeOver(name, at, { formula: `=KERN.CONCRETE_TENSILE_STRENGTH_EN1992_2004($H$${row})` });
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
});
