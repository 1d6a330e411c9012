import { byStepsFunctions } from "./functions.ts";
import { lawEn1992 } from "./lawEn1992.ts";
import { lawIs1343 } from "./lawIs1343.ts";

const all = [lawEn1992, lawIs1343].map(byStepsFunctions);

/** Time-step integration of the prestress over the life of a member. */
export const timeStepFormulas = all.flatMap(({ formulas }) => formulas);
export const timeStepSpills = all.flatMap(({ spills }) => spills);
