import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { relaxationClass } from "../en1992/choices.ts";
import { classConstants, classSteps, mostStressed, relaxationRatio } from "./laws.ts";

/** Loss of stress at constant strain, at any time. */
export const relaxationLossEn1992 = stepwise({
  id: "RELAXATION_LOSS_EN1992_2004",
  family: "relaxation",
  summary: "Loss of tendon stress by relaxation at constant strain, t hours after tensioning, positive",
  notes: [
    "Starts from σ_pi: post-tensioned the stress after immediate losses, pre-tensioned the jacking stress " +
      "less the losses during stressing.",
    "Time in hours; 500 000 h stands for the final value (3.3.2(8)).",
    "Constant strain: shortening of the concrete reduces it, which the combined loss counts by the factor 0.8.",
    "At 20 °C; near 50 °C and above relaxation is greater.",
    "σ_pi above f_pk is refused. Above 0.95 f_pk the ratio for 0.95 f_pk is used. Below 0.5 and above 0.8 " +
      "f_pk there is a caution: tests are usual at 0.6 to 0.8.",
    "Form and class 2 as read; class 1 read as a quotation; the constants of class 3 are from memory, and Annex D prints 9.09 for class 2.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "3.3.2(7) (3.28–3.30)", basis: "second-hand", readIn: "CE:2021" },
  params: {
    f_pk: q.tendonTensileStrength,
    relaxationClass,
    sigma_pi: q.initialTendonStress,
    t: as(q.timeAfterTensioning, { default: 500000 }),
    rho_1000: as(q.relaxation1000, {
      text: "relaxation after 1000 h at 20 °C by test; blank or 0: the value of the class",
      default: 0,
    }),
  },
  limits: ({ f_pk }) => ({ sigma_pi: { max: f_pk, because: "the tensile strength" } }),
  cautions: ({ sigma_pi, f_pk }) => {
    const mu = sigma_pi / f_pk;
    if (mu > mostStressed) return ["σpi is above 0.95 fpk: the ratio for 0.95 fpk is used, and more may be lost"];
    if (mu > 0.8) return ["σpi is above 0.8 fpk, beyond the usual tests of relaxation"];
    if (mu > 0 && mu < 0.5) return ["σpi is below 0.5 fpk, where relaxation is small and usual tests do not reach"];
    return [];
  },
  result: q.relaxationLoss,
  steps: {
    ...classSteps,
    mu: {
      symbol: "μ",
      unit: "–",
      text: "initial stress over strength, at most 0.95",
      clause: "3.3.2(7)",
      equation: "min(sigma_pi / f_pk, 0.95)",
    },
    ratio: {
      symbol: "Δσ_pr/σ_pi",
      unit: "–",
      text: "loss over initial stress",
      clause: "(3.28)–(3.30)",
      equation: "K * rho * exp(b * mu) * (t / 1000)^(0.75 * (1 - mu)) * 1e-5",
    },
    loss: { symbol: "Δσ_pr", unit: "MPa", text: "loss of stress", equation: "ratio * sigma_pi" },
  },
  compute: (v) => {
    const { rho_class, K, b, rho } = classConstants(v.relaxationClass, v.rho_1000);
    const mu = Math.min(v.sigma_pi / v.f_pk, mostStressed);
    const ratio = relaxationRatio(K, rho, b, mu, v.t);
    return { rho_class, K, b, rho, mu, ratio, loss: ratio * v.sigma_pi };
  },
  empirical: "a fit to tests, with the time in hours and ρ_1000 in per cent",
  unpublished: "no published result was found; recomputed by hand for each class",
});
