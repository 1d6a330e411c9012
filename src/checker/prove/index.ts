export { readValidation, type AsBuilt, type FailingRow, type ReadValidation } from "./readValidation.ts";
export { validationPlan, validationTitle, type MadeWhere, type Validation } from "./validationPlan.ts";
export { fail, good } from "./words.ts";
