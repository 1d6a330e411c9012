import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementModelCode } from "../models/choices.ts";
import { ageEffect, ageSteps, development, developmentEquation } from "./laws.ts";

const cementExponent = { SL: -1, N_R: 0, RS: 1 };
const valid = (range: readonly [number, number], clause: string) => ({
  valid: { range, where: `CEB-FIP Model Code 1990 ${clause}` },
});

const params = {
  h: as(q.notionalSize, { symbol: "h" }),
  f_cm: as(q.concreteMeanStrength, valid([20, 88], "2.1.6.4.2")),
  cement: cementModelCode,
  RH: as(q.relativeHumidity, valid([40, 100], "2.1.6.4.2")),
  t_0: q.ageAtLoading,
  t: as(q.concreteAge, { text: "age of concrete at which creep is wanted" }),
  t_0T: as(q.temperatureAdjustedAge, {
    symbol: "t_0,T",
    text: "temperature-adjusted age at loading; blank or 0: t_0",
    default: 0,
  }),
} as const;

const common = [
  "Goes with the tangent modulus at 28 days; linear creep, for stresses up to 0.4 f_cm(t_0).",
  "Adjusted age, effect of the age at loading and development with time are those of EN 1992-1-1 Annex B, which took them over.",
  "After heat curing or in cold weather give t_0T; t − t_0 stays the real duration.",
  "Mean value: the coefficient of variation is about 20 %.",
];

/** What stands alike in both editions, around φ_RH and β_H. */
const humidity = { symbol: "φ_RH", unit: "–", text: "effect of humidity and size" } as const;
const strength = {
  beta_fcm: { symbol: "β(f_cm)", unit: "–", text: "effect of strength", equation: "5.3 / sqrt(f_cm / 10)" },
} as const;
const notional = {
  phi_0: { symbol: "φ_0", unit: "–", text: "notional creep coefficient", equation: "phi_RH * beta_fcm * beta_t0" },
} as const;
const last = {
  beta_c: { symbol: "β_c(t−t_0)", unit: "–", text: "development with time", equation: developmentEquation },
  phi: { symbol: "φ", unit: "–", text: "creep coefficient", equation: "phi_0 * beta_c" },
} as const;
const sizeTime = (RH: number, h: number): number => 150 * (1 + (0.012 * RH) ** 18) * (h / 100);
const empirical = "a fit to tests, with strengths in MPa, sizes in mm, ages in days and humidity in per cent";

/** Creep coefficient by CEB-FIP Model Code 1990. */
export const creepCoefficientModelCode1990 = stepwise({
  id: "CREEP_COEFFICIENT_CEBFIP_1990",
  family: "creep",
  summary: "Creep coefficient at age t of concrete loaded at age t_0, by CEB-FIP Model Code 1990",
  notes: [
    ...common,
    "The equations are from memory; they give 29 of the 30 values recalled of Table 2.1.10 (f_cm 38 MPa).",
  ],
  source: { key: "CEB-FIP:1990", clause: "2.1.6.4.3", basis: "memory-high" },
  params,
  limits: ({ t_0 }) => ({ t: { min: t_0, because: "the age at loading" } }),
  result: q.creepCoefficient,
  steps: {
    phi_RH: { ...humidity, equation: "1 + (1 - RH / 100) / (0.46 * (h / 100)^(1/3))" },
    ...strength,
    ...ageSteps(cementExponent, {}),
    ...notional,
    beta_H: { symbol: "β_H", unit: "days", equation: "min(150 * (1 + (0.012 * RH)^18) * (h / 100) + 250, 1500)" },
    ...last,
  },
  compute: ({ f_cm, RH, h, t_0, t, cement, t_0T }) => {
    const phi_RH = 1 + (1 - RH / 100) / (0.46 * (h / 100) ** (1 / 3));
    const beta_fcm = 5.3 / Math.sqrt(f_cm / 10);
    const age = ageEffect(valueFor(cementExponent, cement), t_0, t_0T);
    const phi_0 = phi_RH * beta_fcm * age.beta_t0;
    const beta_H = Math.min(sizeTime(RH, h) + 250, 1500);
    const beta_c = development(beta_H, t, t_0);
    return { phi_RH, beta_fcm, ...age, phi_0, beta_H, beta_c, phi: phi_0 * beta_c };
  },
  empirical,
  unpublished:
    "its tables are recalled, not read; the edition of 1999, which shares all but two steps, has a published result",
});

/** Creep coefficient by CEB-FIP Model Code 1990 as updated in 1999, for high strength too. */
export const creepCoefficientModelCode1999 = stepwise({
  id: "CREEP_COEFFICIENT_CEBFIP_1999",
  family: "creep",
  summary: "Creep coefficient at age t of concrete loaded at age t_0, by CEB-FIP Model Code 1990 as updated in 1999",
  notes: [
    ...common,
    "The update brings the factors of strength α_1 to α_3; they apply below 35 MPa too, where EN 1992-1-1 leaves them out.",
    "Read in the numeric example of ACI 209.2R-08; the equations of steps that its page does not print are from memory.",
  ],
  source: { key: "CEB-FIP:1999", clause: "ACI 209.2R-08 A.3.3", basis: "second-hand", readIn: "ACI209.2R-08" },
  params,
  limits: ({ t_0 }) => ({ t: { min: t_0, because: "the age at loading" } }),
  result: q.creepCoefficient,
  steps: {
    alpha_1: { symbol: "α_1", unit: "–", text: "effect of strength", equation: "(35 / f_cm)^0.7" },
    alpha_2: { symbol: "α_2", unit: "–", text: "effect of strength", equation: "(35 / f_cm)^0.2" },
    alpha_3: { symbol: "α_3", unit: "–", text: "effect of strength", equation: "(35 / f_cm)^0.5" },
    phi_RH: { ...humidity, equation: "(1 + (1 - RH / 100) / (0.1 * h^(1/3)) * alpha_1) * alpha_2" },
    ...strength,
    ...ageSteps(cementExponent, {}),
    ...notional,
    beta_H: {
      symbol: "β_H",
      unit: "days",
      equation: "min(150 * (1 + (0.012 * RH)^18) * (h / 100) + 250 * alpha_3, 1500 * alpha_3)",
    },
    ...last,
  },
  compute: ({ f_cm, RH, h, t_0, t, cement, t_0T }) => {
    const alpha_1 = (35 / f_cm) ** 0.7,
      alpha_2 = (35 / f_cm) ** 0.2,
      alpha_3 = (35 / f_cm) ** 0.5;
    const phi_RH = (1 + ((1 - RH / 100) / (0.1 * h ** (1 / 3))) * alpha_1) * alpha_2;
    const beta_fcm = 5.3 / Math.sqrt(f_cm / 10);
    const age = ageEffect(valueFor(cementExponent, cement), t_0, t_0T);
    const phi_0 = phi_RH * beta_fcm * age.beta_t0;
    const beta_H = Math.min(sizeTime(RH, h) + 250 * alpha_3, 1500 * alpha_3);
    const beta_c = development(beta_H, t, t_0);
    return { alpha_1, alpha_2, alpha_3, phi_RH, beta_fcm, ...age, phi_0, beta_H, beta_c, phi: phi_0 * beta_c };
  },
  empirical,
});
