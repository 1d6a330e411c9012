export type { Values } from "../look/values.ts";
export { type ReadChart, type ReadSeries } from "./readCharts.ts";
export { openWorkbook, type OpenedFile } from "./openWorkbook.ts";
export { CannotOpen, checkSize, ownLimits } from "./refusal.ts";
export { writeBook, writeSheets, writeWorkbook, type FileSheet } from "./writeWorkbook.ts";
