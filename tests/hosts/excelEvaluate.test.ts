import { beforeEach, describe, expect, it } from "vitest";
import { gridCalculator } from "./excelFake/gridCalculator.ts";
import { openFake, type OpenFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

const calculator = gridCalculator();
let open: OpenFake;
beforeEach(() => {
  open = openFake({ calculator });
});
const build = () => open.host.apply(smallPlan, { sheetName: "Beam", progress: () => undefined });
const one = async (formula: string, sheet = "Beam") => (await open.host.evaluate(formula, sheet))[0]![0]!;
/** The plain exponential of friction, written out. */
const friction = (mu: number) => 1395 * Math.exp(-(mu * 0.3 + 0.003 * 12));

describe("evaluating", () => {
  it("reads references and names as a cell of that sheet, and touches nothing", async () => {
    await build();
    const before = open.excel.snapshot();
    expect(await one("C5/2")).toMatchObject({
      value: expect.closeTo(friction(0.2) / 2, 10) as number,
      formula: "=C5/2",
    });
    expect((await one("=kb_mu*10")).value).toBe(2);
    expect((await one("SUM(C5:C5,Beam!C3)")).value).toBeCloseTo(friction(0.2) + 0.2, 10);
    expect(open.excel.snapshot()).toEqual(before);
  });

  it("gives what fills several cells as rows, where the program can", async () => {
    expect((await open.host.evaluate("SEQUENCE(2,2)", "Sheet1")).map((row) => row.map(({ value }) => value))).toEqual([
      [1, 2],
      [3, 4],
    ]);
    open = openFake({ calculator, api: "1.9" });
    expect((await open.host.evaluate("SEQUENCE(2,2)", "Sheet1")).map((row) => row.map(({ value }) => value))).toEqual([
      [1],
    ]);
  });

  it("gives errors, of formulas that cannot be read too", async () => {
    const before = open.excel.snapshot();
    expect((await one("1/0", "Sheet1")).error).toEqual({ code: "#DIV/0!" });
    expect((await one("SUM(1,", "Sheet1")).error).toMatchObject({
      code: "#ERROR!",
      message: expect.stringContaining("cannot be read") as string,
    });
    await expect(one("1+1", "None")).rejects.toThrow("“None”");
    expect(open.excel.snapshot()).toEqual(before);
  });

  it("removes its hidden sheet whatever fails", async () => {
    const before = open.excel.snapshot();
    await one("1+1", "Sheet1");
    const { operations, requests } = open.excel;
    for (const [kind, count] of [
      ["operation", operations],
      ["request", requests],
      ["answer", requests],
    ] as const) {
      for (let at = 1; at <= count; at++) {
        open = openFake({ calculator });
        open.excel.fault = { kind, at };
        // A fault while the hidden sheet is removed does not take the value away: it is reported, and the removal tried again.
        const errors = await one("1+1", "Sheet1").then(
          ({ value }) => (expect(value).toBe(2), open.reported),
          (error: unknown) => [error],
        );
        expect(errors, `${kind} ${at}`).toEqual([expect.objectContaining({ code: "GeneralException" })]);
        expect(open.excel.snapshot(), `${kind} ${at}`).toEqual(before);
      }
    }
  });

  it("says where its hidden sheet could not be removed", async () => {
    open.excel.fault = { kind: "request", at: 5, stays: true };
    await expect(one("1+1", "Sheet1")).rejects.toThrow(/injected fault/);
  });
});
