export { readValidation, type AsBuilt, type ReadValidation } from "./readValidation.ts";
export { validationPlan, type MadeWhere } from "./validationPlan.ts";
export { fail, good } from "./words.ts";
