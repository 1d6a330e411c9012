/** The only door to the hosts. */
export * from "./host/host.ts";
export {
  FunctionsNotRegistered,
  openExcel,
  optionalSets,
  requiredSets,
  sideLoading,
  type ApiSet,
  type RequiredSet,
  type ExcelDependencies,
  type ExcelHost,
  type ExcelRun,
  type Repaired,
  type Swept,
} from "./excel/index.ts";
export { openGridInBrowser, openGridInNode, type Entry, type GridHost } from "./grid/index.ts";
export { likeColours } from "./look/likeColours.ts";
export { lostText, type LostCell } from "./host/lostFunctions.ts";
export { logoToTake, type LogoToTake } from "./host/logoToTake.ts";
export { bookOfPlan, computeAhead, planValues } from "./host/planValues.ts";
export { checkSource, SourceChanged, sourceSheets } from "./host/source.ts";
export { checkSheetName } from "./host/sheetName.ts";
export { defaultStyle, styleOf, styles, tones, type CellStyle } from "./look/styles.ts";
export {
  CannotOpen,
  checkSize,
  ownLimits,
  openWorkbook,
  writeBook,
  writeSheets,
  writeWorkbook,
  type FileSheet,
  type OpenedFile,
  type ReadChart,
  type ReadSeries,
  type Values,
} from "./xlsx/index.ts";
export { emptySheet } from "./workbook/emptySheet.ts";
export type * from "./workbook/workbook.ts";
