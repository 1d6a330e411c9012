import { describe, expect, test } from "vitest";
import { cautions, formulas, InputError, NoResult } from "../../../src/core/index.ts";
import { inch, kern, kip, ksi, prints, traced } from "./kern.ts";

describe("published stresses", () => {
  // McCormac & Brown, Design of Reinforced Concrete, 9th ed., Example 19.1; text seen. Tension positive there.
  test("rectangular beam, straight tendon", () => {
    const [A, I] = [288 * inch ** 2, 13824 * inch ** 4];
    const M = ((3 * 20 ** 2) / 8) * 12 * kip * (inch / 1000);
    const at = (moment: number, y: number): number =>
      -kern("FIBRE_STRESS", A, I, 9 * inch, 250 * kip, moment, y * inch) / ksi;
    prints(at(M, -12), "-0.477");
    prints(at(M, 12), "-1.259");
    prints(at(0, -12), "1.085");
    prints(at(0, 12), "-2.821");
  });

  // Slides on the camber of a BT84 beam; text seen: trial loss 15 ksi (stress rounded to 188 ksi there), concrete
  // stress at the strands 3.82 ksi, loss 32.27 ksi.
  test("concrete stress at the strands, second trial", () => {
    const M = 28046 * kip * (inch / 1000);
    const stress =
      kern(
        "CONCRETE_STRESS_AT_TENDON",
        772 * inch ** 2,
        710000 * inch ** 4,
        (42.37 - 4.68) * inch,
        188 * 56 * 0.153 * kip,
        M,
      ) / ksi;
    prints(stress, "3.82");
    prints((28500 / 3374) * stress, "32.27");
  });

  // One-page worked problem "Prestressed Beam Problem"; text seen: e = 3.62 in for 233 kip, P = 220.91 kip for 4 in, soffit without stress.
  test("force and eccentricity for a soffit without stress", () => {
    const section = [200 * inch ** 2, ((10 * 20 ** 3) / 12) * inch ** 4] as const;
    const M = 1620 * kip * (inch / 1000);
    prints(
      kern("PRESTRESS_FOR_FIBRE_STRESS", ...section, 0, M, 10 * inch, "ECCENTRICITY", null, 233 * kip) / inch,
      "3.62",
    );
    prints(kern("PRESTRESS_FOR_FIBRE_STRESS", ...section, 0, M, 10 * inch, "FORCE", 4 * inch) / kip, "220.91");
  });

  // Indian exercise, 200 × 300 mm over 6 m; text seen: concentric force 489.6 kN.
  test("concentric force for a soffit without stress", () => {
    prints(kern("PRESTRESS_FOR_FIBRE_STRESS", 60000, (200 * 300 ** 3) / 12, 0, 6.48 + 18, 150, "FORCE", 0), "489.6");
  });
});

describe("fibre stresses", () => {
  const section = [6e4, 4.5e8] as const;

  test("force and eccentricity found give the stress back", () => {
    const P = kern("PRESTRESS_FOR_FIBRE_STRESS", ...section, 2, 30, 150, "FORCE", 80);
    expect(kern("FIBRE_STRESS", ...section, 80, P, 30, 150)).toBeCloseTo(2, 10);
    const e = kern("PRESTRESS_FOR_FIBRE_STRESS", ...section, -1, 10, -150, "ECCENTRICITY", null, 400);
    expect(kern("FIBRE_STRESS", ...section, e, 400, 10, -150)).toBeCloseTo(-1, 10);
  });

  test("no result where the stress does not depend on the unknown, or where it would take a push", () => {
    expect(() => kern("PRESTRESS_FOR_FIBRE_STRESS", ...section, 1, 10, 0, "ECCENTRICITY", null, 400)).toThrow(NoResult);
    // Kern point of the top fibre: I/(A·150 mm) = 50 mm below the centroid.
    expect(() => kern("PRESTRESS_FOR_FIBRE_STRESS", ...section, 1, 10, -150, "FORCE", 50)).toThrow("kern point");
    expect(() => kern("PRESTRESS_FOR_FIBRE_STRESS", ...section, -5, 0, 150, "FORCE", 50)).toThrow(
      "it would take a push of 150 kN",
    );
  });

  test("signs: prestress below the centroid presses the soffit, sagging pulls it", () => {
    expect(kern("FIBRE_STRESS", ...section, 50, 100, 0, 150)).toBeGreaterThan(
      kern("FIBRE_STRESS", ...section, 50, 100, 0, -150),
    );
    expect(kern("FIBRE_STRESS", ...section, 0, 0, 10, 150)).toBeLessThan(0);
  });
});

