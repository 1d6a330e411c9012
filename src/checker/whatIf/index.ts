/** What would be if inputs were others: which verdicts move and by how much, and which inputs matter. The sheet is never touched. */
export { NotAllowed, type Amount, type InputChange } from "./change.ts";
export {
  changeIn,
  effectOn,
  sensitivities,
  sorted as bySize,
  usual as usualSensitivity,
  type NoStep,
  type Sensitivity,
  type SensitivityOptions,
  type Step,
} from "./sensitivity.ts";
export { type SheetInput } from "./sheetInputs.ts";
export { questioned, type CheckState, type Questioned } from "./state.ts";
export { whatIf, type CheckOutcome, type WhatIf } from "./whatIf.ts";
