/** Small mistakes in the formulas that other tests would pass over; each against numbers by hand. */
import { describe, expect, it } from "vitest";
import { formulas, run, warnings, type Argument } from "../../src/core/index.ts";
import { cut, extreme, isNothing, spread, type EndBlock } from "../../src/core/formulas/endZone/endBlock.ts";
import { drawing } from "../../src/checker/identify/draws.ts";

const found = (id: string) => formulas.find((one) => one.id === id)!;
const kern = (id: string, ...args: readonly Argument[]): number => run(found(id), args);
const told = (id: string, ...args: readonly Argument[]): string => warnings(found(id), args).join("\n");

type Named = Readonly<Record<string, Argument>>;
const bySteps = (named: Named): string => {
  const id = "TIME_DEPENDENT_LOSS_BY_STEPS";
  return told(id, ...Object.keys(found(id).params).map((name) => named[name] ?? null));
};
const member: Named = {
  law: "EN1992_2004",
  sigma_p0: 1250,
  E_p: 195,
  f_ck: 40,
  E_c: 35,
  RH: 70,
  h_0: 300,
  t_s: 3,
  cement: "N",
  f_pk: 1860,
  relaxationClass: 2,
};

describe("time steps warn", () => {
  // 3.1.2(6): with heat curing the concrete is as old as its temperature-adjusted age at release and the days since.
  it("of creep beyond linear by the strength of concrete cured by heat", () => {
    const cured = {
      ...member,
      ...{ A_p: 4500, e: 450, A: 4e5, I: 4e10, f_ckt0: 38, t_0T: 12, t: 30 },
      // 1250·4500·(1/4e5 + 450²/4e10) = 42.54 MPa by prestress, held at 14.29 MPa by 2511 kNm: 0.45·38 = 17.1.
      events: [
        [1, 2511],
        [8, -2511],
      ],
    };
    // At 8 days t_T = 12 + 7 = 19: 48·exp(0.25·(1 − √(28/19))) − 8 = 37.50 MPa; by 8 days it would be 30.61.
    expect(bySteps(cured)).toMatch(/at 8 days, is above 0\.45 f_ck\(t\) of 3\.1\.4\(4\), 16\.875 MPa/);
  });

  // 1000·1000·(1/1e6 + 1000²/1e12) = 2 MPa by prestress; 2000 kNm take 2 MPa off, 2001 kNm 2.001.
  it("of tension and not of no stress", () => {
    const at = (M: number): Named => ({
      ...member,
      ...{ sigma_p0: 1000, A_p: 1000, e: 1000, A: 1e6, I: 1e12, t: 14, events: [[14, M]] },
    });
    expect(bySteps(at(2000))).toBe("");
    expect(bySteps(at(2001))).toMatch(/in tension, −0\.001 MPa at 14 days/);
  });
});

describe("a ram of 20 000 mm² that loses 5 % in itself and 4 % at the anchorage", () => {
  // 20 000·0.95·0.96 = 18 240 mm²: 1276.8 kN at 700 bar, 3648 kN at 2000 bar.
  it("warns from 700 bar on", () => {
    expect(told("GAUGE_PRESSURE", 20000, 0.05, 0.04, 1276)).toBe("");
    expect(told("GAUGE_PRESSURE", 20000, 0.05, 0.04, 1368)).toMatch(/the gauge reads 750 bar, above the usual 700 bar/);
  });
  it("takes no force of more than 2000 bar", () => {
    expect(kern("GAUGE_PRESSURE", 20000, 0.05, 0.04, 3647)).toBeCloseTo(36470 / 18.24, 6);
    expect(() => kern("GAUGE_PRESSURE", 20000, 0.05, 0.04, 3649)).toThrow(/3649 kN is above 3648 kN/);
  });
});

describe("a jack that moves nothing", () => {
  // 20 m with wobble 0.01 1/m and no angle: 1400·exp(−0.2) = 1146 MPa come to the other end.
  const path = [[20, 0, 0, 0.2, 0.01]];
  const friction = (jacks: string, ...right: readonly number[]): string => {
    const names = Object.keys(found("TENDON_STRESS_FRICTION").params);
    const given: Named = {
      path,
      wobble: "1/m",
      jacks,
      sigma0: 1400,
      x: 10,
      sigma_r: right[0] ?? null,
    };
    return told("TENDON_STRESS_FRICTION", ...names.map((name) => given[name] ?? null));
  };
  it("is told of two, and of none where one pulls", () => {
    expect(friction("BOTH", 1140)).toMatch(/jack at the right end holds no more/);
    expect(friction("BOTH", 1150)).toBe("");
    expect(friction("LEFT")).toBe("");
    expect(friction("RIGHT")).toBe("");
  });
});

