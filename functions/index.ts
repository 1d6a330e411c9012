/** The only door to the worksheet functions. */
export {
  metadata,
  type EnumMetadata,
  type FunctionMetadata,
  type Metadata,
  type ParameterMetadata,
} from "./metadata.ts";
export { parameterText } from "./parameterText.ts";
export { referenceFolder, referencePage } from "./referencePlace.ts";
export { register, type CustomFunctionsHost } from "./register.ts";
export {
  namespace,
  ourFunctions,
  worksheetFunction,
  worksheetFunctions,
  type FunctionParameter,
  type Result,
  type Value,
  type WorksheetFunction,
} from "./worksheetFunctions.ts";
