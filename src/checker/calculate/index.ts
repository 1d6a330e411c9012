/** Formulas computed apart from the host: what other inputs would give, and whether the host's values are what its formulas say. */
export { valuesAgainstHost, type AgainstHost, type Difference } from "./againstHost.ts";
export { agrees } from "./agreement.ts";
export { Book, nameKey, type BookNames } from "./book.ts";
export { Calculation, type Change, type Computed } from "./calculation.ts";
export { nativeFunctions } from "./functions/index.ts";
export { readBook } from "./readBook.ts";
