import { stepwise } from "../../formula.ts";
import { valueBetween, valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { crackWidth, tensionedTendons } from "./choices.ts";

/** By characteristic cube strength: tendons anywhere, then pre-tensioned ones close to the tension face; for 0.1 and for 0.2 mm. */
const anywhere01 = [
  [30, 3.2],
  [35, 3.6],
  [40, 4.1],
  [45, 4.4],
  [50, 4.8],
] as const;
const anywhere02 = [
  [30, 3.8],
  [35, 4.4],
  [40, 5],
  [45, 5.4],
  [50, 5.8],
] as const;
const nearFace01 = [
  [40, 5.3],
  [45, 5.8],
  [50, 6.3],
] as const;
const nearFace02 = [
  [40, 6.3],
  [45, 6.8],
  [50, 7.3],
] as const;
const byDepth = [
  [200, 1.1],
  [400, 1],
  [600, 0.9],
  [800, 0.8],
  [1000, 0.7],
] as const;

const isNearFace = { PRE: 0, POST: 0, PRE_NEAR_FACE: 1 };
const isWide = { 0.1: 0, 0.2: 1 };
const lowestGrade = { PRE: 40, POST: 30, PRE_NEAR_FACE: 40 };

/** The tension that stands for a crack width in a member of type 3. */
export const hypotheticalTensionIs1343 = stepwise({
  id: "HYPOTHETICAL_TENSION_IS1343_1980",
  family: "limits",
  summary:
    "Least concrete stress of the uncracked section that stands for a crack width in a member of type 3: " +
    "a negative number, compression positive",
  notes: [
    "Tables by grade and by depth, from memory: compare them with your copy of the standard before a verdict rests on them.",
    "Linear between the grades and between the depths; from 50 MPa on, below 200 mm and beyond 1000 mm " +
      "the end values hold. Grades below those of the table are refused.",
    "What additional reinforcement would allow beyond this is left out, on the safe side; without it the cap of f_ck/4 is never reached.",
  ],
  source: { key: "IS1343:1980", clause: "22.7.1", basis: "memory-medium" },
  params: { h: q.sectionHeight, f_ck: q.cubeStrength, tendons: tensionedTendons, w: crackWidth },
  limits: ({ tendons }) => ({
    f_ck: { min: valueFor(lowestGrade, tendons), because: "where the table begins for these tendons" },
  }),
  result: as(q.tensionLimit, { symbol: "f_t3", text: "hypothetical tension of type 3, a negative number" }),
  steps: {
    near: {
      symbol: "near",
      unit: "–",
      text: "1 for tendons close to the tension face",
      lookup: { of: "tendons", values: isNearFace },
    },
    wide: { symbol: "wide", unit: "–", text: "1 for cracks of 0.2 mm", lookup: { of: "w", values: isWide } },
    any01: {
      symbol: "f_0.1",
      unit: "MPa",
      text: "tendons anywhere, cracks of 0.1 mm",
      lookup: { of: "f_ck", points: anywhere01 },
    },
    any02: {
      symbol: "f_0.2",
      unit: "MPa",
      text: "tendons anywhere, cracks of 0.2 mm",
      lookup: { of: "f_ck", points: anywhere02 },
    },
    near01: {
      symbol: "f_n,0.1",
      unit: "MPa",
      text: "tendons close to the tension face, cracks of 0.1 mm",
      lookup: { of: "f_ck", points: nearFace01 },
    },
    near02: {
      symbol: "f_n,0.2",
      unit: "MPa",
      text: "tendons close to the tension face, cracks of 0.2 mm",
      lookup: { of: "f_ck", points: nearFace02 },
    },
    base: {
      symbol: "f_0",
      unit: "MPa",
      text: "the one that applies",
      equation: "near == 1 ? (wide == 1 ? near02 : near01) : (wide == 1 ? any02 : any01)",
    },
    k_h: { symbol: "k_h", unit: "–", text: "factor of the depth", lookup: { of: "h", points: byDepth } },
    limit: { symbol: "f_t3", unit: "MPa", equation: "-base * k_h" },
  },
  compute: (v) => {
    const near = valueFor(isNearFace, v.tendons),
      wide = valueFor(isWide, v.w);
    const any01 = valueBetween(anywhere01, v.f_ck),
      any02 = valueBetween(anywhere02, v.f_ck),
      near01 = valueBetween(nearFace01, v.f_ck),
      near02 = valueBetween(nearFace02, v.f_ck);
    const base = near === 1 ? (wide === 1 ? near02 : near01) : wide === 1 ? any02 : any01;
    const k_h = valueBetween(byDepth, v.h);
    return { near, wide, any01, any02, near01, near02, base, k_h, limit: -base * k_h };
  },
  empirical: "tables over the strength in MPa and the depth in mm",
  unpublished: "tables from memory; no published result was found",
});
