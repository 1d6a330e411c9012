/**
 * The sheets of end zones, recomputed without the core from the values they take and their inputs: equilibrium of the
 * end on every plane, and the rules as their standards state them. The examples are invented.
 */
import { describe, expect, test } from "vitest";
import { linkedTemplates } from "../../src/templates/index.ts";
import { bearingIs, burstingIs, endBlock, steelBetween, turning, type Plate } from "../independent/endZones.ts";
import { plotArea, sizeOf } from "../../src/hosts/look/plotArea.ts";
import { sheetOfPlan } from "../../src/hosts/workbook/fromPlan.ts";
import { builtSheet, exampleOf, planned } from "./builtSheet.ts";

type Sheet = ReturnType<typeof builtSheet>;
type Corner = readonly [number, number];

const numbers = (sheet: Sheet, id: string): readonly number[] => sheet.column(id).map(Number);
const one = (sheet: Sheet, id: string): number => numbers(sheet, id)[0]!;
const cornersOf = (sheet: Sheet): readonly Corner[] => {
  const y = numbers(sheet, "ebY");
  return numbers(sheet, "ebX").map((x, i) => [x, y[i]!]);
};
const most = (values: readonly number[]): number => Math.max(...values);

describe.each(["end-zones-pre-tensioned-en1992-2004", "end-zones-pre-tensioned-is1343-1980"])("%s", (id) => {
  const sheet = builtSheet(id);
  const all = (name: string) => numbers(sheet, name);
  const [strands, debond, Pr, spread, zt, phi] = ["strands", "debond", "bPr", "sh", "zt", "diameter"].map(all) as [
    readonly number[],
    readonly number[],
    readonly number[],
    readonly number[],
    readonly number[],
    readonly number[],
  ];
  const [h, A, yb, I] = ["h", "Ac", "yb", "Ic"].map((name) => one(sheet, name)) as [number, number, number, number];
  const height = all("ptY");
  const rows = strands.map((n, i): Plate => ({
    y: height[i]!,
    z: zt[i]!,
    av: phi[0]!,
    ah: (n - 1) * spread[i]! + phi[0]!,
    P: debond[i] === 0 ? Pr[i]! : 0,
  }));
  const pressing = rows.filter(({ P }) => P > 0);
  const block = endBlock(cornersOf(sheet), pressing);
  const force = pressing.reduce((sum, { P }) => sum + P, 0);
  /** kN on a height, MPa at another; compression positive. */
  const stress = (P: number, from: number, at: number): number =>
    (P * 1000) / A + (P * 1000 * (from - yb) * (at - yb)) / I;

  test("tension at the end: the rule from tests, spalling and bursting by equilibrium, the steel", () => {
    const shortest = Math.min(...all("lpt1"));
    const rule = (0.021 * force * h) / shortest;
    const [low, high] = [turning(block, -1), turning(block, 1)];
    sheet.agree("pEnd", [force]);
    sheet.agree("spRule", [rule]);
    sheet.agree("spM", [low.M / 1000]);
    sheet.agree("buM", [high.M / 1000]);
    expect(Math.abs(one(sheet, "spLevel") - low.level)).toBeLessThan(1e-6 * h);
    const spall = -low.M / (one(sheet, "leverFace") * h);
    const burst = high.M / (one(sheet, "leverShare") * h);
    sheet.agree("spT", [Math.max(spall, 0)]);
    sheet.agree("buT", [Math.max(burst, 0)]);
    const T = one(sheet, "suddenFactor") * most([rule, spall, burst]);
    sheet.agree("spAll", [T]);
    const allowed = Math.min(one(sheet, "sigTie"), one(sheet, "fykE") / one(sheet, "gSe"));
    const there = steelBetween(
      {
        diameter: one(sheet, "siDia"),
        legs: one(sheet, "siLegs"),
        layers: one(sheet, "siLayers"),
        first: one(sheet, "siFirst"),
        step: one(sheet, "siStep"),
      },
      0,
      one(sheet, "splitTo") * h,
    );
    sheet.agree("asReq", [(T * 1000) / allowed]);
    sheet.agree("asProv", [there]);
    sheet.agree("uSplit", [(T * 1000) / allowed / there]);
  });

  test("moment on planes up the height", () => {
    const levels = all("dmY");
    sheet.agree(
      "dmM",
      levels.map((level) => (level <= 0 || level >= h ? 0 : block.M(level) / 1000)),
    );
  });

  test("what the first page says is a share of the limit, not a stress", () => {
    const [low, high] = [Math.min(...all("reMin")), most(all("reMax"))];
    const limit = one(sheet, "ftTransfer");
    sheet.agree("topLow", [low >= 0 ? 0 : low / limit]);
    sheet.agree("botHigh", [high / one(sheet, "fcTransfer")]);
  });

  test("each remedy: its own step, how many of it, and the stresses then", () => {
    const strand = Pr.map((P, i) => P / strands[i]!);
    const top = strand.map((P, i) => -stress(P, height[i]!, h));
    const bottom = strand.map((P, i) => -stress(P, height[i]!, 0));
    const total = strands.reduce((sum, n) => sum + n, 0);
    // Neither a row already debonded nor a deflected one; no more than the row has and the allowed share leaves.
    const end = all("yEnd");
    const mid = all("yMid");
    const used = strands.reduce((sum, n, i) => sum + (debond[i]! > 0 ? n : 0), 0);
    const left = Math.floor(one(sheet, "debMax") * total) - used;
    const may = strands.map((n, i) => (debond[i]! > 0 || end[i] !== mid[i] ? 0 : Math.max(Math.min(n, left), 0)));
    expect(may.filter((n) => n > 0).length).toBeGreaterThan(0);
    expect(may).toContain(0);
    expect(sheet.column("rmMay")).toEqual(may);
    may.forEach((n, i) => {
      if (n === 0) return expect(sheet.column("rmDebT")[i]).toBe("–");
      expect(numbers(sheet, "rmDebT")[i]).toBeCloseTo(top[i]!, 9);
      return expect(numbers(sheet, "rmDebB")[i]).toBeCloseTo(bottom[i]!, 9);
    });
    const rise = one(sheet, "raiseBy");
    const upTop = Pr.map((P) => (P * 1000 * rise * (h - yb)) / I);
    const upBottom = Pr.map((P) => (-P * 1000 * rise * yb) / I);
    sheet.agree("rmUpT", upTop);
    sheet.agree("rmUpB", upBottom);
    const mean = Pr.reduce((sum, P) => sum + P, 0) / total;
    const [topT, topB] = [h, 0].map((at) => stress(mean, one(sheet, "topAt"), at)) as [number, number];
    sheet.agree("topT", [topT]);
    sheet.agree("topB", [topB]);
    const best = top.indexOf(most(top.filter((_, i) => may[i]! > 0)));
    const bestUp = upTop.indexOf(most(upTop));
    const steps = [
      { T: top[best]!, B: bottom[best]!, P: -strand[best]! },
      { T: upTop[bestUp]!, B: upBottom[bestUp]!, P: 0 },
      { T: topT, B: topB, P: mean },
    ];
    const lacks = Math.max(one(sheet, "ftTransfer") - Math.min(...all("reMin")), 0);
    const count = steps.map(({ T }) => Math.ceil(lacks / T));
    sheet.agree(
      "rfT",
      steps.map(({ T }) => T),
    );
    sheet.agree(
      "rfB",
      steps.map(({ B }) => B),
    );
    expect(sheet.column("rfN")).toEqual(count);
    const perForce = (0.021 * h) / Math.min(...all("lpt1"));
    sheet.agree(
      "rfSplit",
      steps.map(({ P }) => P * perForce),
    );
    const low = Math.min(...all("reMin"));
    const high = all("reMax")[all("reMin").indexOf(low)]!;
    sheet.agree(
      "rfMin",
      steps.map(({ T }, i) => low + Math.max(count[i]!, 1) * T),
    );
    sheet.agree(
      "rfMax",
      steps.map(({ B }, i) => high + Math.max(count[i]!, 1) * B),
    );
    sheet.agree("debShare", [used / total]);
  });
});

