/** The only door to the language of cells: addresses, formulas as trees, and their calculation. */
export {
  a1,
  areaA1,
  cellsOf,
  columnLetters,
  columnOfLetters,
  holds,
  type Address,
  type Area,
} from "./address/address.ts";
export { placeOf, placeText, type Place, type PlacedArea } from "./address/place.ts";
export { areaOf, areaWithin, readCells, type ReadCells } from "./address/readCells.ts";
export { quotedSheet, splitSheet } from "./address/sheetPrefix.ts";
export { parseFormula, UnreadableFormula } from "./language/parse.ts";
export { isReference, piecesOf, withoutPrefix, withPrefix, type Piece, type PieceKind } from "./language/pieces.ts";
export { writeNode } from "./language/print.ts";
export {
  allOf,
  anyOf,
  binaryNode,
  callNode,
  joined,
  lambdaNode,
  letNode,
  nameNode,
  negative,
  numberNode,
  rowNode,
  textNode,
} from "./language/made.ts";
export {
  templateFormula,
  type TemplateCall,
  type TemplateFormula,
  type TemplatePiece,
} from "./language/templateFormula.ts";
export type { CellReference, TemplateReference } from "./language/templateReference.ts";
export { quotedText, textConstant, unquotedText } from "./language/textConstant.ts";
export {
  cellReference,
  cellReferences,
  partsOf,
  withCalls,
  withNumbers,
  withPart,
  type CallNode,
  type FormulaNode,
} from "./language/tree.ts";
export {
  readFormula,
  referenceIn,
  type Call,
  type ReadFormula,
  type WrittenArgument,
  type WrittenReference,
} from "./language/calls.ts";
export {
  addMentioned,
  functionsIn,
  namesIn,
  qualified,
  sheetsIn,
  wordsIn,
  type Mentioned,
} from "./language/mentions.ts";
export { filled, movedDown, sameFormula, wordsOf } from "./language/moved.ts";
export { firstStanding, type Moves } from "./language/moves.ts";
export { normalNow, normalPlanned, rewritten } from "./language/normal.ts";
export { numberIn } from "./language/numberIn.ts";
export { namespace, ourFunction } from "./language/ourFunction.ts";
export type { CellContent, CellValue } from "./values/content.ts";
export { agrees, agreesWithHost, differsByRounding } from "./values/agreement.ts";
export type { CellArea, Frame, Reader, Whereabouts } from "./values/frame.ts";
export { cut, holdsUnkept, holdsUnwritable, shortened, withoutUnkept, withoutUnwritable } from "./values/texts.ts";
export { isNumberAsText } from "./values/numberAsText.ts";
export { Block, CannotCompute, Fault, single, type Scalar, type Value } from "./values/values.ts";
export { valuesAgainstHost, type AgainstHost, type Difference } from "./calculation/againstHost.ts";
export { Book, nameKey, type BookNames } from "./calculation/book.ts";
export type { Formulas } from "./calculation/formulas.ts";
export { Calculation, type Change, type Computed } from "./calculation/calculation.ts";
export { compile, compileTree, type Compiled } from "./calculation/compile.ts";
export { definedKey, type OwnFunctions } from "./functions/index.ts";
export { definedFunctions, type Definition } from "./calculation/defined.ts";
export { keyOf, placeOfKey, type FormulaCell } from "./calculation/formulas.ts";
export { patternOf } from "./calculation/pattern.ts";
export { cellAt, type Snapshot } from "./calculation/snapshot.ts";
