import { byStepsFunctions } from "./functions.ts";
import { lawAci209 } from "./lawAci209.ts";
import { lawEn1992 } from "./lawEn1992.ts";
import { lawIs1343 } from "./lawIs1343.ts";
import { lawModelCode1990 } from "./lawModelCode.ts";

const all = [lawEn1992, lawIs1343, lawModelCode1990, lawAci209].map(byStepsFunctions);

/** Time-step integration of the prestress over the life of a member. */
export const timeStepFormulas = all.flatMap(({ formulas }) => formulas);
export const timeStepSpills = all.flatMap(({ spills }) => spills);
