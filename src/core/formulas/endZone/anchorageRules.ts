import { formula, stepwise } from "../../formula.ts";
import { valueBetween, valueFor } from "../../lookup.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

const tie = choice({
  key: "anchorageTie",
  symbol: "tie",
  text: "tension that is wanted",
  values: [
    { value: "BURSTING", text: "bursting inside the prism" },
    { value: "SPALLING", text: "spalling of the loaded face" },
  ],
});
const shares = { BURSTING: 0.15, SPALLING: 0.03 };

/** Annex J of the part for bridges. */
export const anchorageTieEn1992Part2 = stepwise({
  id: "ANCHORAGE_TIE_EN1992_2_2005",
  family: "endZone",
  summary: "Tension behind an anchorage by a fixed share of its force: bursting 0.15, spalling of the loaded face 0.03",
  notes: [
    "A rule for bridges. Its steel for bursting is spread over 1.2 times the larger side of the prism. The slides that " +
      "were read use no partial factor: pass the force with γ_P,unfav, 1.2 recommended.",
  ],
  source: { key: "EN1992-2:2005", clause: "Annex J.104.2", basis: "second-hand" },
  params: { P: as(q.localForce, { symbol: "P", text: "design force of the anchorage" }), tie },
  result: as(q.pullForce, { symbol: "T", text: "tension behind the anchorage" }),
  steps: {
    share: { symbol: "T/P", unit: "–", text: "share of the force", lookup: { of: "tie", values: shares } },
    T: { symbol: "T", unit: "kN", equation: "share * P" },
  },
  compute: ({ P, tie: which }) => {
    const share = valueFor(shares, which);
    return { share, T: share * P };
  },
});

const points = [
  [0.3, 0.26],
  [0.4, 0.23],
  [0.5, 0.19],
  [0.6, 0.16],
  [0.7, 0.12],
] as const;

/** The table of the Indian bridge code. */
export const burstingForceIrc112 = stepwise({
  id: "BURSTING_FORCE_IRC112_2011",
  family: "endZone",
  summary: "Bursting force behind one anchorage by the table of F_bst/P_k over the side of its plate",
  notes: [
    "Straight between the values of the table, held beyond its ends at 0.3 and 0.7. One prism at a time, then each " +
      "group with the plate round it and the sum of its forces.",
    "A design-office sheet that was read takes the force of one cable for a group of six: unsafe, pass their sum.",
  ],
  source: { key: "IRC112:2011", clause: "Table 13.1", basis: "second-hand" },
  params: {
    ratio: q.plateRatio,
    P_k: as(q.localForce, { symbol: "P_k", text: "design force of the anchorage or group" }),
  },
  result: as(q.pullForce, { symbol: "F_bst", text: "bursting force" }),
  steps: {
    part: {
      symbol: "F_bst/P_k",
      unit: "–",
      text: "share of the force, straight between the points",
      lookup: { of: "ratio", points },
    },
    F_bst: { symbol: "F_bst", unit: "kN", equation: "part * P_k" },
  },
  compute: ({ ratio, P_k }) => {
    const part = valueBetween(points, ratio);
    return { part, F_bst: part * P_k };
  },
});

/** Bearing behind the plate to the Indian standard. */
export const bearingLimitIs1343 = formula({
  id: "BEARING_LIMIT_IS1343_1980",
  family: "endZone",
  summary: "Bearing stress allowed behind an anchorage plate, at the cube strength of the time of stressing",
  notes: [
    "Read second-hand. The stress itself is the force over the loaded area A_pun; a page that was read divides by " +
      "A_br, which is unsafe.",
    "A_br is the largest area of the same shape around the same axis that lies within the concrete and overlaps no other.",
  ],
  source: { key: "IS1343:1980", clause: "18.6.2.1", basis: "second-hand" },
  params: {
    A_pun: as(q.area, { symbol: "A_pun", text: "loaded area", min: 1 }),
    A_br: as(q.area, { symbol: "A_br", text: "bearing area around the same axis" }),
    f_ci: as(q.cubeStrengthAtTransfer, { symbol: "f_ci", text: "cube strength when the tendon is stressed" }),
  },
  limits: ({ A_pun }) => ({ A_br: { min: A_pun, because: "the loaded area" } }),
  result: as(q.compressionLimit, { symbol: "f_br", text: "bearing stress allowed" }),
  equation: "min(0.48 * f_ci * sqrt(A_br / A_pun), 0.8 * f_ci)",
  compute: ({ A_pun, A_br, f_ci }) => Math.min(0.48 * f_ci * Math.sqrt(A_br / A_pun), 0.8 * f_ci),
});

