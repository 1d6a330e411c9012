import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { relaxationDivisor } from "../models/choices.ts";

const divisors = { 45: 45, 40: 40, 10: 10 };

/** Relaxation that grows with the logarithm of time. */
export const relaxationLossIntrinsic = stepwise({
  id: "RELAXATION_LOSS_INTRINSIC",
  family: "relaxation",
  summary:
    "Loss of tendon stress by relaxation at constant strain between two times after tensioning, by the logarithmic law, positive",
  notes: [
    "Works disagree on the divisor for low relaxation: 45 or 40, which gives an eighth more; the choice is the engineer's.",
    "f_py is the stress at 1 % extension: 0.90 of the strength for low relaxation, 0.85 for stress-relieved steel.",
    "Below 0.55 f_py the law gives no loss and is refused, since it does not reach there; f_pi above f_py is refused.",
    "Time in hours, from 1 hour on. Shortening of the concrete reduces the loss, which is not counted.",
  ],
  source: { key: "PCI:1975", clause: "2.7", basis: "memory-high" },
  params: {
    f_py: q.tendonYieldStress,
    D: relaxationDivisor,
    f_pi: as(q.initialTendonStress, { symbol: "f_pi" }),
    t_2: as(q.timeAfterTensioning, { symbol: "t_2", text: "time after tensioning at the end", min: 1 }),
    t_1: as(q.timeAfterTensioning, {
      symbol: "t_1",
      text: "time after tensioning at the beginning",
      min: 1,
      default: 1,
    }),
  },
  limits: ({ f_py, t_2 }) => ({
    f_pi: {
      min: 0.55 * f_py,
      max: f_py,
      because: "0.55 of the yield stress, where the law begins, to the yield stress",
    },
    t_1: { max: t_2, because: "the time at the end" },
  }),
  result: q.relaxationLoss,
  steps: {
    K: { symbol: "K", unit: "–", text: "divisor", lookup: { of: "D", values: divisors } },
    decades: { symbol: "lg(t_2/t_1)", unit: "–", text: "decades of time", equation: "log10(t_2 / t_1)" },
    loss: {
      symbol: "Δσ_pr",
      unit: "MPa",
      text: "loss of stress",
      equation: "f_pi * decades / K * (f_pi / f_py - 0.55)",
    },
  },
  compute: ({ f_pi, f_py, D, t_2, t_1 }) => {
    const K = valueFor(divisors, D);
    const decades = Math.log10(t_2 / t_1);
    return { K, decades, loss: ((f_pi * decades) / K) * (f_pi / f_py - 0.55) };
  },
  empirical: "a fit to tests, with times in hours",
  unpublished: "no published result was found; split in time and the ratio of the two divisors are tested",
});
