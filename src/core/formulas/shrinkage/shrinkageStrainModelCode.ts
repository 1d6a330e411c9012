import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementModelCode } from "../models/choices.ts";

/** β_sc, by group of cement. */
const cementFactor = { SL: 4, N_R: 5, RS: 8 };
const where = "CEB-FIP Model Code 1990 2.1.6.4.2";

const params = {
  h: as(q.notionalSize, { symbol: "h" }),
  f_cm: as(q.concreteMeanStrength, { max: 90, valid: { range: [20, 88], where } }),
  cement: cementModelCode,
  RH: as(q.relativeHumidity, { min: 40 }),
  t_s: q.ageAtEndOfCuring,
  t: as(q.concreteAge, { text: "age of concrete at which shrinkage is wanted" }),
} as const;
const result = as(q.shrinkageStrain, {
  text: "total shrinkage strain, shortening positive, swelling negative",
  min: -0.001,
});
const signs = [
  "The model code counts shortening negative; here it is positive.",
  "Below 40 % humidity it is refused: the model code gives no factor for it.",
  "Mean value: the coefficient of variation is about 35 %.",
];
const empirical = "a fit to tests, with strengths in MPa, sizes in mm, ages in days and humidity in per cent";

/** Drying with time, alike in both editions. */
const dryingTime = {
  symbol: "β_s(t−t_s)",
  unit: "–",
  text: "development of drying with time",
  equation: "sqrt((t - t_s) / (350 * (h / 100)^2 + (t - t_s)))",
} as const;
const dried = (h: number, t: number, t_s: number): number => Math.sqrt((t - t_s) / (350 * (h / 100) ** 2 + (t - t_s)));

/** Shrinkage strain by CEB-FIP Model Code 1990. */
export const shrinkageStrainModelCode1990 = stepwise({
  id: "SHRINKAGE_STRAIN_CEBFIP_1990",
  family: "shrinkage",
  summary:
    "Shrinkage strain at age t of concrete that dries from the age t_s, by CEB-FIP Model Code 1990, shortening positive, swelling negative",
  notes: [...signs, "From 99 % humidity on the concrete swells."],
  source: {
    key: "CEB-FIP:1990",
    clause: "2.1.6.4.4 (ACI 209.2R-08 A.3.1)",
    basis: "second-hand",
    readIn: "ACI209.2R-08",
  },
  params,
  limits: ({ t_s }) => ({ t: { min: t_s, because: "the end of curing" } }),
  result,
  steps: {
    beta_sc: {
      symbol: "β_sc",
      unit: "–",
      text: "factor by group of cement",
      clause: "(A-56)",
      lookup: { of: "cement", values: cementFactor },
    },
    eps_s: {
      symbol: "ε_s(f_cm)",
      unit: "–",
      text: "effect of strength",
      clause: "(A-56)",
      equation: "(160 + 10 * beta_sc * (9 - f_cm / 10)) * 1e-6",
    },
    beta_RH: {
      symbol: "β_RH",
      unit: "–",
      text: "effect of humidity, shortening positive",
      clause: "(A-57)",
      equation: "RH < 99 ? 1.55 * (1 - (RH / 100)^3) : -0.25",
    },
    eps_cs0: { symbol: "ε_cs0", unit: "–", text: "notional shrinkage", clause: "(A-55)", equation: "eps_s * beta_RH" },
    beta_s: { ...dryingTime, clause: "(A-58)" },
    eps: { symbol: "ε_cs", unit: "–", text: "shrinkage strain", clause: "(A-54)", equation: "beta_s * eps_cs0" },
  },
  compute: ({ f_cm, RH, h, t_s, t, cement }) => {
    const beta_sc = valueFor(cementFactor, cement);
    const eps_s = (160 + 10 * beta_sc * (9 - f_cm / 10)) * 1e-6;
    const beta_RH = RH < 99 ? 1.55 * (1 - (RH / 100) ** 3) : -0.25;
    const eps_cs0 = eps_s * beta_RH;
    const beta_s = dried(h, t, t_s);
    return { beta_sc, eps_s, beta_RH, eps_cs0, beta_s, eps: beta_s * eps_cs0 };
  },
  empirical,
});

/** α_as, α_ds1 and α_ds2 of the update, by group of cement. */
const ownFactor = { SL: 800, N_R: 700, RS: 600 };
const dryingFactor = { SL: 3, N_R: 4, RS: 6 };
const dryingDecay = { SL: 0.13, N_R: 0.12, RS: 0.12 };