const vertical = as(q.pullForce, {
  symbol: "P_v",
  text: "vertical component of the inclined force, P sin α, without sign",
  typical: [0, 5000],
  smallest: 6,
});

/** Eccentric and inclined anchorages. */
export const burstingForceJtg3362 = stepwise({
  id: "BURSTING_FORCE_JTG3362_2018",
  family: "endZone",
  summary: "Bursting force of an end block under one eccentric, inclined anchorage or close group",
  notes: [
    "e = 0 and P_v = 0 give 0.25 P (1 − a/h). A close group has a spacing below twice the width of its plates: pass the sum " +
      "of the forces and the width from outer edge to outer edge. Otherwise each anchorage by itself.",
    "P is the design force, in this code 1.2 times the jacking force. Past a third of the depth (γ > 2/3) the anchorage is " +
      "outside the kern by far: look at the tension of the opposite edge too.",
  ],
  source: { key: "JTG3362:2018", clause: "8.2.2 (8.2.2-1)", basis: "seen" },
  params: {
    h: q.sectionHeight,
    a: as(q.plateSide, { symbol: "a", text: "size of the plate or group in the direction of the tension", min: 1 }),
    e: as(q.eccentricity, { symbol: "e", text: "eccentricity of the force, either sign" }),
    P: as(q.localForce, { symbol: "P", text: "design force of the anchorage or group" }),
    P_v: vertical,
  },
  limits: ({ h }) => ({
    a: { max: h, because: "the depth" },
    e: { min: -h / 2, max: h / 2, because: "half the depth" },
  }),
  result: as(q.pullForce, { symbol: "T_b", text: "bursting force" }),
  steps: {
    gamma: { symbol: "γ", unit: "–", text: "relative eccentricity", equation: "2 * abs(e) / h" },
    spread: {
      symbol: "T_1",
      unit: "kN",
      text: "by the spread of the force",
      equation: "max(0.25 * P * (1 + gamma)^2 * (1 - gamma - a / h), 0)",
    },
    slope: { symbol: "T_2", unit: "kN", text: "by the inclination", equation: "0.5 * P_v" },
    T: { symbol: "T_b", unit: "kN", clause: "(8.2.2-1)", equation: "spread + slope" },
  },
  compute: ({ h, a, e, P, P_v }) => {
    const gamma = (2 * Math.abs(e)) / h;
    const spread = Math.max(0.25 * P * (1 + gamma) ** 2 * (1 - gamma - a / h), 0);
    const slope = 0.5 * P_v;
    return { gamma, spread, slope, T: spread + slope };
  },
  unpublished: "the code's text was read, no worked example; e = 0 is the rule of a single plate",
});

/** Tension of the loaded face. */
export const spallingForceJtg3362 = stepwise({
  id: "SPALLING_FORCE_JTG3362_2018",
  family: "endZone",
  summary: "Spalling force of the loaded face round an anchorage, or between two that are far apart",
  notes: [
    "s = 0 for one anchorage by itself: 2 % of its force. Between two anchorages further apart than half the depth the face " +
      "pulls more.",
  ],
  source: { key: "JTG3362:2018", clause: "8.2.3, 8.2.4", basis: "seen" },
  params: {
    h: q.sectionHeight,
    s: as(q.plateSide, {
      symbol: "s",
      text: "distance between the two anchorages; 0 for one",
      max: 20000,
      typical: [0, 6000],
    }),
    P_m: as(q.localForce, { symbol: "P_m", text: "mean force of the two anchorages" }),
    P_max: as(q.localForce, { symbol: "P_max", text: "larger force" }),
  },
  limits: ({ h }) => ({ s: { max: h, because: "the depth" } }),
  result: as(q.pullForce, { symbol: "T_s", text: "spalling force" }),
  steps: {
    least: { symbol: "T_1", unit: "kN", clause: "8.2.3", equation: "0.02 * P_max" },
    apart: { symbol: "T_2", unit: "kN", clause: "8.2.4", equation: "0.45 * P_m * (2 * s / h - 1)" },
    T: { symbol: "T_s", unit: "kN", equation: "max(least, apart)" },
  },
  compute: ({ h, s, P_m, P_max }) => {
    const least = 0.02 * P_max;
    const apart = 0.45 * P_m * ((2 * s) / h - 1);
    return { least, apart, T: Math.max(least, apart) };
  },
  unpublished: "the code's text was read, no worked example",
});
