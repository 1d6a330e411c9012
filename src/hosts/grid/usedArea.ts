import type { Area } from "../../cells/index.ts";
import type { GridSheet } from "./runtime.ts";

/** From the sheet's first cell to the last row and column that hold something. */
export function usedArea(sheet: GridSheet): Area {
  let rows = 0;
  let columns = 0;
  sheet
    .getSheet()
    .getCellMatrix()
    .forValue((row, column, cell) => {
      if (
        !cell ||
        (cell.f === undefined && cell.si === undefined && (cell.v === undefined || cell.v === null || cell.v === ""))
      )
        return;
      rows = Math.max(rows, row + 1);
      columns = Math.max(columns, column + 1);
    });
  return { row: 0, column: 0, rows, columns };
}
