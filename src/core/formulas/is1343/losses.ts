import { choosing } from "../../choosing.ts";
import { formula, stepwise } from "../../formula.ts";
import { valueBetween, valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { method, surfaceOfDuct, surroundings } from "./choices.ts";
import { creepByAge, relaxationByStress } from "./tables.ts";

const readIn = "IS1343-NOTES";

/** Ultimate creep over elastic strain. */
export const creepCoefficientIs1343 = stepwise({
  id: "CREEP_COEFFICIENT_IS1343_1980",
  family: "creep",
  summary: "Ultimate creep coefficient by the age at loading",
  notes: [
    "The table gives 7 days, 28 days and 1 year; between them linear in the logarithm of the age, which " +
      "is practice, not the standard's rule.",
    "Ages outside 7 to 365 days are refused.",
  ],
  source: { key: "IS1343:1980", clause: "5.2.5.1", basis: "second-hand", readIn },
  params: { age: as(q.ageAtLoading, { symbol: "t_0", text: "age of the concrete at loading", min: 7, max: 365 }) },
  result: as(q.creepCoefficient, { symbol: "θ" }),
  steps: {
    lg: { symbol: "lg t_0", unit: "–", text: "logarithm of the age in days", equation: "log10(age)" },
    theta: { symbol: "θ", unit: "–", text: "from the table, linear between", lookup: { of: "lg", points: creepByAge } },
  },
  compute: ({ age }) => {
    const lg = Math.log10(age);
    return { lg, theta: valueBetween(creepByAge, lg) };
  },
  empirical: "a table by the age in days",
});

/** Loss by creep of the concrete beside the tendon. */
export const creepLossIs1343 = formula({
  id: "CREEP_LOSS_IS1343_1980",
  family: "creep",
  summary: "Loss of tendon stress by creep of the concrete at the tendon, positive under compression",
  notes: [
    "Permanent loads and prestress only. Each change of stress creeps with the coefficient of its own " +
      "age: one call for each, and the sum of them is the loss.",
    "Creep is in proportion to the stress below one third of the cube strength: LINEAR_CREEP_LIMIT_IS1343_1980.",
  ],
  source: { key: "IS1343:1980", clause: "18.5.2.1", basis: "second-hand", readIn },
  params: {
    E_p: q.tendonModulus,
    E_c: q.elasticModulusConcrete,
    theta: as(q.creepCoefficient, { symbol: "θ" }),
    sigma_c: q.concreteStressAtTendon,
  },
  result: as(q.timeDependentLoss, { symbol: "Δσ_c", text: "loss by creep, positive" }),
  equation: "theta * E_p / E_c * sigma_c",
  compute: ({ theta, E_p, E_c, sigma_c }) => ((theta * E_p) / E_c) * sigma_c,
});

const methodPost = { PRE: 0, POST: 1 };
const dryFactor = { NORMAL: 1, DRY: 1.5 };

/** Shrinkage still to come at transfer. */
export const shrinkageStrainIs1343 = stepwise({
  id: "SHRINKAGE_STRAIN_IS1343_1980",
  family: "shrinkage",
  summary: "Shrinkage strain that causes loss, shortening positive",
  notes: [
    "Pre-tensioned 0.0003. Post-tensioned 0.0002/lg(t + 2), t the age at transfer in days.",
    "The increase for dry surroundings is from memory, medium confidence.",
  ],
  source: { key: "IS1343:1980", clause: "5.2.4", basis: "second-hand", readIn },
  params: {
    t: as(q.ageAtLoading, { symbol: "t", text: "age of the concrete at transfer", max: 3650 }),
    method,
    surroundings,
  },
  result: q.shrinkageStrain,
  steps: {
    post: {
      symbol: "post",
      unit: "–",
      text: "1 for post-tensioned, 0 for pre-tensioned",
      lookup: { of: "method", values: methodPost },
    },
    factor: {
      symbol: "c",
      unit: "–",
      text: "factor of the surroundings",
      lookup: { of: "surroundings", values: dryFactor },
    },
    base: {
      symbol: "ε_0",
      unit: "–",
      text: "in normal surroundings",
      equation: "post == 1 ? 0.0002 / log10(t + 2) : 0.0003",
    },
    eps: {
      symbol: "ε_cs",
      unit: "–",
      text: "increased, but not above 0.0003 by that",
      equation: "max(base, min(0.0003, factor * base))",
    },
  },
  compute: (v) => {
    const post = valueFor(methodPost, v.method);
    const factor = valueFor(dryFactor, v.surroundings);
    const base = post === 1 ? 0.0002 / Math.log10(v.t + 2) : 0.0003;
    return { post, factor, base, eps: Math.max(base, Math.min(0.0003, factor * base)) };
  },
  empirical: "a rule with the age in days",
  unpublished: "its published results are recalled, not read",
});

/** Loss by a strain that steel and concrete share. */
export const shrinkageLoss = formula({
  id: "SHRINKAGE_LOSS",
  family: "shrinkage",
  summary: "Loss of tendon stress by a shrinkage strain, steel and concrete shortening together; positive",
  notes: ["The restraint of the steel on the concrete is left out: the component method."],
  source: mechanics,
  params: { E_p: q.tendonModulus, eps_cs: q.shrinkageStrain },
  result: as(q.timeDependentLoss, { symbol: "Δσ_s", text: "loss by shrinkage, positive" }),
  equation: "eps_cs * E_p",
  compute: ({ eps_cs, E_p }) => eps_cs * E_p,
  unpublished: "its published results are recalled, not read",
});

/** Relaxation by table. */
export const relaxationLossIs1343 = stepwise({
  id: "RELAXATION_LOSS_IS1343_1980",
  family: "relaxation",
  summary: "Loss of tendon stress by relaxation from the table for 1000 h at 27 °C, positive",
  notes: [
    "Linear between the table's values. Below half the strength, where the table begins, its zero is held " +
      "with a caution: less stress relaxes less. Above 0.8 of the strength, where it ends, its last value " +
      "is held with a caution: more stress relaxes more.",
    "It stands where the maker gives no tested value. The temperature is from memory.",
  ],
  source: { key: "IS1343:1980", clause: "18.5.2.3 Table 4", basis: "second-hand", readIn },
  params: {
    f_p: as(q.tendonTensileStrength, {
      symbol: "f_p",
      text: "characteristic tensile strength of the prestressing steel",
    }),
    f_pi: as(q.initialTendonStress, { symbol: "f_pi", text: "initial tendon stress" }),
  },
  limits: ({ f_p }) => ({ f_pi: { max: f_p, because: "the tensile strength" } }),
  cautions: ({ f_pi, f_p }) => {
    if (f_pi < 0.5 * f_p) return ["fpi is below half of fp, where the table begins: its zero is held"];
    // Rounding alone must not warn of the jacking limit, which is the end of the table.
    return f_pi > 0.8 * f_p * (1 + 1e-9) ? ["fpi is above 0.8 fp, where the table ends: its last value is held"] : [];
  },
  result: q.relaxationLoss,
  steps: {
    ratio: { symbol: "f_pi/f_p", unit: "–", text: "initial stress over strength", equation: "f_pi / f_p" },
    loss: {
      symbol: "Δσ_r",
      unit: "MPa",
      text: "from the table, linear between",
      lookup: { of: "ratio", points: relaxationByStress },
    },
  },
  compute: ({ f_pi, f_p }) => {
    const ratio = f_pi / f_p;
    return { ratio, loss: valueBetween(relaxationByStress, ratio) };
  },
});

const modulusAtTransfer = as(q.elasticModulusConcrete, {
  text: "modulus of elasticity of the concrete at transfer",
});

/** Elastic shortening by the ratio of moduli. */
const elastic = (
  id: string,
  factor: number,
  summary: string,
  clause: string,
  basis: "second-hand" | "memory-high",
  more: { readonly unpublished?: string } = {},
) =>
  formula({
    id,
    family: "elastic",
    summary,
    ...more,
    source: { key: "IS1343:1980", clause, basis, ...(basis === "second-hand" && { readIn }) },
    params: {
      E_p: q.tendonModulus,
      E_c: modulusAtTransfer,
      sigma_c: q.concreteStressAtTendon,
    },
    result: q.elasticLoss,
    equation: factor === 1 ? "E_p / E_c * sigma_c" : `${factor} * E_p / E_c * sigma_c`,
    compute: ({ E_p, E_c, sigma_c }) => ((factor * E_p) / E_c) * sigma_c,
  });
const preTensioned = elastic(
  "ELASTIC_LOSS_IS1343_1980",
  1,
  "Loss by elastic shortening of a pre-tensioned member from the concrete stress at the tendon, positive under compression",
  "18.5.2.4",
  "second-hand",
);
const postTensioned = elastic(
  "ELASTIC_LOSS_IS1343_1980",
  0.5,
  "Mean loss by elastic shortening of tendons stressed one after another: half the ratio of moduli " +
    "times the concrete stress, positive under compression",
  "18.5.2.4",
  "memory-high",
  { unpublished: "one product; the one result found is recalled and takes the exact mean over three tendons" },
);

export const elasticLossIs1343 = choosing({
  id: "ELASTIC_LOSS_IS1343_1980",
  family: "elastic",
  summary: "Loss by elastic shortening from the concrete stress at the tendon, positive under compression",
  by: { method },
  as: { PRE: preTensioned, POST: postTensioned },
  order: ["E_p", "E_c", "sigma_c", "method"],
});

const coefficients = { CONCRETE: 0.55, STEEL: 0.3, LEAD: 0.25 };

/** Friction between tendon and duct. */
export const frictionCoefficientIs1343 = stepwise({
  id: "FRICTION_COEFFICIENT_IS1343_1980",
  family: "friction",
  summary: "Friction coefficient for the tendon and duct surface, where no tests are at hand",
  source: { key: "IS1343:1980", clause: "18.5.2.6", basis: "memory-high" },
  params: { surface: surfaceOfDuct },
  result: q.frictionCoefficient,
  steps: {
    mu: { symbol: "μ", unit: "1/rad", text: "of the surfaces", lookup: { of: "surface", values: coefficients } },
  },
  compute: (v) => ({ mu: valueFor(coefficients, v.surface) }),
  unpublished: "three table values, from memory",
});
