import { describe, expect, test } from "vitest";
import { InputError, NoResult } from "../../../src/core/index.ts";
import { kern, prints, traced } from "./kern.ts";

/**
 * Swiss university exercise to SIA 262 (roof with two tendons), half of the symmetrical tendon; text seen. Ordinates there count
 * upward from the centroid, here e is positive below.
 */
const swiss = [
  [0, 0, "FROM_LEVEL"],
  [6.2195, -577.1, "TO_LEVEL"],
  [7.5, -695.9, "FROM_LEVEL"],
  [8.8496, -563.9, "TO_LEVEL"],
  [17.5, 282.1, "LINE"],
];

describe("published tendons", () => {
  test("radii over the edge, over the support and in the span", () => {
    prints(kern("TENDON_MIN_RADIUS", swiss), "6.9");
    prints(kern("TENDON_MIN_RADIUS", [swiss[0]!, [6.2195, -577.1, "LINE"], [7.5, -695.9, "LINE"]]), "33.5");
    prints(kern("TENDON_MIN_RADIUS", swiss.slice(3)), "44.2");
  });

  // Result recalled from memory (Indian textbook, three cables of 10 m): 0.08 and 0.04 rad, losses 51.6, 34.8 and 18.0
  // N/mm² by the linear form.
  test.each([
    [-50, 50, "0.08", "51.6"],
    [0, 50, "0.04", "34.8"],
    [50, 50, "0.00", "18.0"],
  ] as const)("angle and linear loss of cables from %d to %d mm, from memory", (end, middle, angle, loss) => {
    const cable = [
      [0, end, "TO_LEVEL"],
      [5, middle, "FROM_LEVEL"],
      [10, end, "LINE"],
    ];
    prints(kern("TENDON_ANGLE", cable, "LEFT", 10, 0), angle);
    prints(1200 - kern("FRICTION_STRESS_LINEAR", Number(angle), 0.35, 0.0015, "1/m", 1200, 10), loss);
  });

  // The same Swiss exercise: force after friction with the angle 2·Δe/Δx of each half parabola (small angles); 3976,
  // 3412, 3151 and 2928 kN.
  test("friction along the Swiss tendon", () => {
    const x = [0, 6.2195, 7.5, 8.8496, 17.5, 26.1504, 27.5, 28.7805, 35];
    const e = [0, 577.1, 695.9, 563.9, -282.1, 563.9, 695.9, 577.1, 0];
    const theta = (to: number): number =>
      x.reduce(
        (sum, _, i) => (i > 0 && i <= to ? sum + (2 * Math.abs(e[i]! - e[i - 1]!)) / (x[i]! - x[i - 1]!) / 1000 : sum),
        0,
      );
    for (const [i, force] of [
      [0, "3976"],
      [4, "3412"],
      [6, "3151"],
      [8, "2928"],
    ] as const) {
      prints((kern("FRICTION_STRESS", theta(i), 0.18, 0.005, "rad/m", 0.75 * 1860, x[i]) * 2850) / 1000, force);
    }
    // Exact angles are smaller than tan: by 1.2 % for slopes near 0.19.
    const exact = kern("TENDON_ANGLE", swiss, "LEFT", 17.5, 0);
    expect(exact).toBeLessThan(theta(4));
    expect(exact / theta(4)).toBeGreaterThan(0.985);
  });

  // Graduation report ENIT Tunis, post-tensioned bridge of 43 m, Table 3.9, second family, printed to nine digits; text seen.
  test("friction along the French cable", () => {
    const printed = [
      [5.125, "22.7868566"],
      [10.25, "45.2168466"],
      [20.5, "89.0284952"],
      [30.75, "131.478615"],
      [35.875, "152.206376"],
      [41, "172.609518"],
    ] as const;
    for (const [x, loss] of printed)
      prints(1455 - kern("FRICTION_STRESS", 0.006 * x, 0.18, 0.002, "1/m", 1455, x), loss);
  });
});

