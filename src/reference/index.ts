/** The only door to the reference pages. */
export { checkMarkup, verdictOf } from "./checks.ts";
export { printedDocument } from "./document.ts";
export { exampleOf, formulaText, type Example } from "./example.ts";
export { html, type Markup } from "../typeset/index.ts";
export { referencePages } from "./pages.ts";
export { functionsOf, tasks, type Task } from "./tasks.ts";
export { functionName, sentence, sourceWords, symbol } from "./words.ts";
