import { Book, type BookNames, type OwnFunctions, type Snapshot } from "../../cells/index.ts";
import { worksheetFunctions } from "../../../functions/index.ts";

/** Our worksheet functions, as formulas call them. */
export const ourFunctions: OwnFunctions = new Map(worksheetFunctions.map((f) => [f.id, f]));

/** Sheets as a book whose formulas call our functions. */
export function bookOfSheets(sheets: readonly Snapshot[], names?: BookNames): Book {
  return new Book(sheets, ourFunctions, names);
}
