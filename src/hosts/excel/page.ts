import { areaA1 } from "../../cells/index.ts";
import type { Plan } from "../../sheet/index.ts";
import { breaksOf, defaultColumnWidth, defaultRowHeight, type Heights } from "../look/measures.ts";
import { printAreas } from "../look/printAreas.ts";
import { rangeOf } from "./areas.ts";
import { columnPoints } from "./measures.ts";

/** The footer in the program's own codes: small (the space parts the size from a number that follows), `&` doubled. */
function footerCode(footer: string): string {
  return `&9 ${footer.replaceAll("&", "&&").replaceAll("{page}", "&P").replaceAll("{pages}", "&N").replaceAll("{sheet}", "&A")}`;
}

/** Column widths and row heights; neighbours of one width together. */
export function setSizes(sheet: Excel.Worksheet, plan: Plan, heights: Heights): void {
  const widths = [...plan.widths];
  for (const { at } of plan.charts)
    for (let column = at.column; column < at.column + at.columns; column++) widths[column] ??= defaultColumnWidth;
  for (let from = 0; from < widths.length;) {
    let to = from + 1;
    while (to < widths.length && widths[to] === widths[from]) to++;
    const width = widths[from];
    if (width !== undefined) sheet.getRangeByIndexes(0, from, 1, to - from).format.columnWidth = columnPoints(width);
    from = to;
  }
  // A program's own default depends on the workbook's first font.
  sheet.getRangeByIndexes(0, 0, plan.rows, 1).format.rowHeight = defaultRowHeight;
  for (const [row, height] of heights) sheet.getRangeByIndexes(row, 0, 1, 1).format.rowHeight = height;
}

export function freeze(sheet: Excel.Worksheet, { rows, columns }: Plan["freeze"]): void {
  if (rows > 0 && columns > 0) sheet.freezePanes.freezeAt(sheet.getRangeByIndexes(0, 0, rows, columns));
  else if (rows > 0) sheet.freezePanes.freezeRows(rows);
  else if (columns > 0) sheet.freezePanes.freezeColumns(columns);
}

/** Rows that fold away. The program's own interface cannot say that the head of a group stands above it. */
export function setOutline(sheet: Excel.Worksheet, { groups = [] }: Plan): void {
  for (const { row, rows } of groups) rangeOf(sheet, { row, column: 0, rows, columns: 1 }).group("ByRows");
}

/** A4 lying, all columns on the width of one page or as many as the plan says, heading rows on every page, page numbers below. */
export function setPrint(sheet: Excel.Worksheet, plan: Plan, heights: Heights): void {
  const { pageLayout } = sheet;
  const [first, last] = plan.print.titleRows;
  pageLayout.setPrintArea(
    printAreas(plan, heights)
      .map((area) => areaA1(area, false))
      .join(","),
  );
  pageLayout.setPrintTitleRows(rangeOf(sheet, { row: first, column: 0, rows: last - first + 1, columns: 1 }));
  pageLayout.orientation = plan.print.orientation === "portrait" ? "Portrait" : "Landscape";
  pageLayout.paperSize = "A4";
  // As high as it comes: no number of pages in height.
  const { scale, pagesWide = 1 } = plan.print;
  pageLayout.zoom = scale === undefined ? { horizontalFitToPages: pagesWide } : { scale };
  if (plan.print.pagesWide) pageLayout.printOrder = "OverThenDown";
  if (plan.print.addresses) pageLayout.printHeadings = true;
  for (const row of breaksOf(plan, heights) ?? [])
    sheet.horizontalPageBreaks.add(rangeOf(sheet, { row, column: 0, rows: 1, columns: 1 }));
  pageLayout.centerHorizontally = true;
  pageLayout.headersFooters.defaultForAllPages.centerFooter = footerCode(plan.print.footer);
}
