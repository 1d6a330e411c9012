import { describe, expect, it, test } from "vitest";
import {
  choicesGiven,
  formulaIn,
  formulas,
  parametersFor,
  run,
  trace,
  warnings,
  type Argument,
} from "../../../src/core/index.ts";

const call = (id: string, ...args: readonly Argument[]): number =>
  run(
    formulas.find((f) => f.id === id)!,
    args,
  );
const refusal = (id: string, ...args: readonly Argument[]): string => {
  try {
    return `gave ${call(id, ...args)}`;
  } catch (error) {
    return (error as Error).message;
  }
};
const points = [
  [0, 0, "TO_LEVEL"],
  [12, 500, "FROM_LEVEL"],
  [24, 0, null],
];

describe("refusals name the input, its value and what is allowed", () => {
  test.each([
    [
      ["FRICTION_STRESS", 0.3, -0.1, 0.003, "1/m", 1395, 12],
      "μ (friction coefficient between tendon and duct) = −0.1 1/rad is below 0 1/rad; allowed: 0 to 1 1/rad",
    ],
    [
      ["FRICTION_STRESS", 0.3, 0.2, 0.003, "1/m", null, 12],
      "σp0 (tendon stress at the jack) is missing; a number in MPa is needed (allowed: above 0 and at most 2500 MPa)",
    ],
    [
      ["FRICTION_STRESS", 0.3, "0,2", 0.003, "1/m", 1395, 12],
      "μ (friction coefficient between tendon and duct) is the text “0,2”; a number in 1/rad is needed",
    ],
    [
      ["FRICTION_STRESS", 0.3, true, 0.003, "1/m", 1395, 12],
      "μ (friction coefficient between tendon and duct) is TRUE; a number in 1/rad is needed",
    ],
    [
      ["FRICTION_STRESS", 0.3, [[0.2, 0.3]], 0.003, "1/m", 1395, 12],
      "μ (friction coefficient between tendon and duct) is a range of 1 × 2 cells; one cell is needed",
    ],
    [["TENDON_ECCENTRICITY", points, 24.5], "x = 24.5 m lies outside the tendon; allowed: 0 to 24 m"],
    [
      [
        "TENDON_ECCENTRICITY",
        [
          [0, 0, "LINE"],
          [12, 1, "LINE"],
          [10, 0, ""],
        ],
        5,
      ],
      "points (control points of the tendon from left to right): control point 3 at x = 10 m does not lie " +
        "to the right of point 2 at x = 12 m; x must increase from point to point",
    ],
    [
      [
        "TENDON_ECCENTRICITY",
        [
          [0, 0],
          [12, 1],
        ],
        5,
      ],
      "points (control points of the tendon from left to right) is a range of 2 columns; 3 are needed: x, e, shape",
    ],
    [
      [
        "TENDON_ECCENTRICITY",
        [
          [0, 0, "CURVE"],
          [12, 1, "LINE"],
        ],
        5,
      ],
      "shape (how the tendon runs from the point to the next) in row 1 of the range = “CURVE” is not one " +
        "of the choices; allowed: LINE, FROM_LEVEL, TO_LEVEL, SMOOTH",
    ],
    [
      [
        "TENDON_ECCENTRICITY",
        [
          [0, 0, "SMOOTH"],
          [12, 1, "LINE"],
        ],
        5,
      ],
      "points (control points of the tendon from left to right): the shape of control point 1 is SMOOTH, but there is " +
        "no segment before it to go on from; allowed: LINE, FROM_LEVEL, TO_LEVEL",
    ],
    [
      [
        "TENDON_MIN_RADIUS",
        [
          [0, 0, "LINE"],
          [12, 1, "LINE"],
        ],
      ],
      "the points are joined by straight lines, which have no radius",
    ],
    [
      ["I_SECTION", 1200, 900, 180, 600, 500, 250, "AREA"],
      "bw (width of the web) = 600 mm is above 500 mm, the narrower flange; allowed: above 0 and at most 500 mm",
    ],
    [
      [
        "OUTLINE_SECTION",
        [
          [0, 0],
          [100, 100],
          [100, 0],
          [0, 100],
        ],
        "AREA",
      ],
      "the outline crosses itself: the edge from point 1 (0, 0) meets the edge from point 3 (100, 0); " +
        "points must run round the section in order",
    ],
    [
      [
        "OUTLINE_SECTION",
        [
          [0, 0],
          [1, 1],
        ],
        "AREA",
      ],
      "outline (points of the outline, in order round the section) has 2 rows; at least 3 are needed, each " +
        "with x (horizontal coordinate of a point of the outline), y (height of a point of the outline above " +
        "the soffit)",
    ],
    [
      ["ELASTIC_LOSS_SEQUENCE", [[1, 800, 100]], 4e5, 5e10, 195, 33, 0, 2],
      "j (place in the order of stressing) = 2 is not among the tendons; allowed: 1",
    ],
    [
      ["MOMENT_UNIFORM", 24, 10, 25],
      "x (distance from the left end) = 25 m is above 24 m, the span; allowed: 0 to 24 m",
    ],
    [
      ["DRAW_IN", points, 0.2, 0.002, "1/m", 195, "LEFT", 300, 45, "LEVEL_STRESS"],
      /takes all the stress at the anchorage/,
    ],
  ] as const)("%j", ([id, ...args], message) => {
    if (typeof message === "string") expect(refusal(id, ...(args as readonly Argument[]))).toBe(message);
    else expect(refusal(id, ...(args as readonly Argument[]))).toMatch(message);
  });

  it("takes up to 500 points of a void", () => {
    const round = Array.from({ length: 501 }, (_, i) => [1, 60 + Math.cos(i / 80), 40 + Math.sin(i / 80)]);
    const triangle = [
      [0, 0],
      [100, 0],
      [100, 100],
    ];
    expect(refusal("OUTLINE_SECTION", triangle, "AREA", round)).toMatch(
      /: void 1 has 501 points; at most 500 are allowed$/,
    );
  });
});

