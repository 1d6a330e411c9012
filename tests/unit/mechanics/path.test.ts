import { describe, expect, test } from "vitest";
import { formulas, InputError, run, trace, warnings, type Argument } from "../../../src/core/index.ts";

const found = (id: string) => formulas.find((f) => f.id === id)!;
const kern = (id: string, ...args: readonly Argument[]): number => run(found(id), args);
function refusal(id: string, ...args: readonly Argument[]): { readonly parameter: string; readonly message: string } {
  try {
    run(found(id), args);
  } catch (error) {
    if (error instanceof InputError) return { parameter: error.parameter, message: error.message };
    throw error;
  }
  throw new Error("it was not refused");
}

const points = [
  [0, 0, "LINE"],
  [10, 500, "LINE"],
  [20, 0, ""],
];
const turn = 2 * Math.atan(0.05);
const deviators = [
  [0, 0, 0],
  [10, turn, 0],
  [20, 0, 0],
];
const segments = [
  [10, 0, 0, 0.2, 0.002],
  [0, turn, 0, 0.2, 0.002],
  [10, 0, 0, 0.2, 0.002],
];

describe("the range tells which description of the tendon it is", () => {
  test("the same kink is the same angle in each", () => {
    for (const path of [points, deviators, segments]) {
      expect(kern("TENDON_ANGLE", path, "LEFT", 20)).toBeCloseTo(turn, 12);
      expect(kern("TENDON_ANGLE", path, "RIGHT", 15)).toBe(0);
      expect(kern("TENDON_ANGLE", path, "RIGHT", 5)).toBeCloseTo(turn, 12);
      expect(kern("DISTANCE_FROM_JACK", path, "RIGHT", 5)).toBeCloseTo(15, 12);
    }
  });

  test("adjoining intervals add up from either jack", () => {
    for (const path of [points, deviators, segments])
      for (const jack of ["LEFT", "RIGHT"]) {
        const [a, b] = jack === "LEFT" ? [3, 20] : [17, 0];
        const first = kern("TENDON_ANGLE", path, jack, 10);
        const second = kern("TENDON_ANGLE", path, jack, b, 10);
        expect(first).toBeCloseTo(turn, 12);
        expect(second).toBeCloseTo(0, 12);
        expect(kern("TENDON_ANGLE", path, jack, b, a)).toBeCloseTo(first + second, 12);
      }
  });

  test("a blank shape is a straight line, as long as one row has a shape in words", () => {
    const lines = points.map(([x, e]) => [x, e, "LINE"]);
    expect(kern("TENDON_LENGTH", points)).toBe(kern("TENDON_LENGTH", lines));
  });

  test("a tendon of deviators that does not start at 0 keeps its x", () => {
    const shifted = deviators.map(([x, v, h]) => [x! + 3, v, h]);
    const stress = (path: Argument, x: number) =>
      kern("TENDON_STRESS_FRICTION", path, 0.2, 0.01, "rad", "RIGHT", 1400, x);
    expect(stress(shifted, 5)).toBeCloseTo(stress(deviators, 2), 12);
    expect(kern("NULL_POINT", shifted, 0.2, 0.01, "rad", 1400)).toBeCloseTo(13, 9);
    expect(refusal("DISTANCE_FROM_JACK", shifted, "LEFT", 2).message).toBe(
      "x = 2 m lies outside the tendon; allowed: 3 to 23 m",
    );
  });

  test.each<[string, Argument, RegExp]>([
    ["nothing in the third column", points.map(([x, e]) => [x, e, ""]), /third column is blank; type the shape/],
    ["words and numbers there", [points[0]!, deviators[1]!], /a shape in row 1 and a number in row 2/],
    [
      "two columns",
      [
        [0, 0],
        [10, 5],
      ],
      /2 columns; control points have 3 .* segments 5 .* deviators 3/,
    ],
    ["four columns", [[0, 0, 0, 0]], /4 columns/],
    [
      "an angle at the end",
      deviators.slice(0, 2),
      /the last row of the deviators is an end .* at x = 10 m needs a row/,
    ],
    ["deviators out of order", [deviators[0]!, deviators[2]!, deviators[1]!], /row 3 of the deviators at x = 10 m/],
    ["a segment without length at the end", segments.slice(0, 2), /the last segment has length 0/],
  ])("refused: %s", (_, path, message) => {
    const { parameter, message: said } = refusal("TENDON_LENGTH", path);
    expect(parameter).toBe("path");
    expect(said).toMatch(message);
    expect(said.length).toBeLessThanOrEqual(255);
  });

  test("a plan belongs to control points", () => {
    expect(refusal("TENDON_ANGLE", segments, "LEFT", 5, null, points).message).toMatch(/plan is given beside segments/);
  });
});

