import { basisText, cautions, families, version, type Family } from "../../core/index.ts";
import {
  checkMarkup,
  functionName,
  html,
  printedDocument,
  sentence,
  sourceWords,
  type Markup,
} from "../../reference/index.ts";
import { grouped, type Concern, type Survey, type Surveyed } from "./survey.ts";
import { concernText } from "./text.ts";

const count = (n: number, one: string, several = `${one}s`): string => `${n} ${n === 1 ? one : several}`;
const cells = (...all: readonly (string | number)[]): Markup =>
  html`<tr><th scope="row">${all[0]}</th>${all.slice(1).map((cell) => html`<td>${cell}</td>`)}</tr>`;

function summary({ total, byBasis, byCheck }: Survey): Markup {
  return html`<section id="summary"><h2>Summary</h2>
<p>${total.withPublished} of the ${total.functions} functions that compute something have a published check.</p>
<h3>Checks by how the printed result was established</h3>
<table class="kr-table kr-lookup"><thead><tr><th scope="col">printed result</th><th scope="col">checks</th>
<th scope="col">values</th><th scope="col">failed</th></tr></thead><tbody>${byCheck.map((b) =>
    cells(b.basis, b.cases, b.values, b.failed),
  )}${cells("all", total.cases, total.values, total.failed)}</tbody></table>
<h3>Functions by how their source was established</h3>
<table class="kr-table kr-lookup"><thead><tr><th scope="col">source</th><th scope="col">functions</th>
<th scope="col">with a published check</th><th scope="col">from memory only</th><th scope="col">without</th></tr></thead><tbody>${byBasis
    .filter((b) => b.functions > 0)
    .map((b) =>
      cells(basisText[b.basis], b.functions, b.published, b.fromMemoryOnly, b.unchecked),
    )}</tbody></table></section>`;
}

interface Chapter {
  readonly family: Family;
  readonly functions: readonly Surveyed[];
}

function chapters({ functions }: Survey): readonly Chapter[] {
  return (Object.keys(families) as readonly Family[])
    .map((family) => ({ family, functions: functions.filter((f) => f.declaration.family === family) }))
    .filter((c) => c.functions.length > 0);
}

function contents(survey: Survey): Markup {
  return html`<nav aria-label="Contents"><h2>Contents</h2><ol class="kr-contents">
<li><a href="#summary">Summary</a></li>
<li><a href="#looked-at">Checks to be looked at</a></li>
${chapters(survey).map(
  ({ family, functions }) =>
    html`<li><a href="#family-${family}">${families[family]}</a> <span class="kr-facts">${count(functions.length, "function")}, ${count(
      functions.reduce((sum, f) => sum + f.judgements.length, 0),
      "check",
    )}</span></li>`,
)}
<li><a href="#unchecked">Functions without a published check</a></li></ol></nav>`;
}

function lookedAt({ listed }: Survey): Markup {
  const concerns: readonly Concern[] = [...new Set(listed.map(({ concern }) => concern))];
  return html`<section class="kr-chapter" id="looked-at"><h2>Checks to be looked at</h2>
${concerns.map(
  (concern) =>
    html`<h3>${concernText[concern]}</h3><ul>${grouped(listed, concern).map(
      ({ reason, cases }) =>
        html`<li>${cases.map(
          (c, i) => html`${i > 0 && ", "}<a href="#check-${c.id}">${c.id}</a> (${functionName(c.function)})`,
        )}: ${reason}${reason.endsWith(".") ? "" : "."}</li>`,
    )}</ul>`,
)}</section>`;
}

function chapter({ family, functions }: Chapter): Markup {
  const without = functions.filter(({ judgements }) => judgements.length === 0);
  return html`<section class="kr-chapter" id="family-${family}"><h2>${families[family]}</h2>
${
  without.length > 0 &&
  html`<p>Without a check, for the reason that the last chapter says: ${without.map(
    ({ id }, i) => html`${i > 0 && ", "}${functionName(id, "")}`,
  )}.</p>`
}
${functions
  .filter(({ judgements }) => judgements.length > 0)
  .map(
    ({ id, declaration, judgements, published }) => html`<section><h3>${functionName(id)}</h3>
<p>${sentence(declaration.summary)}.</p>${sourceWords(declaration.source)}
${
  published === 0 &&
  html`<p>No published check: ${declaration.unpublished ?? "no reason given"}${declaration.unpublished?.endsWith(".") ? "" : "."}</p>`
}
${judgements.map((j) => html`<div id="check-${j.case.id}">${checkMarkup(j, declaration, 4)}</div>`)}</section>`,
  )}</section>`;
}

/** The verification book: one document that an office can print and file. `written` is the day it is written on. */
export function verificationBook(survey: Survey, written: string): string {
  const { functions, total, judgements } = survey;
  const known = new Set(functions.map(({ id }) => id));
  const strays = judgements.filter(({ case: c }) => !known.has(c.function));
  return printedDocument(
    "Kernbook verification book",
    html`<h1>Kernbook verification book</h1>
<p class="kr-summary">Published results beside what the worksheet functions of Kernbook ${version} give. Written on ${written}. ${
      total.failed === 0
        ? html`<b class="kr-good">No check failed.</b>`
        : html`<b class="kr-bad">${count(total.failed, "check")} failed.</b>`
    }</p>
<aside class="kr-caution"><p>${cautions.competence} That a function gives a printed number shows that it computes what
that source computes, not that the rule fits a case at hand.</p></aside>
<p>A check takes a number as it is printed at one place of a work outside this project, computes it with the function as
a cell calls it, and compares. The tolerance is half a unit of the last printed digit; where a source rounds on the way,
a wider one stands with its reason and the mark w. The rows of a printed table are one check. Values of sources that are
superseded must differ. What was recalled, or read in another work that quotes it, is marked so and not counted as published.</p>
${contents(survey)}
${summary(survey)}
${lookedAt(survey)}
${chapters(survey).map(chapter)}
${
  strays.length > 0 &&
  html`<section><h2>Checks of functions that are not there</h2><ul>${strays.map(
    ({ case: c }) => html`<li id="check-${c.id}">${c.id}: ${c.function}</li>`,
  )}</ul></section>`
}
<section class="kr-chapter" id="unchecked"><h2>Functions without a published check</h2><ul>${functions
      .filter((f) => f.published === 0)
      .map(
        ({ id, declaration, fromMemory }) =>
          html`<li>${functionName(id)}: ${declaration.unpublished ?? "no reason given"}${
            fromMemory > 0 && html` (${count(fromMemory, "check")} from memory)`
          }</li>`,
      )}</ul></section>`,
  );
}