/**
 * EN 1992-2:2005, J.104.2 (second-hand): in each direction of each prism 0.15 P_max/f_yd γ_P,unfav. It must hold where
 * (6.58) of EN 1992-1-1, F/4 (1 − a/b), goes to nothing.
 */
describe("steel of each prism to EN 1992", () => {
  const id = "end-zones-post-tensioned-en1992-2004";
  const example = exampleOf(linkedTemplates.find((template) => template.id === id)!);
  const P = (sheet: Sheet) => most(numbers(sheet, "Pj")) * 1.2 * 1000;
  const byRule = (sheet: Sheet): number => (0.15 * P(sheet)) / (500 / 1.15);

  test.each([
    ["the example", {}],
    // As high as the prism of tendon 3, which is 432 mm, and 1 mm narrower than the others'.
    [
      "plates as large as their prisms",
      {
        aiV: [
          [287, 287, 432],
          [287, 287, 432],
        ],
        aiH: [
          [319, 319, 639],
          [319, 319, 639],
        ],
      },
    ],
  ])("%s: the larger of the tension over the stress of its steel and the rule", (_, set) => {
    const sheet = builtSheet(id, { ...example, ...set });
    const [av, ah, bv, bh, force, lift] = ["anAv", "anAh", "anBv", "anBh", "anP", "anSin"].map((name) =>
      numbers(sheet, name),
    ) as [
      readonly number[],
      readonly number[],
      readonly number[],
      readonly number[],
      readonly number[],
      readonly number[],
    ];
    const spread = (a: number, b: number, F: number): number => (a <= b ? (F / 4) * (1 - a / b) : 0);
    const up = most(force.map((F, i) => spread(av[i]!, bv[i]!, F) + Math.abs(lift[i]!) / 2));
    const side = most(force.map((F, i) => spread(ah[i]!, bh[i]!, F)));
    const stress = Math.min(300, 500 / 1.15);
    const wanted = [up, side].map((T) => Math.max((T * 1000) / stress, byRule(sheet)));
    const required = numbers(sheet, "stReq");
    for (const end of [0, 6])
      wanted.forEach((area, i) => expect(required[end + i]! / area, `${end} ${i}`).toBeCloseTo(1, 9));
    if ("aiV" in set) expect(wanted[1]).toBe(byRule(sheet));
  });

  test("the right end as the left says what both ends typed alike say", () => {
    const both = builtSheet(id, example);
    const columns = ["aiV", "aiH", "aiHole", "aiZ", "aiGroup", "siDia", "siLegs", "siLayers", "siFirst", "siStep"];
    const once = Object.fromEntries(
      columns.map((name) => {
        const [left] = example[name] as readonly (readonly number[])[];
        return [name, [left!, left!.map(() => null)]];
      }),
    );
    const left = builtSheet(id, { ...example, ...once, rightAs: "LEFT" });
    expect(left.verdicts()).toEqual(both.verdicts());
    for (const name of [
      "anAv",
      "anZ",
      "anA0",
      "anTv",
      "anTh",
      "anUb",
      "gTv",
      "gTh",
      "cuMb",
      "cuTs",
      "stReq",
      "stIn",
      "stProv",
    ])
      expect([name, left.column(name)]).toEqual([name, both.column(name)]);
    // Without the choice the places of the right end are missing.
    expect(builtSheet(id, { ...example, ...once }).verdicts().overall).toBe("INCOMPLETE");
  });

  test("an approval that asks for no distance is entered as 0", () => {
    const sheet = builtSheet(id, { ...example, edgeMin: 0, spaceMin: 0 });
    expect(sheet.verdicts().overall).toBe("OK");
    expect([one(sheet, "uEdge"), one(sheet, "uApart")]).toEqual([0, 0]);
  });
});

