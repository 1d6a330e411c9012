import { afterAll, describe, expect, it } from "vitest";
import { evaluated } from "../../../src/command/eval/evaluated.ts";
import { nearestFunctions, unknownFunction } from "../../../src/command/eval/nearest.ts";
import { openGridInNode } from "../../../src/hosts/index.ts";

const host = await openGridInNode();
afterAll(() => host.dispose());

const of = async (formula: string) => {
  const { cells, warnings } = await evaluated(host, "Sheet1", formula);
  return { value: cells[0]![0]!.value, error: cells[0]![0]!.error, warnings };
};

describe("numbers with zeros that say nothing", () => {
  it("are numbers as arguments and in array constants", async () => {
    const plain = (await of('KERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m",1395,12)')).value;
    expect(plain).toBeCloseTo(1395 * Math.exp(-0.096), 9);
    expect((await of('KERN.FRICTION_STRESS(0.30,0.20,0.0030,"1/m",1395.0,12.0)')).value).toBe(plain);
    expect((await of('KERN.OUTLINE_SECTION({0.0,0.0;100.0,0.0;100.0,200.0;0.0,200.0},"AREA")')).value).toBe(20000);
    expect((await of("SUM({1.0;2.5})")).value).toBe(3.5);
  });

  it("stay texts in quotes", async () => {
    expect((await of('KERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m","1395.0",12)')).error?.message).toMatch(
      /the text “1395\.0”/,
    );
  });
});

describe("a misspelt function", () => {
  it("is answered with the nearest ones", async () => {
    const { error } = await of('KERN.FRICTON_STRESS(0.3,0.2,0.003,"1/m",1395,12)');
    expect(error?.code).toBe("#NAME?");
    expect(error?.message).toMatch(/^there is no function KERN\.FRICTON_STRESS; nearest: KERN\.FRICTION_STRESS,?/);
  });

  it("is found by letters exchanged and by its beginning", () => {
    expect(nearestFunctions("TENDON_FROCE")[0]).toBe("KERN.TENDON_FORCE");
    expect(nearestFunctions("TENSION_LIMIT")).toContain("KERN.TENSION_LIMIT_EN1992_2004");
  });

  it("has none near where it is like nothing", () => {
    expect(unknownFunction("QQQQQQ")).toBe("there is no function KERN.QQQQQQ; npm run -s functions lists all");
    expect(unknownFunction("friction_stress")).toBeUndefined();
  });
});

describe("warnings", () => {
  it("are told of every call of ours, with the unit perhaps meant", async () => {
    const { value, warnings } = await of('2*KERN.FRICTION_STRESS(20,0.2,0.003,"1/m",1395,12)');
    expect(value).toBeTypeOf("number");
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatch(
      /^FRICTION_STRESS: α .* = 20 rad is outside the everyday range .*\. A value in degrees\?$/,
    );
  });

  it("are none where there is nothing to tell, nor of native functions", async () => {
    expect((await of('KERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m",1395,12)+SUM(1,2)')).warnings).toEqual([]);
  });
});
