import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementClass } from "../en1992/choices.ts";
import { classesReadIn } from "../en1992/strengthGain.ts";
import { ageEffect, ageSteps, development, developmentEquation } from "./laws.ts";

const cementExponent = { S: -1, N: 0, R: 1 };

/** Creep coefficient with every step of Annex B.1. */
export const creepCoefficientEn1992 = stepwise({
  id: "CREEP_COEFFICIENT_EN1992_2004",
  family: "creep",
  summary: "Creep coefficient at age t of concrete loaded at age t_0",
  notes: [
    "Takes the mean strength, so that a measured f_cm can be used; otherwise f_cm = f_ck + 8 MPa.",
    "Goes with the tangent modulus E_c = 1.05 E_cm: the creep strain is φ σ_c/E_c.",
    "Linear creep, for stresses up to 0.45 f_ck(t_0); above use the non-linear coefficient.",
    "Relative humidity below 40 % is computed with a warning, outside 0 to 100 % refused.",
    "After heat curing or in cold weather give t_0T; t − t_0 stays the real duration.",
    "Mean value: the coefficient of variation is about 20 %.",
    classesReadIn,
  ],
  source: { key: "EN1992-1-1:2004", clause: "3.1.4, Annex B.1 (B.1–B.9)", basis: "seen", readIn: "CE:2021" },
  params: {
    h_0: q.notionalSize,
    f_cm: q.concreteMeanStrength,
    cement: cementClass,
    RH: as(q.relativeHumidity, { valid: { range: [40, 100], where: "EN 1992-1-1 3.1.4(5)" } }),
    t_0: q.ageAtLoading,
    t: as(q.concreteAge, { text: "age of concrete at which creep is wanted" }),
    t_0T: as(q.temperatureAdjustedAge, {
      // Loads come on years later too.
      typical: [0, 3650],
      symbol: "t_0,T",
      text: "temperature-adjusted age at loading; blank or 0: t_0",
      default: 0,
    }),
  },
  limits: ({ t_0 }) => ({ t: { min: t_0, because: "the age at loading" } }),
  result: q.creepCoefficient,
  steps: {
    alpha_1: { symbol: "α_1", unit: "–", clause: "(B.8c)", equation: "(35 / f_cm)^0.7" },
    alpha_2: { symbol: "α_2", unit: "–", clause: "(B.8c)", equation: "(35 / f_cm)^0.2" },
    alpha_3: { symbol: "α_3", unit: "–", clause: "(B.8c)", equation: "(35 / f_cm)^0.5" },
    phi_RH: {
      symbol: "φ_RH",
      unit: "–",
      text: "effect of humidity",
      clause: "(B.3a), (B.3b)",
      equation:
        "f_cm <= 35 ? 1 + (1 - RH/100) / (0.1 * h_0^(1/3)) : (1 + (1 - RH/100) / (0.1 * h_0^(1/3)) * alpha_1) * alpha_2",
    },
    beta_fcm: {
      symbol: "β(f_cm)",
      unit: "–",
      text: "effect of strength",
      clause: "(B.4)",
      equation: "16.8 / sqrt(f_cm)",
    },
    ...ageSteps(cementExponent, { exponent: "B.1(2)", age: "(B.9)", factor: "(B.5)" }),
    phi_0: {
      symbol: "φ_0",
      unit: "–",
      text: "notional creep coefficient",
      clause: "(B.2)",
      equation: "phi_RH * beta_fcm * beta_t0",
    },
    beta_H: {
      symbol: "β_H",
      unit: "days",
      clause: "(B.8a), (B.8b)",
      equation:
        "f_cm <= 35 ? min(1.5 * (1 + (0.012 * RH)^18) * h_0 + 250, 1500) : min(1.5 * (1 + (0.012 * RH)^18) * " +
        "h_0 + 250 * alpha_3, 1500 * alpha_3)",
    },
    beta_c: {
      symbol: "β_c(t,t_0)",
      unit: "–",
      text: "development with time",
      clause: "(B.7)",
      equation: developmentEquation,
    },
    phi: { symbol: "φ", unit: "–", text: "creep coefficient", clause: "(B.1)", equation: "phi_0 * beta_c" },
  },
  compute: ({ f_cm, RH, h_0, t_0, t, cement, t_0T }) => {
    const alpha_1 = (35 / f_cm) ** 0.7;
    const alpha_2 = (35 / f_cm) ** 0.2;
    const alpha_3 = (35 / f_cm) ** 0.5;
    const dryness = (1 - RH / 100) / (0.1 * h_0 ** (1 / 3));
    const phi_RH = f_cm <= 35 ? 1 + dryness : (1 + dryness * alpha_1) * alpha_2;
    const beta_fcm = 16.8 / Math.sqrt(f_cm);
    const { alpha, t_0adj, beta_t0 } = ageEffect(valueFor(cementExponent, cement), t_0, t_0T);
    const phi_0 = phi_RH * beta_fcm * beta_t0;
    const sizeTerm = 1.5 * (1 + (0.012 * RH) ** 18) * h_0;
    const beta_H = f_cm <= 35 ? Math.min(sizeTerm + 250, 1500) : Math.min(sizeTerm + 250 * alpha_3, 1500 * alpha_3);
    const beta_c = development(beta_H, t, t_0);
    return {
      alpha_1,
      alpha_2,
      alpha_3,
      phi_RH,
      beta_fcm,
      alpha,
      t_0adj,
      beta_t0,
      phi_0,
      beta_H,
      beta_c,
      phi: phi_0 * beta_c,
    };
  },
  empirical: "a fit to tests, with strengths in MPa, sizes in mm, ages in days and humidity in per cent",
});
