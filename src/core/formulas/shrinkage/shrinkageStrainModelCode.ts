import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementModelCode } from "../models/choices.ts";

/** β_sc, by group of cement. */
const cementFactor = { SL: 4, N_R: 5, RS: 8 };
const where = "CEB-FIP Model Code 1990 2.1.6.4.2";

/** Shrinkage strain by CEB-FIP Model Code 1990. */
export const shrinkageStrainModelCode1990 = stepwise({
  id: "SHRINKAGE_STRAIN_CEBFIP_1990",
  family: "shrinkage",
  summary: "Shrinkage strain at age t of concrete that dries from the age t_s, by CEB-FIP Model Code 1990, shortening positive, swelling negative",
  notes: ["The model code counts shortening negative; here it is positive.", "From 99 % humidity on the concrete swells.", "Below 40 % humidity it is refused: the model code gives no factor for it.", "Mean value: the coefficient of variation is about 35 %."],
  source: { key: "CEB-FIP:1990", clause: "2.1.6.4.4 (ACI 209.2R-08 A.3.1)", basis: "second-hand", readIn: "ACI209.2R-08" },
  params: {
    f_cm: as(q.concreteMeanStrength, { max: 90, valid: { range: [20, 88], where } }),
    RH: as(q.relativeHumidity, { min: 40 }),
    h: as(q.notionalSize, { symbol: "h" }),
    t_s: q.ageAtEndOfCuring,
    t: as(q.concreteAge, { text: "age of concrete at which shrinkage is wanted" }),
    cement: cementModelCode,
  },
  limits: ({ t_s }) => ({ t: { min: t_s, because: "the end of curing" } }),
  result: as(q.shrinkageStrain, { text: "total shrinkage strain, shortening positive, swelling negative", min: -0.001 }),
  steps: {
    beta_sc: { symbol: "β_sc", unit: "–", text: "factor by group of cement", clause: "(A-56)", lookup: { of: "cement", values: cementFactor } },
    eps_s: { symbol: "ε_s(f_cm)", unit: "–", text: "effect of strength", clause: "(A-56)", equation: "(160 + 10 * beta_sc * (9 - f_cm / 10)) * 1e-6" },
    beta_RH: { symbol: "β_RH", unit: "–", text: "effect of humidity, shortening positive", clause: "(A-57)", equation: "RH < 99 ? 1.55 * (1 - (RH / 100)^3) : -0.25" },
    eps_cs0: { symbol: "ε_cs0", unit: "–", text: "notional shrinkage", clause: "(A-55)", equation: "eps_s * beta_RH" },
    beta_s: { symbol: "β_s(t−t_s)", unit: "–", text: "development with time", clause: "(A-58)", equation: "sqrt((t - t_s) / (350 * (h / 100)^2 + (t - t_s)))" },
    eps: { symbol: "ε_cs", unit: "–", text: "shrinkage strain", clause: "(A-54)", equation: "beta_s * eps_cs0" },
  },
  compute: ({ f_cm, RH, h, t_s, t, cement }) => {
    const beta_sc = valueFor(cementFactor, cement);
    const eps_s = (160 + 10 * beta_sc * (9 - f_cm / 10)) * 1e-6;
    const beta_RH = RH < 99 ? 1.55 * (1 - (RH / 100) ** 3) : -0.25;
    const eps_cs0 = eps_s * beta_RH;
    const beta_s = Math.sqrt((t - t_s) / (350 * (h / 100) ** 2 + (t - t_s)));
    return { beta_sc, eps_s, beta_RH, eps_cs0, beta_s, eps: beta_s * eps_cs0 };
  },
  empirical: "a fit to tests, with strengths in MPa, sizes in mm, ages in days and humidity in per cent",
});
