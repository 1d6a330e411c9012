/** The only door to the calculation core. */
export { cautions } from "./cautions.ts";
export { InputError, isRefusal, NoResult, reasonOf } from "./errors.ts";
export {
  equationFor,
  families,
  sourceFor,
  variantsOf,
  type Declaration,
  type Family,
  type Formula,
  type Spill,
  type Step,
  type Steps,
} from "./formula.ts";
export { declarations, formulas, spills } from "./formulas/index.ts";
export { fnv1a64 } from "./hash.ts";
export { neighbourHint, neighboursOf, type Neighbour } from "./neighbours.ts";
export * from "./parameters.ts";
export {
  argumentCount,
  choicesGiven,
  formulaIn,
  nameOf,
  parametersFor,
  readChoice,
  readFactor,
  type Argument,
  type Cell,
} from "./read.ts";
export { read, run, runAndWarn, runSpill, spillAndWarn, trace, valueWarnings, warnings, type Trace } from "./run.ts";
export { sealOfValues, stale } from "./seal.ts";
export { sortsDiffer } from "./sorts.ts";
export { basisText, ownCopyAdvice, sources, type Basis, type Source } from "./sources.ts";
export { coherentUnit, mathUnit, unitFactor, unitNames, type Unit } from "./units.ts";
export { version } from "./version.ts";
export { concreteClass, concreteGrade } from "./formulas/materials/concreteClass.ts";
export { kindOfProduct, type ProductKind } from "./formulas/materials/products.ts";
export { tendonProduct } from "./formulas/materials/tendonProduct.ts";
export { q } from "./quantities/index.ts";
export { valueBetween, valueFor } from "./lookup.ts";
