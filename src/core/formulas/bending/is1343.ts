import { NoResult } from "../../errors.ts";
import { byChoice, stepwise, type StepOfTable } from "../../formula.ts";
import { valueBetween } from "../../lookup.ts";
import { as, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { method } from "../is1343/choices.ts";

type Points = readonly (readonly [number, number])[];

/** Table 11: by A_p f_p/(b d f_ck), with the straight line down to nothing that its first row lies on. */
const ratios = [0.025, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4] as const;
const byRatio = (values: readonly number[], atNone: number): Points => [
  [0, atNone],
  ...ratios.map((r, i) => [r, values[i]!] as const),
];
const bonded = {
  PRE: {
    x: byRatio([0.054, 0.109, 0.217, 0.326, 0.435, 0.542, 0.655, 0.783], 0),
    f: byRatio([1, 1, 1, 1, 1, 1, 1, 0.9], 1),
  },
  POST: {
    x: byRatio([0.054, 0.109, 0.217, 0.316, 0.414, 0.488, 0.558, 0.653], 0),
    f: byRatio([1, 1, 1, 1, 0.95, 0.9, 0.85, 0.75], 1),
  },
};
const greatestRatio = 0.4;

const table = (symbol: string, text: string, of: string, points: Points): StepOfTable => ({
  symbol,
  unit: "–",
  text,
  lookup: { of, points },
});
const of = (kind: string, pre: number, post: number): number => (kind === "PRE" ? pre : post);

function refuseOver(ratio: number): void {
  if (ratio > greatestRatio)
    throw new NoResult(
      `A_p f_p/(b d f_ck) is ${format(ratio)}; the table ends at ${greatestRatio}: less steel or more concrete, or strain compatibility`,
    );
}

const depths = {
  b: as(q.sectionWidth, { text: "width of the compressed flange", min: 1 }),
  d: as(q.effectiveDepth, { text: "effective depth of the tendons", min: 1 }),
};

/** The short rule for tendons in bond. */
export const momentResistanceIs1343 = stepwise({
  id: "MOMENT_RESISTANCE_IS1343_1980",
  family: "bending",
  summary: "Ultimate moment of a rectangular or flanged section with bonded tendons by the table of the standard",
  notes: [
    "The neutral axis of the whole width decides whether the section is flanged. For a rectangle enter the width " +
      "for b_w and the depth for D_f.",
    "The table was read, with the rectangle's formula; the one for a flanged section was recalled. Below 0.025 " +
      "the values run straight to 0.",
    "The table holds a safety factor on the steel, 0.87 f_p, and on the concrete. It asks for an effective " +
      "prestress of 0.45 f_p or more.",
    "Bars are left out. The depths do not follow from 0.36 f_ck, with which ordinary reinforced concrete is " +
      "designed in India: they fit 0.40 f_ck.",
  ],
  source: { key: "IS1343:1980", clause: "Appendix B, Table 11", basis: "seen" },
  params: {
    ...depths,
    b_w: as(q.sectionWidth, { symbol: "b_w", text: "width of the web", min: 1 }),
    D_f: q.flangeDepth,
    A_p: q.tendonArea,
    f_p: as(q.tendonTensileStrength, { symbol: "f_p" }),
    f_ck: q.cubeStrength,
    f_pe: as(q.tendonStress, { symbol: "f_pe", text: "effective prestress after all losses" }),
    tendons: method,
  },
  limits: ({ b, d, f_p }) => ({
    b_w: { max: b, because: "the width of the flange" },
    D_f: { max: 2 * d, because: "twice the effective depth" },
    f_pe: { min: 0.45 * f_p, because: "0.45 times the tensile strength, from which the table holds" },
  }),
  result: as(q.moment, { symbol: "M_u", text: "ultimate moment" }),
  steps: {
    r_1: { symbol: "r_1", unit: "–", text: "entry with the whole width", equation: "A_p * f_p / (b * d * f_ck)" },
    x_pre1: table("x_u/d", "pre-tensioned, whole width", "r_1", bonded.PRE.x),
    x_post1: table("x_u/d", "post-tensioned, whole width", "r_1", bonded.POST.x),
    flanged: {
      symbol: "T",
      unit: "–",
      text: "1 where the neutral axis lies below the flange",
      ...byChoice("tendons", { PRE: "(x_pre1 * d > D_f ? 1 : 0)", POST: "(x_post1 * d > D_f ? 1 : 0)" }),
    },
    A_pf: {
      symbol: "A_pf",
      unit: "mm²",
      text: "tendons that the overhanging flange takes",
      equation: "flanged * 0.45 * f_ck * (b - b_w) * D_f / f_p",
    },
    width: { symbol: "b'", unit: "mm", text: "width for the rest", equation: "flanged == 1 ? b_w : b" },
    r: { symbol: "r", unit: "–", text: "entry of the table", equation: "(A_p - A_pf) * f_p / (width * d * f_ck)" },
    x_pre: table("x_u/d", "pre-tensioned", "r", bonded.PRE.x),
    x_post: table("x_u/d", "post-tensioned", "r", bonded.POST.x),
    f_pre: table("f_pu/0.87f_p", "pre-tensioned", "r", bonded.PRE.f),
    f_post: table("f_pu/0.87f_p", "post-tensioned", "r", bonded.POST.f),
    x_u: {
      symbol: "x_u",
      unit: "mm",
      text: "depth of the neutral axis",
      ...byChoice("tendons", { PRE: "x_pre * d", POST: "x_post * d" }),
    },
    f_pu: {
      symbol: "f_pu",
      unit: "MPa",
      text: "tendon stress at failure",
      ...byChoice("tendons", { PRE: "f_pre * 0.87 * f_p", POST: "f_post * 0.87 * f_p" }),
    },
    M_u: {
      symbol: "M_u",
      unit: "kN·m",
      equation: "f_pu * (A_p - A_pf) * (d - 0.42 * x_u) + A_pf * f_p * (d - 0.5 * D_f)",
    },
  },
  compute: ({ b, d, b_w, D_f, A_p, f_p, f_ck, tendons }) => {
    const r_1 = (A_p * f_p) / (b * d * f_ck);
    const x_pre1 = valueBetween(bonded.PRE.x, r_1);
    const x_post1 = valueBetween(bonded.POST.x, r_1);
    const flanged = of(tendons, x_pre1, x_post1) * d > D_f ? 1 : 0;
    const A_pf = (flanged * 0.45 * f_ck * (b - b_w) * D_f) / f_p;
    const width = flanged === 1 ? b_w : b;
    const r = ((A_p - A_pf) * f_p) / (width * d * f_ck);
    refuseOver(r);
    const x_pre = valueBetween(bonded.PRE.x, r);
    const x_post = valueBetween(bonded.POST.x, r);
    const f_pre = valueBetween(bonded.PRE.f, r);
    const f_post = valueBetween(bonded.POST.f, r);
    const x_u = of(tendons, x_pre, x_post) * d;
    const f_pu = of(tendons, f_pre, f_post) * 0.87 * f_p;
    const M_u = f_pu * (A_p - A_pf) * (d - 0.42 * x_u) + A_pf * f_p * (d - 0.5 * D_f);
    return { r_1, x_pre1, x_post1, flanged, A_pf, width, r, x_pre, x_post, f_pre, f_post, x_u, f_pu, M_u };
  },
});

/** Table 12, recalled: by A_p f_pe/(b d f_ck), for spans of 10, 20 and 30 times the depth. */
const unbondedRatios = [0.025, 0.05, 0.1, 0.15, 0.2] as const;
const unbonded = (values: readonly number[]): Points => unbondedRatios.map((r, i) => [r, values[i]!] as const);
const stress10 = unbonded([1.45, 1.45, 1.45, 1.36, 1.27]);
const stress20 = unbonded([1.34, 1.32, 1.26, 1.2, 1.16]);
const stress30 = unbonded([1.23, 1.21, 1.18, 1.14, 1.11]);
const depth10 = unbonded([0.1, 0.18, 0.36, 0.52, 0.64]);
const depth20 = unbonded([0.1, 0.16, 0.32, 0.46, 0.58]);
const depth30 = unbonded([0.1, 0.16, 0.3, 0.44, 0.56]);
const between = "l_d <= 20 ? at10 + (at20 - at10) * (l_d - 10) / 10 : at20 + (at30 - at20) * (l_d - 20) / 10";
const inWords = (name: string): string => between.replace(/at(\d+)/g, `${name}$1`);
const span = (l_d: number, [at10, at20, at30]: readonly [number, number, number]): number =>
  l_d <= 20 ? at10 + ((at20 - at10) * (l_d - 10)) / 10 : at20 + ((at30 - at20) * (l_d - 20)) / 10;

/** The short rule for tendons without bond. */
export const momentResistanceUnbondedIs1343 = stepwise({
  id: "MOMENT_RESISTANCE_UNBONDED_IS1343_1980",
  family: "bending",
  summary: "Ultimate moment of a rectangular section with tendons without bond by the table of the standard",
  notes: [
    "Table 12 was recalled, only its heading was read: compare it with your copy of the standard before a " +
      "verdict rests on it.",
    "Rectangles only, or flanged sections whose neutral axis lies in the flange. Spans of 10 to 30 times the " +
      "depth and entries of 0.025 to 0.2; linear between.",
  ],
  source: { key: "IS1343:1980", clause: "Appendix B, Table 12", basis: "memory-high" },
  params: {
    ...depths,
    A_p: q.tendonArea,
    f_ck: q.cubeStrength,
    f_pe: as(q.tendonStress, { symbol: "f_pe", text: "effective prestress after all losses" }),
    l_d: as(q.spanToDepth, { min: 10, max: 30 }),
  },
  result: as(q.moment, { symbol: "M_u", text: "ultimate moment" }),
  steps: {
    r: { symbol: "r", unit: "–", text: "entry of the table", equation: "A_p * f_pe / (b * d * f_ck)" },
    f10: table("f_pu/f_pe", "span 10 times the depth", "r", stress10),
    f20: table("f_pu/f_pe", "span 20 times the depth", "r", stress20),
    f30: table("f_pu/f_pe", "span 30 times the depth", "r", stress30),
    x10: table("x_u/d", "span 10 times the depth", "r", depth10),
    x20: table("x_u/d", "span 20 times the depth", "r", depth20),
    x30: table("x_u/d", "span 30 times the depth", "r", depth30),
    f: { symbol: "f_pu/f_pe", unit: "–", text: "between the spans", equation: inWords("f") },
    x: { symbol: "x_u/d", unit: "–", text: "between the spans", equation: inWords("x") },
    M_u: { symbol: "M_u", unit: "kN·m", equation: "f * f_pe * A_p * (d - 0.42 * x * d)" },
  },
  compute: ({ b, d, A_p, f_ck, f_pe, l_d }) => {
    const r = (A_p * f_pe) / (b * d * f_ck);
    const [first, last] = [unbondedRatios[0], unbondedRatios.at(-1)!];
    if (r < first || r > last)
      throw new NoResult(`A_p f_pe/(b d f_ck) is ${format(r)}; the table runs from ${first} to ${last}`);
    const [f10, f20, f30] = [valueBetween(stress10, r), valueBetween(stress20, r), valueBetween(stress30, r)];
    const [x10, x20, x30] = [valueBetween(depth10, r), valueBetween(depth20, r), valueBetween(depth30, r)];
    const f = span(l_d, [f10, f20, f30]);
    const x = span(l_d, [x10, x20, x30]);
    return { r, f10, f20, f30, x10, x20, x30, f, x, M_u: f * f_pe * A_p * (d - 0.42 * x * d) };
  },
  unpublished: "a table from memory; the one example known is recalled too",
});
