/** The only door to the checker's tools: reading formulas, recognising and comparing sheets, what-if, marks, validation sheets. */
export { takeSnapshot } from "./book/takeSnapshot.ts";
export { conflictsIn, type Conflict } from "./conflicts.ts";
export type { Recognised, SaidAtHead } from "./recognise/recognised.ts";
export { isBuilt, recognise, recogniseAmong } from "./recognise/recognise.ts";
export { carryOver, type Assumed, type CarriedOver, type Filled, type Lost, type Parked } from "./rebuild/carryOver.ts";
export type { MemberAssumed } from "./rebuild/membersAssumed.ts";
export { changeOfSheet, type ChangeOfSheet, type CheckChange } from "./rebuild/changeOfSheet.ts";
export type { ChangedRow, RowChange } from "./rebuild/changedRows.ts";
export { fromChoice, NotChosen, type FromChoice } from "./choosing/fromChoice.ts";
export { assumedMarks } from "./quickStart/assumedMarks.ts";
export type { Answers } from "./quickStart/answers.ts";
export { hasQuickStart } from "./quickStart/hasQuickStart.ts";
export { prepareQuickStart } from "./quickStart/prepare.ts";
export { quickStartSheet, type QuickStartSheet } from "./quickStart/sheetOf.ts";
export { quickStart } from "./quickStart/underWay.ts";
export type { QuickStart } from "./quickStart/fromAnswers.ts";
export type { SectionType } from "./quickStart/sections.ts";
export { compare, missingTemplate, type Comparison } from "./compare/compare.ts";
export { findingsPaper } from "./compare/findingsPaper.ts";
export { findingsPlan } from "./compare/findingsPlan.ts";
export { aboutOf, comparedWith, limits as limitsOfComparing, outcomeOf, whereOf } from "./compare/said.ts";
export { gradesInOrder, gradeWords, type Finding, type FindingKind, type Grade } from "./compare/finding.ts";
export { bookOfSheets } from "./book/bookOfSheets.ts";
export { enterMeasured, NotMeasured, readMeasured, type Measured, type MeasuredValue } from "./record/measured.ts";
export { linkAgain, linkedPlan, NotLinkable, sheetsOf } from "./link/link.ts";
export { SheetWriter } from "./writer.ts";
export { readBook } from "./book/readBook.ts";
export { saidOf, wordMarks } from "./marks/wordMarks.ts";
export { nameOfPart, partsAt, partsOf, type Part } from "./marks/parts.ts";
export {
  markCells,
  progressOf,
  readMarks,
  unmarkCells,
  type BlockProgress,
  type EnteredCell,
  type Mark,
} from "./marks/marks.ts";
export { readRevisions, revisionCells, type NewRevision, type RevisionTable } from "./marks/revisions.ts";
export { errorsIn, NotMarkable } from "./marks/seal.ts";
export { doubtsIn } from "./marks/verdicts.ts";
export {
  fail as failWord,
  good as goodWords,
  readValidation,
  validationPlan,
  type AsBuilt,
  type ReadValidation,
} from "./prove/index.ts";
export {
  bySize,
  changeIn,
  effectOn,
  NotAllowed,
  questioned,
  sensitivities,
  usualSensitivity,
  whatIf,
  type Amount,
  type CheckOutcome,
  type CheckState,
  type InputChange,
  type NoStep,
  type Questioned,
  type Sensitivity,
  type SensitivityOptions,
  type SheetInput,
  type Step,
  type WhatIf,
} from "./whatIf/index.ts";
export { handOutHeadRows, readHandOut } from "./handOut/index.ts";
export {
  copiesOfSheets,
  outOfDate,
  portableHeadRows,
  readPortable,
  whyStaying,
  type PortableCounts,
} from "./portable/index.ts";
export { traceCell, tracerOf, Tracer, type TracedCell } from "./trace/traceCell.ts";
export { takesDefault, type SpilledResult, type TracedCall, type TracedOrigin } from "./trace/call.ts";
export type { Origin } from "./trace/origin.ts";
export type { Flag } from "./trace/flags.ts";
export type { Label } from "./trace/labels.ts";
export { numberOf, shownPieces, symbolOf } from "./trace/inSymbols.ts";
export { agreement, evaluateSteps, relativeDifference } from "./trace/secondEvaluation.ts";
export { linesOf, pathText, printed, rootOf, type Branch, type TreeLine } from "./trace/tree.ts";
export { collect, type Collected } from "./trace/collect.ts";
export { calculationNote, type Setting } from "./trace/note.ts";
export {
  NotReportable,
  readMember,
  reportOf,
  reportSheetPlan,
  type Picture,
  type ReportFacts,
  type ReportOptions,
} from "./report/index.ts";
export { loadCases } from "../published/index.ts";
export {
  argumentText,
  asSentence,
  countsOfIdentified,
  countsOfIdentifiedText,
  effectText,
  evidenceText,
  givenText,
  Identifier,
  identifiedPaper,
  identifiedPlan,
  identifyOn,
  limitsOfIdentifying,
  outcomeText,
  verdictsInOrder,
  verdictWords,
  type IdentifiedList,
  type IdentifyFinding,
  type IdentifyOptions,
  type Verdict,
} from "./identify/index.ts";