describe("proofs see what is wrong", () => {
  // With a corner on an edge, so that there are levels between the lowest and the highest.
  const rectangle = (corner: number) => [
    [0, 0],
    [400, 0],
    [400, corner],
    [400, 1000],
    [0, 1000],
  ];
  /** Arguments in the units of the core; of a table its rows by name. */
  type Read = number | null | readonly Readonly<Record<string, number>>[];
  const asked = (corner: number, id: string, ...args: readonly Read[]) => {
    const rule = found(id);
    const points = rectangle(corner).map(([x, y]) => ({ x: x!, y: y! }));
    const named = Object.fromEntries(Object.keys(rule.params).map((name, i) => [name, args[i] ?? null]));
    return (steps: Readonly<Record<string, number>>): number =>
      Number(rule.proof!({ ...named, outline: points }, steps));
  };

  // Centre of a plate 300 mm above the soffit, 150 mm from the left: 300 mm to the soffit, 150 mm to the side.
  it("both distances of an anchorage, not one of them alone", () => {
    const plate = { y: 300, z: 150, a_v: 200, a_h: 200, P: 1000, order: 1 };
    const proof = asked(100, "ANCHORAGE_EDGE_DISTANCE", null, [plate], 1);
    expect(proof({ up: 300, side: 150, edge: 150 })).toBe(0);
    expect(proof({ up: 290, side: 150, edge: 150 })).toBeGreaterThan(0);
    expect(proof({ up: 300, side: 140, edge: 140 })).toBeGreaterThan(0);
    expect(proof({ up: 290, side: 140, edge: 140 })).toBeGreaterThan(0);
  });

  // 3/2·V/A at the middle of a rectangle is most; a quarter of the height up V = 32/36·b·h·f, a third more.
  it.each([100, 600])("a height of the web that does not govern, with a corner at %s mm", (corner) => {
    const proof = asked(corner, "SHEAR_RESISTANCE_WEB_EN1992_2004", null, 1.5, 0, 0, 0, 0);
    const governs = (2 / 3) * 400 * 1000 * 1.5;
    expect(proof({ y: 500, sigma: 0, V: governs })).toBe(0);
    expect(proof({ y: 250, sigma: 0, V: (governs * 4) / 3 })).toBeCloseTo(0.25, 3);
    expect(proof({ y: 750, sigma: 0, V: (governs * 4) / 3 })).toBeCloseTo(0.25, 3);
  });
});

describe("the end block", () => {
  const outline = [
    [-200, 500],
    [200, 500],
    [200, 1500],
    [-200, 1500],
  ].map(([x, y]) => ({ x: x!, y: y! }));
  const plate = (y: number, P: number) => ({ y, z: 0, a_v: 200, a_h: 200, P, order: 1 });

  it("takes a moment for nothing up to a part in 10¹² of force times depth", () => {
    const s = spread({ outline, anchorages: [plate(1000, 1e6)], direction: "VERTICAL" });
    // 1e6 N over 1000 mm, wherever the soffit lies: 1e9 N·mm.
    expect([0.9e-3, 1.1e-3].map((M) => isNothing(s, M))).toEqual([true, false]);
    const above = { ...s, reach: [200, 1200] as const };
    expect([0.9e-3, 1.1e-3].map((M) => isNothing(above, M))).toEqual([true, false]);
  });

  // Every level is looked at, 4000 of them, on tapered webs with plates anywhere.
  it("finds the highest and the lowest moment of all levels", () => {
    const chance = drawing(7);
    const between = (low: number, high: number): number => low + (high - low) * chance();
    for (let n = 0; n < 150; n++) {
      const h = between(600, 2000);
      const [b1, b2, b3] = [between(100, 900), between(100, 900), between(100, 900)];
      const mid = between(0.2, 0.8) * h;
      const block: EndBlock = {
        outline: [
          [-b1 / 2, 0],
          [b1 / 2, 0],
          [b2 / 2, mid],
          [b3 / 2, h],
          [-b3 / 2, h],
          [-b2 / 2, mid],
        ].map(([x, y]) => ({ x: x!, y: y! })),
        anchorages: Array.from({ length: 1 + Math.floor(3 * chance()) }, () =>
          plate(between(0.1, 0.9) * h, between(1e5, 2e6)),
        ),
        direction: "VERTICAL",
      };
      const s = spread(block);
      const [low, high] = s.reach;
      for (const sign of [1, -1] as const) {
        const most = Math.max(0, sign * cut(s, extreme(s, sign)).M);
        const tried = Array.from({ length: 4000 }, (_, i) => sign * cut(s, low + ((high - low) * i) / 4000).M);
        expect(most).toBeGreaterThanOrEqual(Math.max(...tried) - 1e-9 * s.force * (high - low));
      }
    }
  });
});
