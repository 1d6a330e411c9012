import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { relaxationClass } from "../en1992/choices.ts";
import { classConstants, classSteps, equivalentTime, furtherLoss, mostStressed } from "./laws.ts";

/** Relaxation going on after the stress has changed. */
export const relaxationLossStagedEn1992 = stepwise({
  id: "RELAXATION_LOSS_STAGED_EN1992_2004",
  family: "relaxation",
  summary:
    "Further loss of tendon stress by relaxation over a duration, after earlier relaxation and a change of stress, positive",
  notes: [
    "σ_p,i is the stress at the start of the stage; the sum of earlier relaxation is added to it.",
    "The equivalent time is the one in which that stress would have lost as much as has been lost already.",
    "Where nothing but relaxation changes the stress, splitting a stage into several changes nothing.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "Annex D", basis: "seen", readIn: "CE:2021" },
  params: {
    f_pk: q.tendonTensileStrength,
    relaxationClass,
    sigma_pi: as(q.initialTendonStress, { symbol: "σ_p,i", text: "tendon stress at the start of the stage" }),
    earlier: as(q.relaxationLoss, { symbol: "ΣΔσ_pr", text: "sum of relaxation in the stages before" }),
    dt: as(q.timeAfterTensioning, { symbol: "Δt", text: "duration of the stage" }),
    rho_1000: as(q.relaxation1000, {
      text: "relaxation after 1000 h at 20 °C by test; blank or 0: the value of the class",
      default: 0,
    }),
  },
  limits: ({ f_pk, earlier }) => ({
    sigma_pi: { max: f_pk - earlier, because: "the tensile strength, earlier relaxation added" },
  }),
  cautions: ({ sigma_pi, earlier, f_pk }) =>
    sigma_pi + earlier > mostStressed * f_pk
      ? ["σp,i with the earlier relaxation is above 0.95 fpk: the ratio for 0.95 fpk is used, and more may be lost"]
      : [],
  result: q.relaxationLoss,
  steps: {
    ...classSteps,
    S: {
      symbol: "σ_p,i⁺+ΣΔσ_pr",
      unit: "MPa",
      text: "stress with the earlier relaxation added",
      equation: "sigma_pi + earlier",
    },
    mu: {
      symbol: "μ",
      unit: "–",
      text: "that stress over the strength, at most 0.95",
      equation: "min(S / f_pk, 0.95)",
    },
    t_e: {
      symbol: "t_e",
      unit: "h",
      reads: "h",
      text: "equivalent time",
      equation: "earlier > 0 ? 1000 * (earlier / (K * rho * exp(b * mu) * 1e-5 * S))^(1 / (0.75 * (1 - mu))) : 0",
    },
    loss: {
      symbol: "Δσ_pr",
      unit: "MPa",
      text: "further loss, never below 0",
      equation: "max(0, K * rho * exp(b * mu) * ((t_e + dt) / 1000)^(0.75 * (1 - mu)) * 1e-5 * S - earlier)",
    },
  },
  compute: (v) => {
    const { rho_class, K, b, rho } = classConstants(v.relaxationClass, v.rho_1000);
    const S = v.sigma_pi + v.earlier;
    const mu = Math.min(S / v.f_pk, mostStressed);
    const t_e = equivalentTime(K, rho, b, mu, S, v.earlier);
    return { rho_class, K, b, rho, S, mu, t_e, loss: furtherLoss(K, rho, b, mu, S, v.earlier, t_e + v.dt) };
  },
  empirical: "a fit to tests, with the time in hours and ρ_1000 in per cent",
  unpublished: "no published result was found; splitting a stage at constant length is tested",
});