describe("debonding as a remedy is offered within what may be debonded", () => {
  const id = "end-zones-pre-tensioned-is1343-1980";
  const example = exampleOf(linkedTemplates.find((template) => template.id === id)!);
  const raisedTop = { ftTransferIn: 0, yEndIn: [60, 110, 110, 690] };

  test("no row where the share allowed is used up", () => {
    // 2 of 14 strands are debonded already, more than a tenth.
    const sheet = builtSheet(id, { ...example, debMax: 0.1 });
    expect(sheet.column("rmMay")).toEqual([0, 0, 0, 0]);
    expect(sheet.column("rfT")[0]).toBe("no row");
    expect(sheet.column("rfN")[0]).toBe("not known");
  });
  test("no more strands than the row has", () => {
    // The end lacks 4.7 MPa at the top, a strand of the bottom row gives 0.51 MPa: ten, of eight.
    const sheet = builtSheet(id, { ...example, ...raisedTop, debMax: 0.9 });
    const needed = Math.ceil(-Math.min(...numbers(sheet, "reMin")) / numbers(sheet, "rmDebT")[0]!);
    expect(needed).toBe(10);
    expect(sheet.column("rmMay")).toEqual([8, 0, 2, 0]);
    expect(sheet.column("rmNeed")[0]).toBe("only 8");
    expect(sheet.column("rfN")[0]).toBe("only 8");
    expect(sheet.column("rfMin")[0]).toBe("–");
  });
});

