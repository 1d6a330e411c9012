import { choosing } from "../../choosing.ts";
import { cautions } from "../../cautions.ts";
import { formula, stepwise } from "../../formula.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

const source = { key: "EN1992-1-1:2004", clause: "5.10.2.2(4)", basis: "seen", readIn: "CE:2021" } as const;
const factors = {
  k_4: as(q.nationalFactor, {
    symbol: "k_4",
    text: "part of the strength for full stressing from which a tendon may be stressed; nationally determined, 5.10.2.2(4) recommends 0.5",
    above: 0,
    max: 0.99,
    default: 0.5,
  }),
  k_5: as(q.nationalFactor, {
    symbol: "k_5",
    text: "part of the force allowed there; nationally determined, 5.10.2.2(4) recommends 0.3",
    above: 0,
    max: 0.99,
    default: 0.3,
  }),
};
const notes = [
  "For a tendon that is stressed in steps. The strength for full stressing comes from the technical approval of the anchorage.",
  "Linear between k_4 of the strength with k_5 of the force, and both in full.",
  cautions.stressing,
];

/** How much of the force may the young concrete bear? */
const allowedForce = stepwise({
  id: "PARTIAL_FORCE_EN1992_2004",
  family: "limits",
  summary: "Part of a tendon's full force that may be applied at the strength the concrete has, 0 to 1",
  notes: [...notes, "Below k_4 of the strength no stressing is allowed: it is refused."],
  source,
  params: {
    f_cmt: as(q.concreteMeanStrengthAtAge, { text: "mean cylinder strength of the concrete at the time of stressing" }),
    f_full: q.fullStressingStrength,
    ...factors,
  },
  limits: ({ f_full, k_4 }) => ({
    f_cmt: {
      min: k_4 * f_full,
      because: "k_4 of the strength for full stressing, below which no tendon may be stressed",
    },
  }),
  result: q.partialForce,
  steps: {
    ratio: {
      symbol: "f/f_full",
      unit: "–",
      text: "strength over that for full stressing",
      equation: "min(f_cmt / f_full, 1)",
    },
    share: { symbol: "P/P_full", unit: "–", equation: "k_5 + (1 - k_5) * (ratio - k_4) / (1 - k_4)" },
  },
  compute: ({ f_cmt, f_full, k_4, k_5 }) => {
    const ratio = Math.min(f_cmt / f_full, 1);
    return { ratio, share: k_5 + ((1 - k_5) * (ratio - k_4)) / (1 - k_4) };
  },
  unpublished: "a straight line between two values; no published result was found",
});

/** How strong must the concrete be for a step? */
const strengthNeeded = formula({
  id: "PARTIAL_FORCE_EN1992_2004",
  family: "limits",
  summary: "Least mean strength of the concrete for a step of stressing, from the part of the full force",
  notes: [...notes, "Steps up to k_5 of the force need k_4 of the strength."],
  source,
  params: { share: q.partialForce, f_full: q.fullStressingStrength, ...factors },
  result: as(q.concreteMeanStrengthAtAge, { symbol: "f_cm,min", text: "least mean cylinder strength at stressing" }),
  equation: "f_full * (k_4 + (1 - k_4) * max(share - k_5, 0) / (1 - k_5))",
  compute: ({ share, f_full, k_4, k_5 }) => f_full * (k_4 + ((1 - k_4) * Math.max(share - k_5, 0)) / (1 - k_5)),
  unpublished: "a straight line between two values; no published result was found",
});

/** Stressing in steps, either way round. */
export const partialForceEn1992 = choosing({
  id: "PARTIAL_FORCE_EN1992_2004",
  family: "limits",
  summary:
    "Part of a tendon's force allowed at a strength of the concrete, or the strength needed for a part of the force",
  by: {
    result: choice({
      key: "partialForceResult",
      symbol: "result",
      text: "what is wanted",
      values: [
        { value: "FORCE", text: "part of the full force, at the strength f_cm(t)" },
        { value: "STRENGTH", text: "strength in MPa needed for the part P/P_full" },
      ],
    }),
  },
  as: { FORCE: allowedForce, STRENGTH: strengthNeeded },
  order: ["f_full", "result", "f_cmt", "share", "k_4", "k_5"],
  result: q.partialResult,
});

/** Where friction turns out greater than expected. */
export const overstressLimitEn1992 = formula({
  id: "TENDON_STRESS_LIMIT_EN1992_2004",
  family: "limits",
  summary: "Greatest tendon stress at the jack while overstressing",
  notes: [
    "Only where the force at the jack can be measured to ±5 % of its final value, and only then above the " +
      "limit of JACKING: when friction is unexpectedly high in long tendons, for instance.",
    "k_3 is nationally determined and was not read; 0.95 is the recommended value from memory and another " +
      "edition. National texts and the approval of the anchorage may forbid overstressing.",
    cautions.stressing,
  ],
  source: { key: "EN1992-1-1:2004", clause: "5.10.2.1(2)", basis: "memory-high" },
  params: {
    f_p01k: q.tendonProofStress,
    k_p01k: as(q.nationalFactor, {
      symbol: "k_3",
      text: "factor on f_p0.1k; nationally determined, 5.10.2.1(2) recommends 0.95",
      default: 0.95,
    }),
  },
  result: q.tendonStressLimit,
  equation: "k_p01k * f_p01k",
  compute: ({ f_p01k, k_p01k }) => k_p01k * f_p01k,
  unpublished: "one product; no published result was found",
});