describe("elastic shortening", () => {
  // Results recalled from memory: GATE CE 2022 (mean 14.16 N/mm²); Indian textbook, three cables one after another (32, 16 and 0 N/mm²).
  test("sequence of three equal cables, from memory", () => {
    const rows = [1, 2, 3].map((order) => [order, 300, 100]);
    const losses = [1, 2, 3].map((j) => kern("ELASTIC_LOSS_SEQUENCE", rows, 450 ** 2, 450 ** 4 / 12, 210, 35, 0, j));
    prints((losses[0]! + losses[1]! + losses[2]!) / 3, "14.16");
    const sigma = kern("CONCRETE_STRESS_AT_TENDON", 450 ** 2, 450 ** 4 / 12, 100, 900, 0);
    prints(kern("ELASTIC_LOSS_POST_EN1992_2004", 3, 210, 35, sigma), "14.16");
    const textbook = [1, 2, 3].map((order) => [order, 60, 50]);
    ["32", "16", "0"].forEach((loss, i) =>
      prints(kern("ELASTIC_LOSS_SEQUENCE", textbook, 30000, (100 * 300 ** 3) / 12, 210, 35, 0, i + 1), loss),
    );
  });

  // By hand, concentric: n = 5.909, c = 0.00375, stress 5 MPa; net 29.545/(1 + n c), gross 29.545/(1 + (n − 1) c).
  test("pre-tension says whether the section is net or gross", () => {
    const given = [400_000, 6e10, 0, 1500, 195, 33, 2000, 0] as const;
    prints(kern("ELASTIC_LOSS_PRETENSION", ...given), "28.905");
    prints(kern("ELASTIC_LOSS_PRETENSION", ...given, "NET"), "28.905");
    prints(kern("ELASTIC_LOSS_PRETENSION", ...given, "GROSS"), "29.011");
    // The gross section less the steel's place, net: the same again.
    const [A, ...rest] = given;
    prints(kern("ELASTIC_LOSS_PRETENSION", A - 1500, ...rest, "NET"), "29.011");
  });

  // Result recalled from memory: FHWA design example of a Type VI girder, 13.7 ksi.
  test("pre-tension, from memory", () => {
    const M = ((1.13 * 109 ** 2) / 8) * 12 * kip * (inch / 1000);
    const loss = kern(
      "ELASTIC_LOSS_PRETENSION",
      1085 * inch ** 2,
      733320 * inch ** 4,
      31.38 * inch,
      6.732 * inch ** 2,
      (28500 * ksi) / 1000,
      (4200 * ksi) / 1000,
      202.5 * 6.732 * kip,
      M,
    );
    prints(loss / ksi, "13.7");
  });

  test("tendons stressed together do not shorten each other and lose by their common centroid", () => {
    const rows = [
      [1, 500, 100],
      [1, 1500, 300],
      [2, 1000, 200],
    ];
    const single = [
      [1, 2000, 250],
      [2, 1000, 200],
    ];
    expect(kern("ELASTIC_LOSS_SEQUENCE", rows, 4e5, 3e10, 195, 30, 200, 1)).toBeCloseTo(
      kern("ELASTIC_LOSS_SEQUENCE", single, 4e5, 3e10, 195, 30, 200, 1),
      10,
    );
    expect(kern("ELASTIC_LOSS_SEQUENCE", rows, 4e5, 3e10, 195, 30, 200, 2)).toBe(0);
    expect(Math.abs(traced("ELASTIC_LOSS_SEQUENCE", rows, 4e5, 3e10, 195, 30, 200, 1).proof!)).toBeLessThan(1e-12);
  });

  test("an order that no tendon has is refused", () => {
    const call = (): number =>
      kern(
        "ELASTIC_LOSS_SEQUENCE",
        [
          [1, 500, 100],
          [3, 500, 100],
        ],
        4e5,
        3e10,
        195,
        30,
        200,
        2,
      );
    expect(call).toThrow(InputError);
    expect(call).toThrow("= 2 is not among the tendons; allowed: 1, 3");
  });
});