describe("the wobble convention", () => {
  const stress = (path: Argument, mu: Argument, k: Argument, wobble: Argument) =>
    refusal("TENDON_STRESS_FRICTION", path, mu, k, wobble, "LEFT", 1400, 10);

  test("has no default", () => {
    expect(refusal("FRICTION_STRESS", 0.3, 0.2, 0.003, null, 1400, 12)).toMatchObject({ parameter: "wobble" });
    expect(stress(points, 0.2, 0.003, "").message).toMatch(/unit of k .* is missing; allowed: 1\/m/);
  });

  test("decides unit, bounds and everyday range of k", () => {
    const args = (k: number, wobble: string) => [0.3, 0.2, k, wobble, 1400, 12] as const;
    const f = found("FRICTION_STRESS");
    expect(refusal("FRICTION_STRESS", ...args(0.07, "1/m")).message).toMatch(/= 0\.07 1\/m is above 0\.05 1\/m/);
    expect(run(f, args(0.07, "rad/m"))).toBeCloseTo(1400 * Math.exp(-0.2 * (0.3 + 0.07 * 12)), 9);
    expect(warnings(f, args(0.003, "rad/m")).join()).toMatch(/0\.003 rad\/m is outside the everyday range 0\.005/);
    expect(warnings(f, args(0.003, "1/m"))).toEqual([]);
    expect(trace(f, args(0.003, "1/m")).arguments[2]).toMatchObject({
      parameter: { unit: "1/m" },
      conversion: "0.003 1/m = 0.000003 1/mm",
    });
    expect(trace(f, args(0.007, "rad/m")).arguments[2]).toMatchObject({ parameter: { unit: "rad/m" } });
  });

  test("fits the path", () => {
    expect(stress(points, 0.2, 0.01, "rad").message).toMatch(/a path of control points needs 1\/m .* or rad\/m/);
    expect(stress(segments, null, null, "rad").message).toMatch(/a path of segments needs/);
    expect(stress(deviators, 0.2, 0.003, "1/m").message).toMatch(/needed is rad, with k the unintended angle/);
  });

  test("μ and k stand once: in the segments, or beside the path", () => {
    expect(stress(segments, 0.2, null, "1/m")).toMatchObject({ parameter: "mu" });
    expect(stress(segments, null, 0.002, "1/m").message).toMatch(
      /each segment of the path has its own; leave it blank/,
    );
    expect(stress(points, null, 0.002, "1/m").message).toMatch(/μ .* is missing; a path of control points needs/);
    expect(stress(deviators, 0.2, null, "rad").message).toMatch(/k .* is missing; a path of deviators needs/);
  });
});

describe("the jacks", () => {
  const head = [points, 0.2, 0.002, "1/m", 195] as const;

  test("what is of the right jack alone is refused with one jack, letting down with two", () => {
    expect(refusal("TENDON_STRESS_DRAW_IN", ...head, "LEFT", 1400, 6, 5, null, 1300).parameter).toBe("sigma_r");
    expect(refusal("TENDON_STRESS_DRAW_IN", ...head, "RIGHT", 1400, 6, 5, null, null, 5).parameter).toBe("slip_r");
    expect(refusal("TENDON_STRESS_DRAW_IN", ...head, "BOTH", 1400, 6, 5, 1300).parameter).toBe("sigma_lo");
    expect(refusal("TENDON_STRESS_DRAW_IN", ...head, "LEFT", 1400, 6, 5, 1450).message).toMatch(
      /is above 1400 MPa, the stress to which it was jacked/,
    );
  });

  test("with both the end looked at is needed, with one it can only be that of the jack", () => {
    expect(refusal("DRAW_IN", ...head, "BOTH", 1400, 6, "LENGTH").message).toMatch(
      /end .* is missing; with both jacks/,
    );
    expect(refusal("TENDON_ELONGATION", ...head, "LEFT", 1400, "RIGHT").message).toMatch(/is the dead end/);
    expect(kern("DRAW_IN", ...head, "LEFT", 1400, 6, "LENGTH", "LEFT")).toBe(
      kern("DRAW_IN", ...head, "LEFT", 1400, 6, "LENGTH"),
    );
  });

  test("blank at the right end is as at the left", () => {
    for (const id of ["TENDON_MEAN_STRESS"])
      expect(kern(id, ...head, "BOTH", 1400, 6)).toBe(kern(id, ...head, "BOTH", 1400, 6, null, 1400, 6));
    expect(kern("NULL_POINT", points, 0.2, 0.002, "1/m", 1400)).toBe(
      kern("NULL_POINT", points, 0.2, 0.002, "1/m", 1400, 1400),
    );
  });

  test("a jack that moves nothing is told", () => {
    expect(warnings(found("TENDON_MEAN_STRESS"), [...head, "BOTH", 1400, 6, null, 900]).join()).toContain(
      "the jack at the right end holds no more",
    );
  });

  test("letting down lowers the mean by what it gives back", () => {
    const mean = (...rest: readonly Argument[]) => kern("TENDON_MEAN_STRESS", ...head, "LEFT", 1400, ...rest);
    const back =
      kern("TENDON_ELONGATION", ...head, "LEFT", 1400) - kern("TENDON_ELONGATION", ...head, "LEFT", 1400, null, 1350);
    // The slope of the tendon makes its curve a little longer than the span.
    expect((mean(0) - mean(0, 1350)) * 20000).toBeCloseTo((back * 195000) / Math.hypot(1, 0.05), 4);
  });
});
