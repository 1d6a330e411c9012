import type { Address, Area } from "../../cells/index.ts";
import { unseen, type Looks } from "../host/host.ts";
import { likeColours } from "../look/likeColours.ts";
import { rangeOf } from "./areas.ts";
import { mostCellObjects, rowSteps } from "./read.ts";

/** Of letters and ground where the program has none to tell. */
const ink = "#000000";
const paper = "#FFFFFF";

/** What hides or changes how the cells look. Where a cell has no fill, the program gives that as white. */
export async function looksOf(sheet: Excel.Worksheet, area: Area): Promise<Looks> {
  const formats: (readonly string[])[] = [];
  const hiddenRows: number[] = [];
  const sameColour: Address[] = [];
  const tooSmall: Address[] = [];
  if (area.rows === 0 || area.columns === 0) return { formats, hiddenRows, hiddenColumns: [], sameColour, tooSmall };
  const columns = rangeOf(sheet, { ...area, rows: 1 }).getColumnProperties({
    columnHidden: true,
    format: { columnWidth: true },
  });
  for (const part of rowSteps(area, mostCellObjects)) {
    const range = rangeOf(sheet, part);
    range.load("numberFormat,formulas");
    const rows = range.getRowProperties({ rowHidden: true, format: { rowHeight: true } });
    const cells = range.getCellProperties({ format: { font: { color: true, size: true }, fill: { color: true } } });
    await sheet.context.sync();
    formats.push(...(range.numberFormat as string[][]));
    rows.value.forEach(({ rowHidden, format }, r) => {
      if (rowHidden === true || (format?.rowHeight ?? Infinity) <= unseen) hiddenRows.push(part.row + r);
    });
    cells.value.forEach((line, r) =>
      line.forEach(({ format }, c) => {
        if ((range.formulas as readonly (readonly unknown[])[])[r]![c] === "") return;
        if (likeColours(format?.font?.color || ink, format?.fill?.color || paper))
          sameColour.push({ row: part.row + r, column: part.column + c });
        if ((format?.font?.size ?? Infinity) <= unseen) tooSmall.push({ row: part.row + r, column: part.column + c });
      }),
    );
  }
  const hiddenColumns = columns.value.flatMap(({ columnHidden, format }, c) =>
    columnHidden === true || (format?.columnWidth ?? Infinity) <= unseen ? [area.column + c] : [],
  );
  return { formats, hiddenRows, hiddenColumns, sameColour, tooSmall };
}
