import { formula, stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { anchorageEdgeDistance, anchoragePrism, anchorageSpacingUtilisation } from "./anchoragePrism.ts";
import {
  anchorageTieEn1992Part2,
  bearingLimitIs1343,
  burstingForceIrc112,
  burstingForceJtg3362,
  spallingForceJtg3362,
} from "./anchorageRules.ts";
import { endBlockLevel, endBlockMoment } from "./endBlockMoment.ts";

const f_cd = as(q.concreteDesignStrength, { above: 0, max: 100, typical: [5, 60] });
const side = (symbol: string, text: string) => as(q.sectionWidth, { symbol, text, min: 1 });

/** 6.7: a part of the concrete is loaded. */
const bearingResistanceEn1992 = stepwise({
  id: "BEARING_RESISTANCE_EN1992_2004",
  family: "endZone",
  summary: "Resistance of the concrete under a partially loaded area",
  notes: [
    "A_c1 is the area the load spreads to, of the shape of A_c0, with the same axis, within the concrete, no " +
      "side more than 3 times as long; areas of several loads must not overlap.",
    "The force that bursts the concrete apart must be held by steel: BURSTING_FORCE_EN1992_2004.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.7(2) (6.63)", basis: "seen", readIn: "CE:2021" },
  params: {
    A_c0: as(q.area, { symbol: "A_c0", text: "loaded area", min: 1 }),
    A_c1: as(q.area, { symbol: "A_c1", text: "area the load spreads to" }),
    f_cd,
  },
  limits: ({ A_c0 }) => ({ A_c1: { min: A_c0, because: "the loaded area" } }),
  result: as(q.localForce, { symbol: "F_Rdu", text: "resistance of the loaded area" }),
  steps: {
    rise: { symbol: "k", unit: "–", text: "rise by the spread", equation: "min(sqrt(A_c1 / A_c0), 3)" },
    F: { symbol: "F_Rdu", unit: "kN", clause: "(6.63)", equation: "A_c0 * f_cd * rise" },
  },
  compute: ({ A_c0, A_c1, f_cd: strength }) => {
    const rise = Math.min(Math.sqrt(A_c1 / A_c0), 3);
    return { rise, F: A_c0 * strength * rise };
  },
  unpublished: "no published figure whose source was read was found; one is second-hand",
});

/** 6.5.3: struts that spread, and the tie that holds them together. */
const burstingForceEn1992 = stepwise({
  id: "BURSTING_FORCE_EN1992_2004",
  family: "endZone",
  summary: "Tension across a strut that spreads from a loaded width, by strut and tie",
  notes: [
    "b up to H/2: the strut spreads to b; wider: it spreads over a height H, and a/H counts. (6.59) was read " +
      "with a/h, and h = H/2 gives up to 2.2 times less tension: equilibrium of the strut with b_ef = 0.5 H + 0.65 " +
      "a gives a/H, the safe reading, which stands here. Compare your copy and its corrigenda.",
    "F is the design force; for anchorages with the unfavourable γ_P of local effects, 1.2 recommended (2.4.2.2(3)).",
    "One concentrated force in the axis of its block. Several anchorages: each by itself in its own block, then " +
      "groups, then all. Spalling at the loaded face comes on top.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.5.3(3) (6.58), (6.59), 8.10.3(4)", basis: "seen", readIn: "CE:2021" },
  params: {
    a: side("a", "width of the loaded area"),
    b: side("b", "width of the concrete that the strut can spread to"),
    H: side("H", "height of the strut between its two loaded ends"),
    F: q.localForce,
  },
  limits: ({ b }) => ({ a: { max: b, because: "the width of the concrete" } }),
  result: as(q.pullForce, { symbol: "T", text: "tension across the strut" }),
  steps: {
    partial: { symbol: "T_1", unit: "kN", text: "spread to b", clause: "(6.58)", equation: "F / 4 * (b - a) / b" },
    full: {
      symbol: "T_2",
      unit: "kN",
      text: "spread over H",
      clause: "(6.59)",
      equation: "max(F / 4 * (1 - 0.7 * a / H), 0)",
    },
    T: { symbol: "T", unit: "kN", equation: "b <= H / 2 ? partial : full" },
  },
  compute: ({ a, b, H, F }) => {
    const partial = ((F / 4) * (b - a)) / b;
    const full = Math.max((F / 4) * (1 - (0.7 * a) / H), 0);
    return { partial, full, T: b <= H / 2 ? partial : full };
  },
  unpublished:
    "no published figure whose source was read was found; a second-hand one with the other reading must differ",
});

/** The straight line of the Indian and the older British standard. */
const burstingForceIs1343 = stepwise({
  id: "BURSTING_FORCE_IS1343_1980",
  family: "endZone",
  summary: "Bursting force of an end block under one anchorage, by the side of its bearing plate",
  notes: [
    "F_bst = P_k (0.32 − 0.30 y_po/y_o). The line was recalled for IS 1343:1980; of BS 8110, where it is the " +
      "same, the values at 0.3 and 0.7 were read, beyond which they stay.",
    "In both directions. Steel from 0.1 to 1.0 of the block's side. P_k is the jacking force, unless tendons " +
      "without bond may be pulled higher.",
    "Other works print 0.48 − 0.40 y_po/y_o under this standard's name, which gives more: compare your copy.",
  ],
  source: { key: "IS1343:1980", clause: "18.6.2.2", basis: "memory-high" },
  params: {
    ratio: q.plateRatio,
    P_k: as(q.localForce, { symbol: "P_k", text: "force of the tendon at the anchorage" }),
  },
  result: as(q.pullForce, { symbol: "F_bst", text: "bursting force" }),
  steps: {
    part: {
      symbol: "F_bst/P_k",
      unit: "–",
      text: "part of the force",
      equation: "0.32 - 0.3 * min(max(ratio, 0.3), 0.7)",
    },
    F_bst: { symbol: "F_bst", unit: "kN", equation: "part * P_k" },
  },
  compute: ({ ratio, P_k }) => {
    const part = 0.32 - 0.3 * Math.min(Math.max(ratio, 0.3), 0.7);
    return { part, F_bst: part * P_k };
  },
});

/** Steel for a tension that is known. */
const tieReinforcement = formula({
  id: "TIE_REINFORCEMENT",
  family: "endZone",
  summary: "Area of steel for a tie force: bursting, spalling, splitting",
  notes: [
    "With no more than 300 MPa in the bars EN 1992-1-1:2004 8.10.3(4) asks for no check of cracks in the end zone.",
  ],
  source: mechanics,
  params: {
    F: as(q.pullForce, { text: "force of the tie", typical: [0, 5000], smallest: 6 }),
    sigma_s: as(q.tieStress, { min: 1 }),
  },
  result: as(q.barArea, { text: "area of steel" }),
  equation: "F / sigma_s",
  compute: ({ F, sigma_s }) => F / sigma_s,
});

/** The ends of pre-tensioned members. */
const splittingForcePretension = formula({
  id: "SPLITTING_FORCE_PRETENSION",
  family: "endZone",
  summary: "Force for the vertical steel at the end of a pre-tensioned member, 0.021 P·h/l_t",
  notes: [
    "From tests on I-beams by Marshall and Mattock (1962), as quoted; within h/5 of the end. With h/l_t = 2 it " +
      "is the rule of 4 %. The stress of the steel falls from the end, so its mean is half the stress at the end: " +
      "the coefficient counts on that.",
    "For members of h/l_t up to about 2. Bunched or draped strands and sudden release want more.",
  ],
  source: { key: "MARSHALL-MATTOCK:1962", basis: "second-hand" },
  params: {
    h: as(q.sectionHeight, { min: 1 }),
    P: as(q.localForce, { symbol: "P", text: "prestressing force just before release" }),
    l_t: as(q.transmissionLength, { symbol: "l_t", min: 1 }),
  },
  result: as(q.pullForce, { text: "force for the vertical steel" }),
  equation: "0.021 * P * h / l_t",
  compute: ({ h, P, l_t }) => (0.021 * P * h) / l_t,
});

export const endZoneFormulas = [
  bearingResistanceEn1992,
  burstingForceEn1992,
  burstingForceIs1343,
  splittingForcePretension,
  tieReinforcement,
  anchoragePrism,
  anchorageEdgeDistance,
  anchorageSpacingUtilisation,
  endBlockMoment,
  endBlockLevel,
  anchorageTieEn1992Part2,
  burstingForceJtg3362,
  spallingForceJtg3362,
  burstingForceIrc112,
  bearingLimitIs1343,
];
