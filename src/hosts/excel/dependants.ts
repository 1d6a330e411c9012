import { placeOf } from "../../cells/index.ts";
import type { Place } from "../host/host.ts";
import { optionalSets } from "./requirements.ts";
import { codeOf, type ExcelDependencies } from "./runs.ts";
import { sheetNamed } from "./sheets.ts";

/**
 * The cells whose formulas refer to this one directly; undefined where the program's version cannot tell. Some versions
 * are reported to leave out those of other sheets once rows or columns were inserted or deleted, until the workbook is
 * opened again.
 */
export async function dependantsOf(
  context: Excel.RequestContext,
  { supports }: Pick<ExcelDependencies, "supports">,
  place: Place,
): Promise<readonly Place[] | undefined> {
  const { set, version } = optionalSets.dependants;
  if (!supports(set, version)) return undefined;
  const sheet = await sheetNamed(context, place.sheet);
  const { ranges } = sheet.getRangeByIndexes(place.row, place.column, 1, 1).getDirectDependents();
  ranges.load("items/address");
  try {
    await context.sync();
  } catch (error) {
    // So the program says that there are none.
    if (codeOf(error) === "ItemNotFound") return [];
    throw error;
  }
  return ranges.items.flatMap(({ address }) => {
    const area = placeOf(address);
    if (!area) throw new Error(`the spreadsheet program names cells that cannot be read: ${address}`);
    const { sheet: name, row, column, rows, columns } = area;
    return Array.from({ length: rows * columns }, (_, i): Place => ({
      sheet: name,
      row: row + Math.floor(i / columns),
      column: column + (i % columns),
    }));
  });
}
