import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as, choice, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { cementClass } from "../en1992/choices.ts";
import { ageFactor, ageFactorSteps, classesReadIn, daysCounted, strengthGain } from "../en1992/strengthGain.ts";

/**
 * Concrete gains strength by more or less than the everyday curve: beyond so much above it the strength is doubted.
 * Common practice, no source.
 */
const doubted = 1.1;

const result = as(q.utilisation, { symbol: "η_t", text: "strength required over the strength expected at the age" });
const age = as(q.strengthAge, {
  text: "age at transfer or release; with heat curing the temperature-adjusted age",
});
const proof =
  "Only tests prove the strength at transfer or release; this says whether the mix can be expected to reach it.";

const doubt = (symbol: string, required: number, expected: number, t: number): string =>
  `${symbol} = ${format(required)} MPa is required, but ` +
  `${expected > 0 ? `only about ${format(Number(expected.toPrecision(3)))} MPa` : "hardly any strength"} ` +
  `can be expected at an age of ${format(Number(t.toPrecision(3)))} ${t === 1 ? "day" : "days"}: ` +
  "release later, cure with heat or take a stronger concrete";

/** Whether a cylinder strength can be expected at the age at which it is required. */
export const strengthRequiredEn1992 = stepwise({
  id: "STRENGTH_REQUIRED_RATIO_EN1992_2004",
  family: "materials",
  summary: "Mean strength that goes with a strength required, over the mean strength expected at that age",
  notes: [
    proof,
    "Both with 8 MPa between characteristic and mean strength. From 28 days on no further gain is counted.",
    classesReadIn,
  ],
  source: { key: "EN1992-1-1:2004", clause: "3.1.2(6) (3.1, 3.2)", basis: "seen", readIn: "CE:2021" },
  params: {
    f_ckt: as(q.concreteStrengthAtAge, { text: "cylinder strength required at that age" }),
    f_ck: q.concreteStrength,
    cement: cementClass,
    t: age,
  },
  cautions: ({ f_ckt, f_ck, t, cement }) => {
    const mean = Math.min(ageFactor(valueFor(strengthGain, cement), t), 1) * (f_ck + 8);
    return f_ckt + 8 > doubted * mean ? [doubt("f_ck,t", f_ckt, mean - 8, t)] : [];
  },
  result,
  steps: {
    ...ageFactorSteps,
    expected: { symbol: "f_cm(t)", unit: "MPa", clause: "(3.1)", equation: "min(beta_cc, 1) * (f_ck + 8)" },
    ratio: { symbol: "η_t", unit: "–", equation: "(f_ckt + 8) / expected" },
  },
  compute: ({ f_ckt, f_ck, t, cement }) => {
    const s = valueFor(strengthGain, cement);
    const beta_cc = ageFactor(s, t);
    const expected = Math.min(beta_cc, 1) * (f_ck + 8);
    return { s, beta_cc, expected, ratio: (f_ckt + 8) / expected };
  },
  empirical: "8 stands for 8 MPa, 28 for 28 days",
  unpublished: "CONCRETE_STRENGTH_AT_AGE_EN1992_2004 (MEAN) at the age; no published ratio was found",
});

/** The same for cube strengths, for which the Indian standard gives no gain with age. */
export const strengthRequiredCube = stepwise({
  id: "STRENGTH_REQUIRED_RATIO_CUBE",
  family: "materials",
  summary: "Cube strength required over the cube strength expected at that age",
  notes: [
    proof,
    "IS 1343 gives no gain with age; the everyday curve of EN 1992-1-1 (3.2) stands in, on cube " +
      "strengths. From 28 days on no further gain is counted.",
  ],
  source: { key: "practice", basis: "practice" },
  params: {
    // Practice for any concrete: the grades of a later edition go beyond those of 1980.
    f_ci: as(q.cubeStrengthAtTransfer, { text: "cube strength required at that age", max: 100 }),
    f_ck: as(q.cubeStrength, { min: 20, max: 100 }),
    t: age,
    cement: choice({ ...cementClass, key: "cementClassOrNormal", default: "N" }),
  },
  cautions: ({ f_ci, f_ck, t, cement }) => {
    const expected = Math.min(ageFactor(valueFor(strengthGain, cement), t), 1) * f_ck;
    return f_ci > doubted * expected ? [doubt("f_ci", f_ci, expected, t)] : [];
  },
  result,
  steps: {
    ...ageFactorSteps,
    expected: { symbol: "f_ci,t", unit: "MPa", equation: "min(beta_cc, 1) * f_ck" },
    ratio: { symbol: "η_t", unit: "–", equation: "f_ci / expected" },
  },
  compute: ({ f_ci, f_ck, t, cement }) => {
    const s = valueFor(strengthGain, cement);
    const beta_cc = ageFactor(s, t);
    const expected = Math.min(beta_cc, 1) * f_ck;
    return { s, beta_cc, expected, ratio: f_ci / expected };
  },
  empirical: daysCounted,
  unpublished: "common practice; the curve itself is that of CONCRETE_AGE_FACTOR_EN1992_2004",
});
