import { choosing } from "../../choosing.ts";
import { formula } from "../../formula.ts";
import { as, choice, type Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { valueFor } from "../../lookup.ts";
import { stepwise } from "../../formula.ts";
import { method } from "./choices.ts";

const empirical = "a fit to tests: the square root of a stress in MPa";

/** A rule on the square root of the cube strength, for 28 days and, as is common practice, for transfer. */
function rootRule(
  id: string,
  strength: Quantity,
  factor: number,
  text: { readonly summary: string; readonly notes?: readonly string[] },
  source: Parameters<typeof formula>[0]["source"],
  result: Quantity,
) {
  return formula({
    id,
    family: "materials",
    ...text,
    source,
    params: { f_c: strength },
    result: { ...result, reads: "MPa" },
    equation: `${factor} * sqrt(f_c)`,
    compute: ({ f_c }) => factor * Math.sqrt(f_c),
    empirical,
    unpublished: "one square root; the standard's own text was not read",
  });
}

const atTransfer = ["The rule of 28 days with the strength at transfer, which is common practice."];

const modulusAt28Days = rootRule(
  "CONCRETE_MODULUS_IS1343_1980",
  q.cubeStrength,
  5700,
  { summary: "Short-term modulus of concrete from the characteristic cube strength" },
  { key: "IS1343:1980", clause: "5.2.3", basis: "second-hand", readIn: "IS1343-NOTES" },
  q.elasticModulusConcrete,
);
const modulusAtTransfer = rootRule(
  "CONCRETE_MODULUS_IS1343_1980",
  q.cubeStrengthAtTransfer,
  5700,
  { summary: "Short-term modulus of concrete at transfer from the cube strength then", notes: atTransfer },
  { key: "IS1343:1980", clause: "5.2.3, with the strength at transfer", basis: "practice" },
  q.elasticModulusConcrete,
);
export const concreteModulusIs1343 = choosing({
  id: "CONCRETE_MODULUS_IS1343_1980",
  family: "materials",
  summary: "Short-term modulus of concrete from the cube strength, at 28 days or at transfer",
  by: {
    age: choice({
      key: "cubeStrengthAge",
      symbol: "age",
      text: "age of the cube strength given",
      default: "28_DAYS",
      values: [
        { value: "28_DAYS", text: "28 days: characteristic strength" },
        { value: "TRANSFER", text: "at transfer" },
      ],
    }),
  },
  as: { "28_DAYS": modulusAt28Days, TRANSFER: modulusAtTransfer },
  order: ["f_c", "age"],
  joint: { f_c: q.cubeStrengthAt },
  result: q.elasticModulusConcrete,
});
export const concreteModulusIs1343y2012 = rootRule(
  "CONCRETE_MODULUS_IS1343_2012",
  q.cubeStrength,
  5000,
  { summary: "Short-term modulus of concrete from the characteristic cube strength, edition 2012" },
  { key: "IS1343:2012", clause: "6.2.3.1", basis: "memory-high" },
  q.elasticModulusConcrete,
);
export const flexuralStrengthIs1343 = rootRule(
  "CONCRETE_FLEXURAL_TENSILE_STRENGTH_IS1343_1980",
  q.cubeStrength,
  0.7,
  {
    summary: "Flexural tensile strength from the characteristic cube strength",
    notes: [
      "At transfer the same rule with the cube strength then is common practice; this function takes the strength at 28 days.",
    ],
  },
  { key: "IS1343:1980", clause: "5.2.2", basis: "memory-high" },
  q.cubeFlexuralStrength,
);

const grades = { PRE: 40, POST: 30 };

/** Least grade of concrete. */
export const minimumGradeIs1343 = stepwise({
  id: "MINIMUM_GRADE_IS1343_1980",
  family: "materials",
  summary: "Least characteristic cube strength for a way of prestressing",
  source: { key: "IS1343:1980", clause: "5.1", basis: "second-hand", readIn: "IS1343-NOTES" },
  params: { method },
  result: q.minimumGrade,
  steps: { grade: { symbol: "f_ck,min", unit: "MPa", text: "least grade", lookup: { of: "method", values: grades } } },
  compute: (v) => ({ grade: valueFor(grades, v.method) }),
  unpublished: "two table values, read second-hand",
});

/** Stress behind the anchorage at initial tensioning. */
const jacking = (id: string, factor: number, key: "IS1343:1980" | "IS1343:2012", clause: string, edition: string) =>
  formula({
    id,
    family: "limits",
    summary: `Greatest tendon stress at the jack, ${edition}`,
    source: { key, clause, basis: "memory-high" },
    params: {
      f_p: as(q.tendonTensileStrength, {
        symbol: "f_p",
        text: "characteristic tensile strength of the prestressing steel",
      }),
    },
    result: q.tendonStressLimit,
    equation: `${factor} * f_p`,
    compute: ({ f_p }) => factor * f_p,
    unpublished: "one product; the clause is from memory",
  });
export const jackingStressLimitIs1343 = jacking(
  "JACKING_STRESS_LIMIT_IS1343_1980",
  0.8,
  "IS1343:1980",
  "18.5.1",
  "0.80 of the strength",
);
export const jackingStressLimitIs1343y2012 = jacking(
  "JACKING_STRESS_LIMIT_IS1343_2012",
  0.76,
  "IS1343:2012",
  "19.5.1",
  "0.76 of the strength",
);
