import type { Address, Area } from "../../cells/index.ts";
import { unseen, type Looks } from "../host/host.ts";
import { likeColours } from "../look/likeColours.ts";
import type { GridSheet, GridWorkbook } from "./runtime.ts";

const general = "General";
const paper = "#FFFFFF";
const ink = "#000000";

/** Colours as they are written here and there: `#fff`, `#FFFFFF`, `rgb(255, 255, 255)`. */
function colour(written: string): string {
  const numbers = /^rgba?\(\s*(\d+)\s*,\s*(\d+)\s*,\s*(\d+)/.exec(written)?.slice(1, 4);
  if (numbers) return `#${numbers.map((n) => Number(n).toString(16).padStart(2, "0")).join("")}`.toUpperCase();
  return (
    /^#[0-9a-f]{3}$/i.test(written) ? `#${[...written.slice(1)].map((c) => c + c).join("")}` : written
  ).toUpperCase();
}

/** What hides or changes how the cells look. */
export function looksOf(workbook: GridWorkbook, sheet: GridSheet, area: Area): Looks {
  const worksheet = sheet.getSheet();
  const styles = workbook.getWorkbook().getStyles();
  const sameColour: Address[] = [];
  const tooSmall: Address[] = [];
  const formats = Array.from({ length: area.rows }, (_r, r) =>
    Array.from({ length: area.columns }, (_c, c) => {
      const row = area.row + r;
      const column = area.column + c;
      const cell = worksheet.getCellRaw(row, column);
      const style = cell ? styles.getStyleByCell(cell) : undefined;
      const holds =
        cell !== null &&
        cell !== undefined &&
        (cell.f !== undefined || cell.si !== undefined || (cell.v !== undefined && cell.v !== null && cell.v !== ""));
      if (holds && likeColours(colour(style?.cl?.rgb ?? ink), colour(style?.bg?.rgb ?? paper)))
        sameColour.push({ row, column });
      if (holds && (style?.fs ?? Infinity) <= unseen) tooSmall.push({ row, column });
      return style?.n?.pattern ?? general;
    }),
  );
  const numbers = (from: number, count: number, hidden: (n: number) => boolean): readonly number[] =>
    Array.from({ length: count }, (_, i) => from + i).filter(hidden);
  return {
    formats,
    hiddenRows: numbers(
      area.row,
      area.rows,
      (row) => !worksheet.getRowVisible(row) || worksheet.getRowHeight(row) <= unseen,
    ),
    hiddenColumns: numbers(
      area.column,
      area.columns,
      (column) => !worksheet.getColVisible(column) || worksheet.getColumnWidth(column) <= unseen,
    ),
    sameColour,
    tooSmall,
  };
}
