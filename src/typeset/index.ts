/** The only door to how symbols, numbers and equations are written for reading. */
export { clauseWords } from "./clauseWords.ts";
export { equationTex, numberTex, substitutionTex, type Parser } from "./equationTex.ts";
export { greekNames } from "./greek.ts";
export { escape, html, Markup } from "./html.ts";
export { sentence, symbol } from "./markup.ts";
export { numberText, withUnit } from "./numbers.ts";
export { ended, sentenceParts } from "./sentence.ts";
export { hasSymbol, plainSymbol, symbolParts, symbolTex } from "./symbols.ts";
