export { lambdaText, inlineNode, translated, type Untranslated } from "./translate.ts";
export { byItself, helpers, withHelpers, type PortableFunction, type Writing } from "./writing.ts";
