import { describe, expect, it } from "vitest";
import { formulas, run, warnings } from "../../../src/core/index.ts";

const of = (id: string) => formulas.find((f) => f.id === id)!;
const cylinder = of("STRENGTH_REQUIRED_RATIO_EN1992_2004");
const cube = of("STRENGTH_REQUIRED_RATIO_CUBE");

describe("a strength required at an age", () => {
  // By hand: β_cc(1) = exp(0.2(1 − √28)) = 0.4239; 0.4239·53 = 22.47 MPa mean, 14.5 MPa characteristic.
  it("that the concrete does not usually have by then is warned of, with what can be expected", () => {
    expect(run(cylinder, [30, 45, "R", 1])).toBeCloseTo(38 / 22.467, 3);
    expect(warnings(cylinder, [30, 45, "R", 1]).join()).toMatch(
      /30 MPa is required, but only about 14\.5 MPa .* 1 day:/,
    );
    expect(warnings(cylinder, [14, 45, "R", 1])).toEqual([]);
  });

  it("counts an age adjusted for heat as any other", () => {
    expect(warnings(cylinder, [30, 45, "R", 3.3])).toEqual([]);
  });

  // By hand: β_cc(7) = exp(0.25(1 − 2)) = 0.7788; 38.94 MPa of 50.
  it("is asked of cubes too, with cement of normal gain unless said otherwise", () => {
    expect(run(cube, [45, 50, 7])).toBeCloseTo(45 / 38.94, 3);
    expect(warnings(cube, [45, 50, 7]).join()).toMatch(/only about 38\.9 MPa .* 7 days:/);
    expect(warnings(cube, [38, 50, 7])).toEqual([]);
  });

  it("gains nothing after 28 days", () => {
    expect(run(cylinder, [40, 40, "N", 28])).toBeCloseTo(1, 12);
    expect(run(cylinder, [40, 40, "N", 365])).toBeCloseTo(1, 12);
  });
});
