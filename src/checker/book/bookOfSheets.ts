import { Book, type BookNames, type Snapshot } from "../../cells/index.ts";
import { ourFunctions } from "../../../functions/index.ts";

/** Sheets as a book whose formulas call our functions. */
export function bookOfSheets(sheets: readonly Snapshot[], names?: BookNames): Book {
  return new Book(sheets, ourFunctions, names);
}
