import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Creep coefficient for a high sustained stress. */
export const nonlinearCreepCoefficientEn1992 = stepwise({
  id: "NONLINEAR_CREEP_COEFFICIENT_EN1992_2004",
  family: "creep",
  summary: "Creep coefficient for a sustained compression above 0.45 f_ck(t_0); below it the linear coefficient stays",
  notes: [
    "k_σ refers to the characteristic strength at t_0, as corrigendum AC:2008 has it; the print of 2004 had the mean strength.",
    "For losses the stress is that of the concrete at tendon level, which the clause names.",
    "Beyond 0.6 f_ck(t_0) it is computed with a caution.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "3.1.4(4) (3.7)", basis: "seen", readIn: "CE:2021" },
  params: {
    f_ckt0: as(q.concreteStrengthAtAge, { min: 1 }),
    phi: q.creepCoefficient,
    sigma_c: q.sustainedConcreteStress,
  },
  limits: ({ f_ckt0 }) => ({
    sigma_c: { max: f_ckt0, because: "the strength at loading: concrete crushes there" },
  }),
  result: as(q.creepCoefficient, { symbol: "φ_nl", text: "creep coefficient with the factor for high stress" }),
  steps: {
    k_sigma: {
      symbol: "k_σ",
      unit: "–",
      text: "stress over strength at t_0",
      clause: "3.1.4(4)",
      equation: "sigma_c / f_ckt0",
    },
    phi_nl: {
      symbol: "φ_nl",
      unit: "–",
      clause: "(3.7)",
      equation: "k_sigma > 0.45 ? phi * exp(1.5 * (k_sigma - 0.45)) : phi",
    },
  },
  compute: ({ phi, sigma_c, f_ckt0 }) => {
    const k_sigma = sigma_c / f_ckt0;
    return { k_sigma, phi_nl: k_sigma > 0.45 ? phi * Math.exp(1.5 * (k_sigma - 0.45)) : phi };
  },
  cautions: ({ sigma_c, f_ckt0 }) =>
    sigma_c > 0.6 * f_ckt0 ? ["σc is above 0.6 fck(t0), the most that EN 1992-1-1 5.10.2.2(5) allows at transfer"] : [],
  unpublished: "no published result was found; at 0.45 f_ck(t_0) both branches meet, which the tests check",
});
