import { describe, expect, test } from "vitest";
import { InputError } from "../../../src/core/index.ts";
import { kern, prints, traced } from "./kern.ts";

const square = [
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
];
const ring = (n: number, x0: number, y0: number, size: number): number[][] => [
  [n, x0, y0],
  [n, x0 + size, y0],
  [n, x0 + size, y0 + size],
  [n, x0, y0 + size],
];

describe("published sections", () => {
  // "Contoh soal beton prestress", worked exercise on an I-beam of 15 m span; text seen.
  const exercise = [750, 400, 200, 150, 400, 200] as const;
  test("I-section of the exercise, by shape and by outline", () => {
    const outline = [
      [0, 0],
      [400, 0],
      [400, 200],
      [275, 200],
      [275, 550],
      [400, 550],
      [400, 750],
      [0, 750],
      [0, 550],
      [125, 550],
      [125, 200],
      [0, 200],
    ];
    for (const [property, points] of [
      ["AREA", "212500"],
      ["CENTROID", "375"],
      ["INERTIA", "13169270833"],
    ] as const) {
      prints(kern("I_SECTION", ...exercise, property), points);
      prints(kern("OUTLINE_SECTION", outline, property), points);
    }
    const Z = kern("SECTION_MODULUS", kern("I_SECTION", ...exercise, "INERTIA"), 375);
    prints(Z / 1e6, "35.12");
    prints(kern("KERN_DISTANCE", Z, 212500), "165.26");
  });

  // Result recalled from memory (Indian textbook example): 46 400 mm², 156 mm from the top. The 758·10⁶ mm⁴ recalled
  // with it are 757.46·10⁶ exactly, so not asserted.
  test("unsymmetrical I-section, from memory", () => {
    const args = [400, 300, 60, 80, 100, 60] as const;
    prints(kern("I_SECTION", ...args, "AREA"), "46400");
    prints(400 - kern("I_SECTION", ...args, "CENTROID"), "156");
  });
});

describe("geometry known beforehand", () => {
  test("triangle: bh/2, h/3, bh³/36", () => {
    const triangle = [
      [0, 0],
      [300, 0],
      [0, 600],
    ];
    expect(kern("OUTLINE_SECTION", triangle, "AREA")).toBeCloseTo(90000, 6);
    expect(kern("OUTLINE_SECTION", triangle, "CENTROID")).toBeCloseTo(200, 9);
    expect(kern("OUTLINE_SECTION", triangle, "INERTIA") / ((300 * 600 ** 3) / 36)).toBeCloseTo(1, 12);
    expect(kern("OUTLINE_SECTION", triangle, "PERIMETER")).toBeCloseTo(900 + Math.sqrt(300 ** 2 + 600 ** 2), 9);
  });

  test("a box dries inside by the share given, none where it is left out", () => {
    const box = [2000, 1000, 200, 200, 300] as const;
    expect(kern("BOX_SECTION", ...box, "PERIMETER")).toBe(6000);
    expect(kern("BOX_SECTION", ...box, "PERIMETER", 0.5)).toBe(6000 + 1400 + 600);
  });

  test("a duct at the centroid leaves the centroid; its own second moment goes", () => {
    const base = [300000, 500, 2.5e10] as const;
    const ducts = [[80, 500]];
    expect(kern("NET_SECTION", ...base, ducts, "AREA")).toBeCloseTo(300000 - (Math.PI * 6400) / 4, 6);
    expect(kern("NET_SECTION", ...base, ducts, "CENTROID")).toBeCloseTo(500, 9);
    expect(kern("NET_SECTION", ...base, ducts, "INERTIA")).toBeCloseTo(2.5e10 - (Math.PI * 80 ** 4) / 64, 0);
  });

  test("steel at a height, net and gross base", () => {
    const base = [300000, 500, 2.5e10] as const;
    const at = [[1000, 100]];
    for (const [choice, extra] of [
      ["NET", 6],
      ["GROSS", 5],
    ] as const) {
      const a = 1000 * extra;
      expect(kern("TRANSFORMED_SECTION", ...base, at, 210, 35, "AREA", choice)).toBeCloseTo(300000 + a, 6);
      // Reduced area times distance squared, the parallel-axis rule for two parts.
      expect(
        kern("TRANSFORMED_SECTION", ...base, at, 210, 35, "INERTIA", choice) /
          (2.5e10 + ((300000 * a) / (300000 + a)) * 400 ** 2),
      ).toBeCloseTo(1, 12);
    }
    expect(kern("TRANSFORMED_SECTION", ...base, at, 210, 35, "AREA")).toBe(
      kern("TRANSFORMED_SECTION", ...base, at, 210, 35, "AREA", "NET"),
    );
  });

  test("a second moment shows area and centroid on the way", () => {
    const steps = traced("T_SECTION", 1000, 800, 200, 300, "INERTIA").steps.map(({ name, value }) => [name, value]);
    expect(steps[0]).toEqual(["A", 800 * 200 + 300 * 800]);
    expect(steps[1]![1]).toBeCloseTo((160000 * 900 + 240000 * 400) / 400000, 9);
    expect(traced("NET_SECTION", 3e5, 500, 2.5e10, [[80, 100]], "INERTIA").steps.map(({ name }) => name)).toEqual([
      "A",
      "y",
      "I",
    ]);
    expect(Math.abs(traced("NET_SECTION", 3e5, 500, 2.5e10, [[80, 100]], "INERTIA").proof!)).toBeLessThan(1e-12);
    expect(Math.abs(traced("OUTLINE_SECTION", square, "INERTIA", ring(1, 20, 20, 30)).proof!)).toBeLessThan(1e-12);
  });
});

