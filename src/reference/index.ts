/** The only door to the reference pages. */
export { checkMarkup, verdictOf } from "./checks.ts";
export { printedDocument } from "./document.ts";
export { exampleOf } from "./example.ts";
export { html, type Markup } from "../typeset/index.ts";
export { referencePages } from "./pages.ts";
export { tasks } from "./tasks.ts";
export { functionName, sentence, sourceWords } from "./words.ts";