describe("end-zones-post-tensioned-is1343-1980", () => {
  const sheet = builtSheet("end-zones-post-tensioned-is1343-1980");
  const all = (name: string) => numbers(sheet, name);
  const corners = cornersOf(sheet);
  const turnedCorners = corners.map(([x, y]): Corner => [y, x]);
  const width = one(sheet, "ebWidth");
  const h = one(sheet, "h");
  const [y, z, av, ah, order] = ["anY", "anZ", "anAv", "anAh", "anOrd"].map(all) as [
    readonly number[],
    readonly number[],
    readonly number[],
    readonly number[],
    readonly number[],
  ];
  const Pj = all("Pj");
  const tendons = Pj.length;
  const force = y.map((_, i) => one(sheet, "gPu") * Pj[i % tendons]!);
  const slope = all("anSlope");
  const lift = force.map((P, i) => (P * slope[i]!) / Math.hypot(1, slope[i]!));
  const endOf = (i: number): number => Math.floor(i / tendons);
  const own = (i: number) => y.map((_, j) => j).filter((j) => endOf(j) === endOf(i));
  /** Twice the way to the surface of the rectangle, or half the way to a neighbour that overlaps across. */
  const prism = (i: number, vertical: boolean): number => {
    const [u, v, across] = vertical ? [y, z, ah] : [z, y, av];
    const edge = vertical ? Math.min(y[i]!, h - y[i]!) : width / 2 - Math.abs(z[i]!);
    const apart = own(i).flatMap((j) =>
      j === i || Math.abs(v[j]! - v[i]!) >= (across[i]! + across[j]!) / 2 ? [] : [Math.abs(u[j]! - u[i]!) / 2],
    );
    return 2 * Math.min(edge, ...apart);
  };
  const bv = y.map((_, i) => prism(i, true));
  const bh = y.map((_, i) => prism(i, false));

  test("prisms, bearing and bursting of each anchorage", () => {
    sheet.agree("anP", force);
    sheet.agree("anBv", bv);
    sheet.agree("anBh", bh);
    const hole = all("aiHole");
    const strength = all("utStrength");
    const loaded = y.map((_, i) => av[i]! * ah[i]! - (Math.PI * hole[i]! ** 2) / 4);
    const fit = y.map((_, i) => Math.min(bv[i]! / av[i]!, bh[i]! / ah[i]!));
    const limit = y.map((_, i) =>
      bearingIs(loaded[i]!, loaded[i]! * Math.max(fit[i]!, 1) ** 2, strength[i % tendons]!),
    );
    sheet.agree(
      "anSb",
      force.map((P, i) => (P * 1000) / loaded[i]!),
    );
    sheet.agree("anFbr", limit);
    sheet.agree(
      "anUb",
      force.map((P, i) => (P * 1000) / loaded[i]! / limit[i]!),
    );
    sheet.agree(
      "anTv",
      force.map((P, i) => burstingIs(av[i]!, bv[i]!, P) + Math.abs(lift[i]!) / 2),
    );
    sheet.agree(
      "anTh",
      force.map((P, i) => (ah[i]! <= bh[i]! ? burstingIs(ah[i]!, bh[i]!, P) : 0)),
    );
  });

  test("equilibrium of the block after each step, up and across", () => {
    const steps = order.slice(0, tendons);
    const cases = [0, 1].flatMap((end) =>
      [true, false].flatMap((vertical) => steps.map((upTo) => ({ end, vertical, upTo }))),
    );
    const found = cases.map(({ end, vertical, upTo }) => {
      const plates = y.flatMap((_, i): readonly Plate[] =>
        endOf(i) !== end || order[i]! > upTo
          ? []
          : vertical
            ? [{ y: y[i]!, z: z[i]!, av: av[i]!, ah: ah[i]!, P: force[i]! }]
            : [{ y: z[i]!, z: y[i]!, av: ah[i]!, ah: av[i]!, P: force[i]! }],
      );
      const block = endBlock(vertical ? corners : turnedCorners, plates);
      const lifted = y.reduce((sum, _, i) => sum + (endOf(i) === end && order[i]! <= upTo ? lift[i]! : 0), 0);
      return {
        depth: vertical ? h : width,
        burst: turning(block, 1).M,
        spall: turning(block, -1).M,
        lifted: vertical ? Math.abs(lifted) / 2 : 0,
      };
    });
    sheet.agree(
      "cuMb",
      found.map(({ burst }) => burst / 1000),
    );
    sheet.agree(
      "cuMs",
      found.map(({ spall }) => spall / 1000),
    );
    const [inside, face] = [one(sheet, "leverShare"), one(sheet, "leverFace")];
    sheet.agree(
      "cuTb",
      found.map(({ burst, depth, lifted }) => Math.max(burst, 0) / (inside * depth) + lifted),
    );
    sheet.agree(
      "cuTs",
      found.map(({ spall, depth }) => Math.max(-spall, 0) / (face * depth)),
    );
  });

  test("tensions and steel", () => {
    const allowed = Math.min(one(sheet, "sigTie"), one(sheet, "fykE") / one(sheet, "gSe"));
    sheet.agree(
      "stReq",
      all("stT").map((T) => (T * 1000) / allowed),
    );
    const [from, to] = [all("stFrom"), all("stTo")];
    const bars = ["siDia", "siLegs", "siLayers", "siFirst", "siStep"].map(all);
    sheet.agree(
      "stProv",
      from.map((x, i) => {
        const [diameter, legs, layers, first, step] = bars.map((one) => one[i]!) as [
          number,
          number,
          number,
          number,
          number,
        ];
        return steelBetween({ diameter, legs, layers, first, step }, x, to[i]!);
      }),
    );
    // 0.03 of all forces of an end on the face, or more by equilibrium.
    const share = [0, 1].map((end) => 0.03 * force.reduce((sum, P, i) => sum + (endOf(i) === end ? P : 0), 0));
    sheet.agree("faceShare", share);
    const tension = (end: number, kind: number): number => all("stT")[end * 6 + kind]!;
    for (const end of [0, 1]) {
      const here = force.map((_, i) => i).filter((i) => endOf(i) === end);
      expect(tension(end, 0)).toBeCloseTo(most(here.map((i) => all("anTv")[i]!)), 9);
      expect(tension(end, 1)).toBeCloseTo(most(here.map((i) => all("anTh")[i]!)), 9);
    }
  });
});

test.each(
  linkedTemplates.filter(({ id }) => id.startsWith("end-zones-")).map((template) => [template.id, template] as const),
)("%s: names of lines and axes have room below each chart in a file", (id, template) => {
  const { plan, values } = planned(template, exampleOf(template));
  const sheet = sheetOfPlan(plan, values, "End zones");
  expect(plan.charts.length).toBeGreaterThan(0);
  for (const chart of plan.charts) {
    const size = sizeOf(chart.at, sheet);
    // Where the words take more than there is, 36 points stay for the lines and the words lie over each other.
    expect(plotArea(chart, size).h * size.height, `${id} ${chart.id}`).toBeGreaterThan(36);
  }
});