/** Shrinkage strain by CEB-FIP Model Code 1990 as updated in 1999: autogenous and drying apart. */
export const shrinkageStrainModelCode1999 = stepwise({
  id: "SHRINKAGE_STRAIN_CEBFIP_1999",
  family: "shrinkage",
  summary:
    "Shrinkage strain at age t, autogenous and drying from the age t_s, by CEB-FIP Model Code 1990 as " +
    "updated in 1999, shortening positive, swelling negative",
  notes: [
    ...signs,
    "Autogenous shrinkage counts from casting, drying from the end of curing; what happened before " +
      "stressing is to be taken off for losses.",
    "From 99 % humidity on, less for strengths above 35 MPa, drying turns into swelling.",
    "Drying read in the numeric example of ACI 209.2R-08; the numbers of the autogenous part and of " +
      "cements other than normal are from memory.",
  ],
  source: { key: "CEB-FIP:1999", clause: "ACI 209.2R-08 A.3.2", basis: "second-hand", readIn: "ACI209.2R-08" },
  params,
  limits: ({ t_s }) => ({ t: { min: t_s, because: "the end of curing" } }),
  result,
  steps: {
    alpha_as: {
      symbol: "α_as",
      unit: "–",
      text: "factor by group of cement",
      lookup: { of: "cement", values: ownFactor },
    },
    eps_cas0: {
      symbol: "ε_cas0",
      unit: "–",
      text: "notional autogenous shrinkage",
      equation: "alpha_as * ((f_cm / 10) / (6 + f_cm / 10))^2.5 * 1e-6",
    },
    beta_as: {
      symbol: "β_as(t)",
      unit: "–",
      text: "development of the autogenous part",
      equation: "1 - exp(-0.2 * sqrt(t))",
    },
    eps_cas: { symbol: "ε_cas", unit: "–", text: "autogenous shrinkage", equation: "eps_cas0 * beta_as" },
    alpha_ds1: {
      symbol: "α_ds1",
      unit: "–",
      text: "factor by group of cement",
      clause: "(A-66)",
      lookup: { of: "cement", values: dryingFactor },
    },
    alpha_ds2: {
      symbol: "α_ds2",
      unit: "–",
      text: "factor by group of cement",
      clause: "(A-66)",
      lookup: { of: "cement", values: dryingDecay },
    },
    eps_cds0: {
      symbol: "ε_cds0",
      unit: "–",
      text: "notional drying shrinkage",
      clause: "(A-66)",
      equation: "(220 + 110 * alpha_ds1) * exp(-alpha_ds2 * f_cm / 10) * 1e-6",
    },
    beta_s1: {
      symbol: "β_s1",
      unit: "–",
      text: "effect of strength on the humidity where swelling begins",
      clause: "(A-69)",
      equation: "min((35 / f_cm)^0.1, 1)",
    },
    beta_RH: {
      symbol: "β_RH",
      unit: "–",
      text: "effect of humidity, shortening positive",
      clause: "(A-67)",
      equation: "RH < 99 * beta_s1 ? 1.55 * (1 - (RH / 100)^3) : -0.25",
    },
    beta_s: { ...dryingTime, clause: "(A-68)" },
    eps_cds: {
      symbol: "ε_cds",
      unit: "–",
      text: "drying shrinkage",
      clause: "(A-65)",
      equation: "eps_cds0 * beta_RH * beta_s",
    },
    eps: { symbol: "ε_cs", unit: "–", text: "shrinkage strain", clause: "(A-61)", equation: "eps_cas + eps_cds" },
  },
  compute: ({ f_cm, RH, h, t_s, t, cement }) => {
    const alpha_as = valueFor(ownFactor, cement),
      alpha_ds1 = valueFor(dryingFactor, cement),
      alpha_ds2 = valueFor(dryingDecay, cement);
    const eps_cas0 = alpha_as * (f_cm / 10 / (6 + f_cm / 10)) ** 2.5 * 1e-6;
    const beta_as = 1 - Math.exp(-0.2 * Math.sqrt(t));
    const eps_cas = eps_cas0 * beta_as;
    const eps_cds0 = (220 + 110 * alpha_ds1) * Math.exp((-alpha_ds2 * f_cm) / 10) * 1e-6;
    const beta_s1 = Math.min((35 / f_cm) ** 0.1, 1);
    const beta_RH = RH < 99 * beta_s1 ? 1.55 * (1 - (RH / 100) ** 3) : -0.25;
    const beta_s = dried(h, t, t_s);
    const eps_cds = eps_cds0 * beta_RH * beta_s;
    return {
      alpha_as,
      eps_cas0,
      beta_as,
      eps_cas,
      alpha_ds1,
      alpha_ds2,
      eps_cds0,
      beta_s1,
      beta_RH,
      beta_s,
      eps_cds,
      eps: eps_cas + eps_cds,
    };
  },
  empirical,
});