describe("shapes that cannot be", () => {
  test.each([
    [
      "a web wider than its flange",
      "T_SECTION",
      [1000, 300, 200, 400, "AREA"],
      "bw (width of the web) = 400 mm is above 300 mm, the flange width b_f",
    ],
    [
      "flanges thicker than the height",
      "I_SECTION",
      [500, 400, 300, 150, 400, 250, "INERTIA"],
      "tbot (thickness of the bottom flange) = 250 mm is above 200 mm, the height below the top flange",
    ],
    [
      "webs wider than the box",
      "BOX_SECTION",
      [1000, 800, 100, 100, 600, "AREA"],
      "tw (thickness of each web) = 600 mm is above 500 mm, half the width b",
    ],
    [
      "an outline of two points",
      "OUTLINE_SECTION",
      [
        [
          [0, 0],
          [1, 1],
        ],
        "AREA",
      ],
      "at least 3",
    ],
    [
      "points on one line",
      "OUTLINE_SECTION",
      [
        [
          [0, 0],
          [100, 100],
          [200, 200],
        ],
        "AREA",
      ],
      "encloses no area",
    ],
    [
      "edges that cross",
      "OUTLINE_SECTION",
      [
        [
          [0, 0],
          [100, 100],
          [100, 0],
          [0, 150],
        ],
        "AREA",
      ],
      "crosses itself: the edge from point 1 (0, 0) meets the edge from point 3 (100, 0)",
    ],
    [
      "a crossing at two points",
      "OUTLINE_SECTION",
      [
        [
          [0, 0],
          [100, 100],
          [300, 300],
          [300, 0],
          [100, 100],
          [0, 300],
        ],
        "AREA",
      ],
      "crosses itself",
    ],
    [
      "a crossing at a point inside an edge",
      "OUTLINE_SECTION",
      [
        [
          [0, 0],
          [200, 0],
          [200, 200],
          [100, 200],
          [100, 0],
          [100, -100],
          [0, -100],
        ],
        "AREA",
      ],
      "crosses itself",
    ],
    [
      "a void outside",
      "OUTLINE_SECTION",
      [square, "AREA", ring(7, 50, 50, 80)],
      "point 2 of void 7, (130, 50), lies outside the outline",
    ],
    [
      "a void of two points",
      "OUTLINE_SECTION",
      [
        square,
        "AREA",
        [
          [3, 10, 10],
          [3, 20, 20],
          [4, 10, 10],
        ],
      ],
      "void 3 has 2 points",
    ],
    [
      "voids that overlap",
      "OUTLINE_SECTION",
      [square, "AREA", [...ring(1, 10, 10, 40), ...ring(2, 30, 30, 40)]],
      "void 1 and void 2 overlap",
    ],
    [
      "a void inside a void",
      "OUTLINE_SECTION",
      [square, "AREA", [...ring(1, 10, 10, 60), ...ring(2, 30, 30, 10)]],
      "void 1 and void 2 overlap",
    ],
    [
      "a void as large as the outline",
      "OUTLINE_SECTION",
      [square, "AREA", ring(1, 0, 0, 100)],
      "must be below that of the outline",
    ],
    [
      "ducts larger than the section",
      "NET_SECTION",
      [10000, 100, 1e8, [[200, 100]], "AREA"],
      "ducts take away 31415.9 mm²",
    ],
    [
      "ducts far outside the section",
      "NET_SECTION",
      [100000, 100, 1e8, [[100, 2000]], "INERTIA"],
      "must lie inside the section",
    ],
  ] as const)("%s is refused", (_, id, args, message) => {
    const call = (): number => kern(id, ...(args as unknown as readonly number[]));
    expect(call).toThrow(InputError);
    expect(call).toThrow(message);
  });

  test("an outline that touches itself along a slit is a section with a hole", () => {
    const slit = [
      [0, 0],
      [100, 0],
      [100, 100],
      [0, 100],
      [0, 50],
      [20, 50],
      [20, 80],
      [80, 80],
      [80, 20],
      [20, 20],
      [20, 50],
      [0, 50],
    ];
    expect(kern("OUTLINE_SECTION", slit, "AREA")).toBeCloseTo(10000 - 3600, 9);
    expect(kern("OUTLINE_SECTION", slit, "INERTIA")).toBeCloseTo((100 ** 4 - 60 ** 4) / 12, 3);
  });

  test("a closing point given twice changes nothing", () => {
    expect(kern("OUTLINE_SECTION", [...square, square[0]!], "INERTIA")).toBeCloseTo(100 ** 4 / 12, 6);
  });
});