test("a value outside the everyday range is computed with a warning", () => {
  const f = formulas.find((g) => g.id === "FRICTION_STRESS")!;
  expect(warnings(f, [0.3, 0.8, 0.003, "1/m", 1395, 12])).toEqual([
    "μ (friction coefficient between tendon and duct) = 0.8 1/rad is outside the everyday range 0.05 to 0.7 1/rad",
  ]);
  expect(run(f, [0.3, 0.6, 0.003, "1/m", 1395, 12])).toBeCloseTo(1395 * Math.exp(-0.216), 9);
});

test("the first-order form of friction warns where the exponent is above 0.3, and gives the exponent", () => {
  const f = formulas.find((g) => g.id === "FRICTION_STRESS_LINEAR")!;
  expect(warnings(f, [1, 0.25, 0.002, "1/m", 1395, 24])).toEqual([]);
  expect(warnings(f, [1.2, 0.25, 0, "1/m", 1395, 0])).toEqual([]);
  expect(warnings(f, [1.2, 0.25, 0.002, "1/m", 1395, 20])).toEqual([
    "μα + kx = 0.34 is above 0.3: use the exponential form",
  ]);
  expect(warnings(f, [1, 0.25, 0.002, "1/m", 1395, 40])).toEqual([
    "μα + kx = 0.33 is above 0.3: use the exponential form",
  ]);
  expect(warnings(f, [1.2, 0.25, 0.009, "rad/m", 1395, 20])).toEqual([
    "μ(α + kx) = 0.34 is above 0.3: use the exponential form",
  ]);
});

test("trace keeps the cell's own values and shows conversions", () => {
  const t = trace(
    formulas.find((f) => f.id === "SELF_WEIGHT")!,
    [456400, 25],
  );
  expect(t.result).toBeCloseTo(11.41, 12);
  expect(t.arguments.map((a) => a.conversion)).toEqual([undefined, "25 kN/m³ = 0.000025 N/mm³"]);
});

test("stations: each place once, in order, the last repeated", () => {
  const places = [[24], [0], [12], [12.004], [6]];
  expect([1, 2, 3, 4, 5].map((n) => call("STATION", places, n, 0.01))).toEqual([0, 6, 12, 24, 24]);
});

test("a choice in a range of one cell is the choice of the call", () => {
  const f = formulas.find(({ id }) => id === "MOMENT_UNIFORM")!;
  const args: readonly Argument[] = [24, 10, 3, [["OVERHANG"]], [[4]]];
  expect(run(f, args)).toBe(run(f, [24, 10, 3, "OVERHANG", 4]));
  expect(choicesGiven(f, args)["supports"]).toBe("OVERHANG");
  expect(formulaIn(f, args).steps).toHaveProperty("reaction");
  expect(parametersFor(f, args)[0]!.text).toBe("length of the member");
  expect(choicesGiven(f, [24, 10, 3, [[null]]])["supports"]).toBe("ENDS");
  expect(choicesGiven(f, [24, 10, 3, [["ENDS", "OVERHANG"]]])["supports"]).toBeUndefined();
});
