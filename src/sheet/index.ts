/** The only door to sheets: templates, plans, lint. */
export {
  assumedWord,
  columnCount,
  columns,
  measuredWord,
  officeLabel,
  templateLabel,
  officeWord,
  plannedHeadings,
  proposedWord,
  unconfirmedText,
  unconfirmedWords,
} from "./columns.ts";
export { chartLines, type Line, type Point } from "./chartLines.ts";
export { Anatomy, type CellPart, type ColumnPart, type Owner, type RowPart } from "./anatomy.ts";
export { noFigure, noResultText } from "./noResult.ts";
export { asRead } from "./checkOrder.ts";
export { compose, type Parts } from "./compose.ts";
export { expand } from "./expand.ts";
export { conflict } from "./relations.ts";
export { plannedSnapshot } from "./plannedSnapshot.ts";
export { fnv1a64 } from "../core/index.ts";
export { missingInputs, missingText, type MissingInput } from "./missingInputs.ts";
export { isVerdictWord } from "./highlights.ts";
export { inputsFrom, linked, nameOf, noValue, sourceSheetId, type SourceSheet } from "./links.ts";
export { isEn, isPost, rootId } from "./rootId.ts";
export { lockedFault, lockedValues, withoutLocked } from "./lockedValues.ts";
export {
  faultOfLogo,
  logoLimits,
  logoName,
  logoOf,
  logoOfPlaced,
  pictureIn,
  withLogo,
  type Logo,
  type Picture,
  type PlacedLogo,
} from "./logo.ts";
export { onSource, withSource } from "./take.ts";
export { forbiddenIn } from "./formulaLint.ts";
export { schemaProblems } from "./validate.ts";
export type { Inputs } from "./inputs.ts";
export { lint, lintWithPauses, type WhichConfigurations } from "./lint.ts";
export * from "./plan.ts";
export { heightOfLines, pageBreaks, pageHeight, printScale } from "./pageBreaks.ts";
export { RefusedSheet } from "./problems.ts";
export { allowedWords, boundsOf, plainSymbol, says, type Says } from "./says.ts";
export {
  basePlan,
  faultOfInput,
  filled,
  skeletonOf,
  withEntered,
  type Entered,
  type InputCell,
  type Skeleton,
} from "./skeleton.ts";
export { meets, type ShapeValues } from "./shape.ts";
export {
  faultOfSheetName,
  freeSheetName,
  isSheetNameTaken,
  longestSheetName,
  sheetNameTakenText,
} from "./sheetName.ts";
export { singlesOf, type Single } from "./singles.ts";
export type * from "./template.ts";
export { choiceParts } from "./choiceParts.ts";
export { linesIn, linesOfLow, linesOfLowUnderRule, textWidth } from "./textWidth.ts";
