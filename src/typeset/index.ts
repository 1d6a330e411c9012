/** The only door to how symbols, numbers and equations are written for reading. */
export { equationTex, numberTex, substitutionTex, type Parser } from "./equationTex.ts";
export { numberText, withUnit } from "./numbers.ts";
export { sentenceParts, type SentencePart } from "./sentence.ts";
export { hasSymbol, plainSymbol, symbolParts, symbolTex, type SymbolPart } from "./symbols.ts";
