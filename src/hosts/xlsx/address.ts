import { areaOf, readCells, splitSheet, type Address, type Area } from "../../cells/index.ts";
import { NotThere } from "./readXml.ts";

/** "A1:C3" or "A1", with or without $. Throws NotThere. */
export function readArea(text: string): Area {
  const read = readCells(text);
  const area = read && areaOf(read);
  if (!area) throw new NotThere(`“${text}” is no cell`);
  return area;
}

export function readAddress(text: string): Address {
  const { row, column } = readArea(text);
  return { row, column };
}

/** The area of a reference such as `'Beam 1'!$A$1:$C$3`. */
export function readReference(text: string): Area {
  return readArea(splitSheet(text).rest);
}
