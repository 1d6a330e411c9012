import { type Address, type Area, columnOfLetters } from "../../cells/index.ts";

const cell = /^\$?([A-Z]{1,3})\$?(\d+)$/;

export function readAddress(text: string): Address {
  const m = cell.exec(text);
  if (!m) throw new Error(`“${text}” is no cell`);
  return { row: Number(m[2]) - 1, column: columnOfLetters(m[1]!) };
}

/** "A1:C3" or "A1", with or without $. */
export function readArea(text: string): Area {
  const [first, last = first] = text.split(":") as [string, string?];
  const from = readAddress(first);
  const to = readAddress(last);
  return { ...from, rows: to.row - from.row + 1, columns: to.column - from.column + 1 };
}

/** The area of a reference such as `'Beam 1'!$A$1:$C$3`. */
export function readReference(text: string): Area {
  return readArea(text.slice(text.lastIndexOf("!") + 1));
}
