export type { EquationReader } from "./equation.ts";
export { outOfDate } from "./functions.ts";
export {
  portableCopies,
  portableHeadRows,
  whyStaying,
  type PortableCopy,
  type PortableCounts,
  type SheetToCopy,
} from "./portablePlans.ts";
export { lambdaText, translated, type Untranslated } from "./translate.ts";
export { helpers, withHelpers, type PortableFunction } from "./writing.ts";
export { copiesOfSheets } from "./plannedCopies.ts";
export { readPortable } from "./readPortable.ts";
