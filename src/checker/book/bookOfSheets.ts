import { Book, type BookNames, type Snapshot } from "../../cells/index.ts";
import { ourFunctions } from "../../../functions/index.ts";

/** A workbook is read at each look at it, and mostly only values have changed since the last one. */
const most = 4;
const lastRead = new Map<string, Book>();

/** Sheets as a book whose formulas call our functions. */
export function bookOfSheets(sheets: readonly Snapshot[], names?: BookNames): Book {
  const key = JSON.stringify(sheets.map(({ sheet }) => sheet));
  const book = Book.like(lastRead.get(key), sheets, ourFunctions, names);
  lastRead.delete(key);
  if (lastRead.size >= most) lastRead.delete(lastRead.keys().next().value!);
  lastRead.set(key, book);
  return book;
}
