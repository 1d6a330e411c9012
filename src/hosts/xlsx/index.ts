export type { Values } from "../look/values.ts";
export { type ReadChart, type ReadSeries } from "./readCharts.ts";
export { type ReadCell } from "./readCells.ts";
export { readWorkbook, type ReadWorkbook } from "./readWorkbook.ts";
export { writeSheets, writeWorkbook, type FileSheet } from "./writeWorkbook.ts";