describe("elongation", () => {
  test("no friction: σ·L/E", () => {
    expect(kern("ELONGATION_UNIFORM", 0.5, 30, 0, 0, "1/m", 195, 1300)).toBeCloseTo((1300 * 30) / 195, 10);
    expect(kern("ELONGATION_UNIFORM", 0.5, 30, 0, 0.01, "rad/m", 195, 1300)).toBeCloseTo((1300 * 30) / 195, 10);
    expect(
      kern(
        "TENDON_ELONGATION",
        [
          [0, 0, "LINE"],
          [30, 0, "LINE"],
        ],
        0.2,
        0,
        "1/m",
        195,
        "LEFT",
        1300,
      ),
    ).toBeCloseTo((1300 * 30) / 195, 10);
  });

  test("small friction keeps its digits: first order in λ", () => {
    expect(kern("ELONGATION_UNIFORM", 1, 30, 1e-9, 0, "1/m", 195, 1300) / 200 - 1).toBeCloseTo(-5e-10, 13);
  });

  test("the mean lies below the arithmetic mean of the end stresses", () => {
    // Circular layout, μ = 0.5, a quarter turn of radius 20 m; the recalled 143 mm of the textbook take the arithmetic
    // mean, here 1316 and 600 N/mm².
    const L = (Math.PI / 2) * 20;
    const jack = 600 * Math.exp((0.5 * Math.PI) / 2);
    prints((((jack + 600) / 2) * L) / 210, "143");
    const exact = kern("ELONGATION_UNIFORM", Math.PI / 2, L, 0.5, 0, "1/m", 210, jack);
    expect(exact).toBeCloseTo((((jack - 600) / Math.log(jack / 600)) * L) / 210, 9);
  });

  test("a straight tendon agrees with the closed form in both conventions, and a kink lowers it", () => {
    const line = [
      [0, 0, "LINE"],
      [40, 0, "LINE"],
    ];
    expect(kern("TENDON_ELONGATION", line, 0.2, 0.004, "1/m", 195, "RIGHT", 1400)).toBeCloseTo(
      kern("ELONGATION_UNIFORM", 0, 40, 0.2, 0.004, "1/m", 195, 1400),
      9,
    );
    expect(kern("TENDON_ELONGATION", line, 0.2, 0.02, "rad/m", 195, "RIGHT", 1400)).toBeCloseTo(
      kern("ELONGATION_UNIFORM", 0, 40, 0.2, 0.02, "rad/m", 195, 1400),
      9,
    );
    const harped = [
      [0, -200, "LINE"],
      [8, 300, "LINE"],
      [16, 300, "LINE"],
      [24, -200, "LINE"],
    ];
    expect(Math.abs(traced("TENDON_ELONGATION", harped, 0.2, 0.004, "1/m", 195, "LEFT", 1400).proof!)).toBeLessThan(
      1e-9,
    );
  });

  test("everything about stressing says the caution", () => {
    const stressing = formulas.filter(({ family }) => family === "stressing");
    expect(stressing.length).toBeGreaterThan(3);
    for (const { id, notes } of stressing) expect(notes, id).toContain(cautions.stressing);
  });
});
