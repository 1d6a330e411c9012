import { stepwise } from "../../formula.ts";
import { valueBetween, valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { componentSteel } from "../models/choices.ts";

const psi = 4.4482216152605 / 25.4 ** 2;

/** K_re in psi and J, by kind of steel. */
const table = {
  "270_RELIEVED": { K: 20000, J: 0.15, low: 0 },
  "250_RELIEVED": { K: 18500, J: 0.14, low: 0 },
  "240_RELIEVED": { K: 17600, J: 0.13, low: 0 },
  "270_LOW": { K: 5000, J: 0.04, low: 1 },
  "250_LOW": { K: 4630, J: 0.037, low: 1 },
  "240_LOW": { K: 4400, J: 0.035, low: 1 },
  BAR: { K: 6000, J: 0.05, low: 1 },
} as const;
type Row = (typeof table)[keyof typeof table];
const column = (of: (row: Row) => number): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(table).map(([steel, row]) => [steel, of(row)]));
const K_re = column(({ K }) => K * psi),
  J_re = column(({ J }) => J),
  isLow = column(({ low }) => low);

/** C over f_pi/f_pu: stress-relieved strand and wire; then bars and low relaxation. */
const relieved = [
  [0.6, 0.49],
  [0.61, 0.53],
  [0.62, 0.58],
  [0.63, 0.63],
  [0.64, 0.68],
  [0.65, 0.73],
  [0.66, 0.78],
  [0.67, 0.83],
  [0.68, 0.89],
  [0.69, 0.94],
  [0.7, 1],
  [0.71, 1.09],
  [0.72, 1.18],
  [0.73, 1.27],
  [0.74, 1.36],
  [0.75, 1.45],
] as const;
const lowOrBar = [
  [0.6, 0.33],
  [0.61, 0.37],
  [0.62, 0.41],
  [0.63, 0.45],
  [0.64, 0.49],
  [0.65, 0.53],
  [0.66, 0.57],
  [0.67, 0.61],
  [0.68, 0.66],
  [0.69, 0.7],
  [0.7, 0.75],
  [0.71, 0.8],
  [0.72, 0.85],
  [0.73, 0.9],
  [0.74, 0.95],
  [0.75, 1],
  [0.76, 1.05],
  [0.77, 1.11],
  [0.78, 1.16],
  [0.79, 1.22],
  [0.8, 1.28],
] as const;

/** Relaxation of the component method: reduced by the other losses. */
export const relaxationLossComponent = stepwise({
  id: "RELAXATION_LOSS_COMPONENT",
  family: "relaxation",
  summary:
    "Final loss of tendon stress by relaxation, by the component method: reduced by elastic shortening, shrinkage and creep; positive",
  notes: [
    "f_pi is the stress after friction and draw-in but before elastic shortening and the losses over time.",
    "C is linear between the points of its table. Ratios below 0.60, and above 0.75 (stress-relieved) or " +
      "0.80 (low relaxation, bars), are refused.",
    "Never below 0.",
    "Tables of K, J and C from memory; the method is for normal buildings, not for bridges or heavy members.",
  ],
  source: { key: "ZIA:1979", clause: "relaxation of tendons (RE), Tables 1 and 2", basis: "memory-high" },
  params: {
    f_pu: as(q.tendonTensileStrength, { symbol: "f_pu" }),
    steel: componentSteel,
    f_pi: as(q.initialTendonStress, { symbol: "f_pi" }),
    ES: as(q.elasticLoss, { symbol: "ES", min: 0 }),
    CR: as(q.timeDependentLoss, { symbol: "CR", text: "loss by creep, positive", min: 0, max: 1000 }),
    SH: as(q.timeDependentLoss, { symbol: "SH", text: "loss by shrinkage, positive", min: 0, max: 1000 }),
  },
  limits: ({ steel, f_pu }) => ({
    f_pi: {
      min: 0.6 * f_pu,
      max: (valueFor(isLow, steel) === 1 ? 0.8 : 0.75) * f_pu,
      because: "the ratios to the strength that the table of C covers for this steel",
    },
  }),
  result: q.relaxationLoss,
  steps: {
    K: { symbol: "K_re", unit: "MPa", text: "basic relaxation of the steel", lookup: { of: "steel", values: K_re } },
    J: { symbol: "J", unit: "–", text: "effect of the other losses", lookup: { of: "steel", values: J_re } },
    low: { symbol: "low", unit: "–", text: "1 for bars and low relaxation", lookup: { of: "steel", values: isLow } },
    ratio: { symbol: "f_pi/f_pu", unit: "–", text: "initial stress over strength", equation: "f_pi / f_pu" },
    C_r: {
      symbol: "C_r",
      unit: "–",
      text: "C for stress-relieved strand and wire",
      lookup: { of: "ratio", points: relieved },
    },
    C_l: { symbol: "C_l", unit: "–", text: "C for bars and low relaxation", lookup: { of: "ratio", points: lowOrBar } },
    C: { symbol: "C", unit: "–", text: "effect of the initial stress", equation: "low == 1 ? C_l : C_r" },
    loss: { symbol: "RE", unit: "MPa", text: "loss by relaxation", equation: "max((K - J * (SH + CR + ES)) * C, 0)" },
  },
  compute: (v) => {
    const K = valueFor(K_re, v.steel),
      J = valueFor(J_re, v.steel),
      low = valueFor(isLow, v.steel);
    const ratio = v.f_pi / v.f_pu;
    const C_r = valueBetween(relieved, ratio),
      C_l = valueBetween(lowOrBar, ratio);
    const C = low === 1 ? C_l : C_r;
    return { K, J, low, ratio, C_r, C_l, C, loss: Math.max((K - J * (v.SH + v.CR + v.ES)) * C, 0) };
  },
  unpublished: "no published result was found; its bounds and its fall with the other losses are tested",
});
