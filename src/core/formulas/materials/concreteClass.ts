import { choosing } from "../../choosing.ts";
import { stepwise, type Formula } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as, choice, type Choice, type Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Source } from "../../sources.ts";

/** Cylinder and cube strength in MPa, by class. */
const classes: Readonly<Record<string, readonly [cylinder: number, cube: number]>> = {
  "C12/15": [12, 15],
  "C16/20": [16, 20],
  "C20/25": [20, 25],
  "C25/30": [25, 30],
  "C30/37": [30, 37],
  "C35/45": [35, 45],
  "C40/50": [40, 50],
  "C45/55": [45, 55],
  "C50/60": [50, 60],
  "C55/67": [55, 67],
  "C60/75": [60, 75],
  "C70/85": [70, 85],
  "C80/95": [80, 95],
  "C90/105": [90, 105],
};

/** Strength classes of EN 1992-1-1:2004 Table 3.1. */
export const concreteClass = choice({
  key: "concreteClass",
  symbol: "class",
  text: "strength class of the concrete",
  values: Object.entries(classes).map(([value, [cylinder, cube]]) => ({
    value,
    text: `cylinder ${cylinder} MPa, cube ${cube} MPa`,
  })),
});

/** Cube strength in MPa, by grade. */
const grades: Readonly<Record<string, number>> = { M30: 30, M35: 35, M40: 40, M45: 45, M50: 50, M55: 55, M60: 60 };

/** Grades of concrete for prestressed members, IS 1343:1980 Table 1. */
export const concreteGrade = choice({
  key: "concreteGrade",
  symbol: "grade",
  text: "grade of the concrete",
  values: Object.entries(grades).map(([value, cube]) => ({ value, text: `cube ${cube} MPa` })),
});

function byName(
  id: string,
  summary: string,
  source: Source,
  name: Choice,
  result: Quantity,
  values: Readonly<Record<string, number>>,
): Formula {
  return stepwise({
    id,
    family: "materials",
    summary,
    source,
    result,
    params: { name },
    steps: { strength: { symbol: result.symbol, unit: "MPa", text: result.text, lookup: { of: "name", values } } },
    compute: (v) => ({ strength: valueFor(values, v.name) }),
    unpublished: "the number stands in the name",
  });
}

const part = (i: 0 | 1): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(classes).map(([name, pair]) => [name, pair[i]]));

const cylinder = byName(
  "CONCRETE_CLASS_STRENGTH_EN1992_2004",
  "Characteristic cylinder strength of a strength class",
  { key: "EN1992-1-1:2004", clause: "Table 3.1", basis: "seen", readIn: "CE:2021" },
  concreteClass,
  q.concreteStrength,
  part(0),
);
const cube = byName(
  "CONCRETE_CLASS_STRENGTH_EN1992_2004",
  "Characteristic cube strength of a strength class",
  { key: "EN1992-1-1:2004", clause: "Table 3.1", basis: "memory-high" },
  concreteClass,
  as(q.cubeStrength, { symbol: "f_ck,cube", min: 15, max: 105 }),
  part(1),
);

export const concreteClassStrength = choosing({
  id: "CONCRETE_CLASS_STRENGTH_EN1992_2004",
  family: "materials",
  summary: "Characteristic cylinder or cube strength of a strength class",
  by: {
    specimen: choice({
      key: "specimen",
      symbol: "specimen",
      text: "specimen of the strength",
      values: [
        { value: "CYLINDER", text: "cylinder, as the rules of EN 1992-1-1 take it" },
        { value: "CUBE", text: "cube of 150 mm" },
      ],
    }),
  },
  as: { CYLINDER: cylinder, CUBE: cube },
  order: ["name", "specimen"],
  result: q.classStrength,
});

export const concreteGradeStrength = byName(
  "CONCRETE_GRADE_STRENGTH_IS1343_1980",
  "Characteristic cube strength of a grade",
  { key: "IS1343:1980", clause: "Table 1", basis: "memory-high" },
  concreteGrade,
  q.cubeStrength,
  grades,
);
