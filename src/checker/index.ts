/** The only door to the checker's tools: reading formulas, recognising and comparing sheets, what-if, marks, validation sheets. */
export { paperDocument } from "./paper/document.ts";
export { holds, placeOf, placeText, type PlacedArea } from "./places.ts";
export { cellAt, takeSnapshot, type Snapshot } from "./snapshot.ts";
export type { InputFault, Recognised, SaidAtHead } from "./recognise/recognised.ts";
export { recognise, recogniseSnapshot } from "./recognise/recognise.ts";
export { compare, type Comparison } from "./compare/compare.ts";
export { findingsPaper } from "./compare/findingsPaper.ts";
export { findingsPlan } from "./compare/findingsPlan.ts";
export { gradesInOrder, heldAgainst, limits as limitsOfComparing, outcomeOf, whereOf } from "./compare/said.ts";
export { gradeWords, type Finding, type FindingKind, type Grade } from "./compare/finding.ts";
export { Book, Calculation, readBook, valuesAgainstHost, type AgainstHost, type BookNames, type Change, type Computed, type Difference } from "./calculate/index.ts";
export { nameOfPart, partsAt, partsOf, type BlockParts, type Part } from "./marks/parts.ts";
export { markCells, progressOf, readMarks, unmarkCells, type BlockProgress, type EnteredCell, type Mark, type MarkState } from "./marks/marks.ts";
export { readRevisions, revisionCells, type NewRevision, type Revision, type RevisionTable } from "./marks/revisions.ts";
export { errorsIn, NotMarkable, sealOf, type Seal } from "./marks/seal.ts";
export { doubtsIn } from "./marks/verdicts.ts";
export { fail as failWord, good as goodWords, readValidation, validationPlan, type FailingRow, type MadeWhere, type ReadValidation, type Validation } from "./prove/index.ts";