describe("profile", () => {
  const harped = [
    [0, -100, "LINE"],
    [8, 300, "LINE"],
    [16, 300, "LINE"],
    [24, -100, "LINE"],
  ];
  const kink = Math.atan(0.05);

  test("shapes of segments", () => {
    expect(
      kern(
        "TENDON_SLOPE",
        [
          [0, 0, "FROM_LEVEL"],
          [10, 500, "LINE"],
        ],
        0,
      ),
    ).toBe(0);
    expect(
      kern(
        "TENDON_SLOPE",
        [
          [0, 0, "FROM_LEVEL"],
          [10, 500, "LINE"],
        ],
        10,
      ),
    ).toBeCloseTo(0.1, 12);
    expect(
      kern(
        "TENDON_SLOPE",
        [
          [0, 0, "TO_LEVEL"],
          [10, 500, "LINE"],
        ],
        0,
      ),
    ).toBeCloseTo(0.1, 12);
    expect(
      kern(
        "TENDON_ECCENTRICITY",
        [
          [0, 0, "TO_LEVEL"],
          [10, 500, "LINE"],
        ],
        5,
      ),
    ).toBeCloseTo(375, 9);
    // A smooth parabola starts with the slope in which the one before ends: 0.1, so that
    // e = 500 + 0.1·x − 0.1·x²/(2·5 m) at 5 m is 750.
    const smooth = [
      [0, 0, "FROM_LEVEL"],
      [10, 500, "SMOOTH"],
      [15, 750, "LINE"],
    ];
    expect(kern("TENDON_SLOPE", smooth, 10)).toBeCloseTo(0.1, 12);
    expect(kern("TENDON_SLOPE", smooth, 15)).toBeCloseTo(0, 12);
    expect(kern("TENDON_ANGLE", smooth, "LEFT", 15, 0)).toBeCloseTo(2 * Math.atan(0.1), 12);
  });

  test("kinks count where they are passed or ended on, not where the interval begins, and none at the jack", () => {
    expect(kern("TENDON_ANGLE", harped, "LEFT", 7.99, 0)).toBe(0);
    expect(kern("TENDON_ANGLE", harped, "LEFT", 8, 0)).toBeCloseTo(kink, 12);
    expect(kern("TENDON_ANGLE", harped, "LEFT", 15, 8)).toBe(0);
    expect(kern("TENDON_ANGLE", harped, "LEFT", 8, 8)).toBe(0);
    expect(kern("TENDON_ANGLE", harped, "LEFT", 24, 0)).toBeCloseTo(2 * kink, 12);
    expect(kern("TENDON_ANGLE", harped, "LEFT", 0)).toBe(0);
    expect(kern("TENDON_ANGLE", harped, "RIGHT", 8)).toBeCloseTo(2 * kink, 12);
    expect(kern("TENDON_ANGLE", harped, "RIGHT", 8.01)).toBeCloseTo(kink, 12);
    expect(kern("TENDON_ANGLE", harped, "RIGHT", 24)).toBe(0);
  });

  test("reverse curvature adds", () => {
    const wave = [
      [0, 0, "FROM_LEVEL"],
      [5, 100, "TO_LEVEL"],
      [10, 200, "LINE"],
    ];
    expect(kern("TENDON_ANGLE", wave, "LEFT", 10, 0)).toBeCloseTo(2 * Math.atan(0.04), 12);
  });

  test("distance, length, angle in space", () => {
    expect(
      kern(
        "DISTANCE_FROM_JACK",
        [
          [2, 0, "LINE"],
          [12, 0, "LINE"],
        ],
        "LEFT",
        5,
      ),
    ).toBeCloseTo(3, 12);
    expect(
      kern(
        "DISTANCE_FROM_JACK",
        [
          [2, 0, "LINE"],
          [12, 0, "LINE"],
        ],
        "RIGHT",
        5,
      ),
    ).toBeCloseTo(7, 12);
    expect(
      kern("TENDON_LENGTH", [
        [0, 0, "LINE"],
        [3, 4000, "LINE"],
      ]),
    ).toBeCloseTo(5, 12);
    expect(kern("TENDON_ANGLE", [[1, 0.3, 0.4, 0, 0]], "LEFT", 1)).toBeCloseTo(0.5, 12);
  });

  test("the second ways agree, steep tendons too", () => {
    const steep = [
      [0, 0, "FROM_LEVEL"],
      [2, 3000, "TO_LEVEL"],
      [5, 6000, "LINE"],
      [6, 0, "LINE"],
    ];
    for (const points of [swiss, harped, steep]) {
      for (const [id, ...rest] of [
        ["TENDON_ECCENTRICITY", 4.5],
        ["TENDON_SLOPE", 4.5],
        ["TENDON_ANGLE", "LEFT", 5.5, 1],
        ["TENDON_ANGLE", "RIGHT", 4.5],
        ["TENDON_LENGTH"],
      ] as const) {
        expect(Math.abs(traced(id, points, ...rest).proof!), id).toBeLessThan(1e-9);
      }
    }
    expect(Math.abs(traced("TENDON_MIN_RADIUS", steep).proof!)).toBeLessThan(1e-9);
  });
});

