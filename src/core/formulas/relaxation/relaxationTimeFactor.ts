import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { relaxationKind } from "../models/choices.ts";

/** Of time, by kind of steel. */
export const relaxationExponents = { NORMAL: 0.12, LOW: 0.19 };

/** From the test of 1000 hours to any time. */
export const relaxationTimeFactor = stepwise({
  id: "RELAXATION_TIME_FACTOR_CEBFIP_1990",
  family: "relaxation",
  summary: "Relaxation after t hours over relaxation after 1000 hours, at constant strain",
  notes: [
    "Multiply the relaxation found for 1000 h by it.",
    "500 000 h usually stand for the final value: 2.11 times for normal, 3.26 times for low relaxation.",
    "Times below 1 h are refused.",
  ],
  source: { key: "CEB-FIP:1990", clause: "2.3.4.5", basis: "second-hand", readIn: "IS1343-NOTES" },
  params: { steel: relaxationKind, t: as(q.timeAfterTensioning, { min: 1 }) },
  result: q.relaxationTimeFactor,
  steps: {
    k: {
      symbol: "k",
      unit: "–",
      text: "exponent by kind of steel",
      lookup: { of: "steel", values: relaxationExponents },
    },
    factor: { symbol: "ρ_t/ρ_1000", unit: "–", equation: "(t / 1000)^k" },
  },
  compute: ({ t, steel }) => {
    const k = valueFor(relaxationExponents, steel);
    return { k, factor: (t / 1000) ** k };
  },
  empirical: "a fit to tests: 1000 stands for 1000 h",
});
