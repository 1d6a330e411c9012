import { basisText, families } from "../core/index.ts";
import { namespace, type WorksheetFunction } from "../../functions/index.ts";
import { link } from "./functionPage.ts";
import { html, type Markup } from "../typeset/index.ts";
import { namesPage, pageOf } from "./places.ts";
import { functionsOf, tasks } from "./tasks.ts";
import { sentence } from "./words.ts";

const entry = (f: WorksheetFunction): Markup =>
  html`<li>${link(f)} <span class="kr-facts">${sentence(f.summary)}</span></li>`;

/** The front page: every function under the step of the work that needs it. */
export function byTask(functions: readonly WorksheetFunction[]): Markup {
  const groups = tasks
    .map((task) => ({ task, parts: functionsOf(task, functions) }))
    .filter(({ parts }) => parts.length > 0);
  const listed = new Set(
    groups.flatMap(({ task, parts }) =>
      parts.filter(({ family }) => family !== undefined && task.families.includes(family)).flatMap((p) => p.functions),
    ),
  );
  const further = functions.filter((f) => !listed.has(f));
  return html`<h1>Reference by task</h1>
<p>The functions of ${namespace} in the order in which a prestressed member is designed. <a href="${namesPage}">All
${functions.length} by name</a>.</p>
<nav aria-label="Tasks"><ol class="kr-tasks">${groups.map(
    ({ task }) => html`<li><a href="#task-${task.id}">${task.title}</a></li>`,
  )}</ol></nav>
${groups.map(
  ({ task, parts }) => html`<section class="kr-task" id="task-${task.id}"><h2>${task.title}</h2><p>${task.asks}</p>
${parts.map(
  ({ family, functions: all }) =>
    html`${
      family !== undefined
        ? families[family] !== task.title && html`<h3>${families[family]}</h3>`
        : parts.length > 1 && html`<h3>Also</h3>`
    }<ul class="kr-list"${family !== undefined && html` id="family-${family}"`}>${all.map(entry)}</ul>`,
)}</section>`,
)}
${
  further.length > 0 &&
  html`<section class="kr-task" id="task-further"><h2>Further functions</h2>${[
    ...new Set(further.map((f) => (f.formula ?? f.spill)?.family ?? "workbook")),
  ].map(
    (family) =>
      html`<h3>${families[family]}</h3><ul class="kr-list" id="family-${family}">${further
        .filter((f) => ((f.formula ?? f.spill)?.family ?? "workbook") === family)
        .map(entry)}</ul>`,
  )}</section>`
}`;
}

/** Every function by its name, with source and basis. */
export function byName(functions: readonly WorksheetFunction[]): Markup {
  const sorted = [...functions].sort((a, b) => (a.id < b.id ? -1 : 1));
  const letters = [...new Set(sorted.map(({ id }) => id[0]!))];
  return html`<h1>Reference by name</h1>
<p>All ${functions.length} functions of ${namespace}. <a href="${pageOf()}">By task</a>.</p>
<nav aria-label="Letters"><p class="kr-letters">${letters.map((letter) => html`<a href="#letter-${letter}">${letter}</a> `)}</p></nav>
${letters.map(
  (letter) =>
    html`<section id="letter-${letter}"><h2>${letter}</h2><ul class="kr-list">${sorted
      .filter(({ id }) => id[0] === letter)
      .map((f) => {
        const source = (f.formula ?? f.spill)?.source;
        return html`<li>${link(f)} <span class="kr-facts">${sentence(f.summary)}${
          source &&
          html` · ${source.key === "mechanics" ? "mechanics" : source.key}${
            source.clause !== undefined && ` ${source.clause}`
          } (${basisText[source.basis]})`
        }</span></li>`;
      })}</ul></section>`,
)}`;
}