describe("refused", () => {
  test.each([
    [
      "points out of order",
      "TENDON_LENGTH",
      [
        [
          [0, 0, "LINE"],
          [8, 1, "LINE"],
          [6, 0, "LINE"],
        ],
      ],
      "control point 3 at x = 6 m does not lie to the right of point 2 at x = 8 m",
    ],
    [
      "two points at one place",
      "TENDON_LENGTH",
      [
        [
          [0, 0, "LINE"],
          [0, 1, "LINE"],
        ],
      ],
      "control point 2 at x = 0 m",
    ],
    [
      "a smooth start",
      "TENDON_LENGTH",
      [
        [
          [0, 0, "SMOOTH"],
          [8, 1, "LINE"],
        ],
      ],
      "control point 1 is SMOOTH",
    ],
    [
      "an unknown shape",
      "TENDON_LENGTH",
      [
        [
          [0, 0, "CURVE"],
          [8, 1, "LINE"],
        ],
      ],
      "allowed: LINE",
    ],
    ["one point", "TENDON_LENGTH", [[[0, 0, "LINE"]]], "at least 2 are needed"],
    [
      "a place left of the tendon",
      "TENDON_ECCENTRICITY",
      [
        [
          [1, 0, "LINE"],
          [8, 1, "LINE"],
        ],
        0.5,
      ],
      "x = 0.5 m lies outside the tendon; allowed: 1 to 8 m",
    ],
    [
      "a place right of the tendon",
      "TENDON_ANGLE",
      [
        [
          [1, 0, "LINE"],
          [8, 1, "LINE"],
        ],
        "LEFT",
        8.001,
      ],
      "x = 8.001 m lies outside the tendon; allowed: 1 to 8 m",
    ],
    [
      "an interval the wrong way round",
      "TENDON_ANGLE",
      [
        [
          [1, 0, "LINE"],
          [8, 1, "LINE"],
        ],
        "LEFT",
        3,
        5,
      ],
      "x (distance from the left end of the tendon) = 3 m is below 5 m, x1, from which the angle counts",
    ],
    [
      "an unknown end",
      "TENDON_ANGLE",
      [
        [
          [1, 0, "LINE"],
          [8, 1, "LINE"],
        ],
        "TOP",
        5,
      ],
      "allowed: LEFT",
    ],
  ] as const)("%s", (_, id, args, message) => {
    const call = (): number => kern(id, ...(args as unknown as readonly number[]));
    expect(call).toThrow(InputError);
    expect(call).toThrow(message);
  });

  test("a tendon of straight lines has no radius", () => {
    expect(() =>
      kern("TENDON_MIN_RADIUS", [
        [0, 0, "LINE"],
        [5, 100, "LINE"],
        [10, 0, "LINE"],
      ]),
    ).toThrow(NoResult);
  });
});

describe("in space", () => {
  test("a kink of one view less than a millimetre from the place begun at counts once", () => {
    const elevation = [
      [0, -700, "TO_LEVEL"],
      [22, 590, "LINE"],
      [33, -556, "LINE"],
    ];
    const plan = [
      [0, 140, "LINE"],
      [14.17777832829112, 845, "LINE"],
      [19.3, -700, "LINE"],
      [33, 820, "LINE"],
    ];
    const { result, proof } = traced("TENDON_ANGLE", elevation, "LEFT", 17.5, 14.177376532, plan);
    // Straight lines in plan: the kink at 14.178 m, besides what the parabola in elevation turns.
    const kink = Math.atan(705 / 14177.77832829112) + Math.atan(1545 / (19300 - 14177.77832829112));
    expect(result).toBeCloseTo(kink + kern("TENDON_ANGLE", elevation, "LEFT", 17.5, 14.177376532), 9);
    expect(Math.abs(proof!)).toBeLessThan(1e-9);
  });
});
