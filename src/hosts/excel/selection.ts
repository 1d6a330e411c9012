import type { Selection } from "../host/host.ts";
import { codeOf } from "./runs.ts";

/** What the program says where something other than cells is selected: a chart, say. */
const notCells: ReadonlySet<string | undefined> = new Set(["InvalidSelection", "ItemNotFound"]);

/** The first of the selected areas. */
export async function selectedCells(context: Excel.RequestContext): Promise<Selection | undefined> {
  const selected = context.workbook.getSelectedRanges();
  selected.areas.load("items/rowIndex,items/columnIndex,items/rowCount,items/columnCount");
  selected.worksheet.load("name");
  try {
    await context.sync();
  } catch (error) {
    if (notCells.has(codeOf(error))) return undefined;
    throw error;
  }
  const area = selected.areas.items[0];
  return (
    area && {
      sheet: selected.worksheet.name,
      row: area.rowIndex,
      column: area.columnIndex,
      rows: area.rowCount,
      columns: area.columnCount,
    }
  );
}
