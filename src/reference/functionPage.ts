import {
  basisText,
  families,
  formulaIn,
  parametersFor,
  type Argument,
  type Declaration,
  type Family,
  type Formula,
  type Quantity,
} from "../core/index.ts";
import { namespace, type WorksheetFunction } from "../../functions/index.ts";
import { countsAsPublished, judge, type PublishedCase } from "../published/index.ts";
import { hasSymbol, html, withUnit, type Markup } from "../typeset/index.ts";
import { argument } from "./argumentList.ts";
import { cautionsFor } from "./cautions.ts";
import { checkMarkup } from "./checks.ts";
import { exampleOf, formulaText, type Example } from "./example.ts";
import { pageOf } from "./places.ts";
import { rowsTable, valueOf } from "./quantities.ts";
import { relatedTo } from "./related.ts";
import { stepsMarkup, stepValues } from "./steps.ts";
import { NoExample } from "./typicalArguments.ts";
import { functionName, sentence, sourceWords, symbol, unitText } from "./words.ts";

export interface Library {
  readonly functions: readonly WorksheetFunction[];
  readonly cases: readonly PublishedCase[];
}

/** More related functions than this are folded. */
const most = 8;

export const link = (f: Pick<WorksheetFunction, "id">): Markup =>
  html`<a href="${pageOf(f.id)}">${functionName(f.id, "")}</a>`;

function cautionBox(of: WorksheetFunction): Markup {
  const all = cautionsFor(of);
  return html`${
    all.length > 0 &&
    html`<aside class="kr-caution" aria-label="Cautions"><ul>${all.map((c) => html`<li>${c}</li>`)}</ul></aside>`
  }`;
}

function syntax(of: WorksheetFunction): Markup {
  const names = of.parameters.map(({ name, optional, repeating }) => {
    const text = `${name}${repeating ? ", …" : ""}`;
    return optional ? `[${text}]` : text;
  });
  return html`<p class="kr-syntax"><code>=${functionName(of.id)}(${names.join(", ")})</code></p>`;
}

const resultWords = ({ symbol: own, text, unit }: Quantity): Markup =>
  html`${symbol(own)}${hasSymbol(own) && ", "}${sentence(text)}; <b>${unitText(unit)}</b>`;

function gives({ formula, spill, result }: WorksheetFunction): Markup {
  if (formula?.variants)
    return html`<p>Gives, by <code>${formula.variants.argument}</code>:</p><ul>${Object.entries(
      formula.variants.as,
    ).map(([value, { result: own }]) => html`<li><code>${value}</code>: ${resultWords(own)}</li>`)}</ul>`;
  if (formula) return html`<p>Gives ${resultWords(formula.result)}.</p>`;
  if (spill)
    return html`<p>Fills several cells, one row each, with the columns:</p><ol class="kr-columns">${Object.values(
      spill.columns,
    ).map((c) => html`<li>${symbol(c.symbol)} ${sentence(c.text)}; <b>${unitText(c.unit)}</b></li>`)}</ol>`;
  return html`<p>Gives ${result === "string" ? "text" : "a number"}.</p>`;
}

function whence({ from }: Example): Markup {
  if (from === "everyday values")
    return html`<p>The arguments are everyday values chosen for this page; they belong to no project.</p>`;
  if (from === "fixed") return html``;
  return html`<p>The arguments are those of the published check ${from.published.id} below${
    from.published.rows.length > 1 && html`, one of its rows`
  }: <cite>${from.published.source}</cite>; ${from.published.where}.</p>`;
}

/** The whole value in full precision stands in the element too: tests hold it against the function. */
function resultMarkup(of: WorksheetFunction, { args, value }: Example): Markup {
  const formula = of.formula && formulaIn(of.formula, args);
  if (typeof value === "object")
    return html`<data class="kr-result" value="${JSON.stringify(value)}">${
      of.spill ? rowsTable(of.spill.columns, value) : html`${value.length} rows`
    }</data>`;
  const text =
    typeof value === "string"
      ? value === ""
        ? "an empty text"
        : `“${value}”`
      : withUnit(value, formula?.result.unit ?? "");
  return html`<p class="kr-gives">${
    formula && hasSymbol(formula.result.symbol) && html`${symbol(formula.result.symbol)} = `
  }<data class="kr-result" value="${JSON.stringify(value)}">${text}</data></p>`;
}

/** A function without an example still gets its page; the tests ask for the example. */
function example(of: WorksheetFunction, { cases }: Library): Markup {
  try {
    return exampleMarkup(of, exampleOf(of, cases));
  } catch (error) {
    if (!(error instanceof NoExample)) throw error;
    return html`<section><h2>Example</h2><p>${error.message}.</p></section>`;
  }
}

function exampleMarkup(of: WorksheetFunction, e: Example): Markup {
  const declaration = of.formula ?? of.spill;
  const inForce = declaration ? parametersFor(declaration, e.args) : [];
  const rows = of.parameters
    .map((declared, i): typeof declared => ({ ...declared, parameter: inForce[i] ?? declared.parameter }))
    .map((p, i) => (p.repeating ? { p, values: e.args.slice(i) } : { p, values: [e.args[i]] as readonly Argument[] }));
  return html`<section><h2>Example</h2>
${whence(e)}
<p class="kr-syntax"><code class="kr-call">${formulaText(of, e.args)}</code></p>
${
  rows.length > 0 &&
  html`<ul class="kr-values">${rows.map(
    ({ p, values }) =>
      html`<li>${
        hasSymbol(p.parameter.symbol) ? symbol(p.parameter.symbol) : html`<code>${p.name}</code>`
      } <span class="kr-facts">${sentence(p.parameter.text)}</span> = ${values.map(
        (v, i) => html`${i > 0 && "; "}${valueOf(p.parameter, v)}`,
      )}</li>`,
  )}</ul>`
}
${e.trace && stepValues(e.trace)}
${resultMarkup(of, e)}
${
  e.warnings.length > 0 &&
  html`<p>What ${namespace}.WARNINGS says of it:</p><ul>${e.warnings.map((w) => html`<li>${sentence(w)}</li>`)}</ul>`
}
<p class="kr-facts">Computed by the function itself when this page was written.</p></section>`;
}

function checks(of: WorksheetFunction, { cases }: Library): Markup {
  const declaration = of.formula ?? of.spill;
  if (!declaration) return html``;
  const own = cases.filter((c) => c.function === of.id).map((c) => judge(c, [of]));
  const published = own.filter((j) => countsAsPublished(j.case));
  const passed = published.filter((j) => j.passed).length;
  const words =
    published.length === 0
      ? html`<p>No published result stands against this function${
          declaration.unpublished !== undefined && html`: ${declaration.unpublished.replace(/\.$/, "")}`
        }.</p>`
      : html`<p>${passed} of ${published.length} published ${
          published.length === 1 ? "result is" : "results are"
        } reproduced within half a unit of the last printed digit, or within the wider tolerance whose reason stands beside it.</p>`;
  return html`<section><h2>Published checks</h2>${words}${own.map((j) => checkMarkup(j, declaration, 3))}</section>`;
}

function related(of: WorksheetFunction, { functions }: Library): Markup {
  const { sameName, sameQuantity, givesArgument, takesResult } = relatedTo(of, functions);
  const list = (all: readonly WorksheetFunction[]): Markup =>
    html`<ul>${all.map((f) => html`<li>${link(f)} <span class="kr-facts">${sentence(f.summary)}</span></li>`)}</ul>`;
  const familyOf = (f: WorksheetFunction): Family => (f.formula ?? f.spill)?.family ?? "workbook";
  const family = familyOf(of);
  const inline = (all: readonly WorksheetFunction[]): Markup =>
    html`${all.map((f, i) => html`${i > 0 && ", "}${link(f)}`)}`;
  // A long list is parted by subject and opens when it is wanted.
  const names = (all: readonly WorksheetFunction[]): Markup =>
    all.length <= most
      ? inline(all)
      : html`<details><summary>${all.length} functions</summary><ul>${[...new Set(all.map(familyOf))].map(
          (subject) => html`<li>${families[subject]}: ${inline(all.filter((f) => familyOf(f) === subject))}</li>`,
        )}</ul></details>`;
  return html`<section><h2>Related</h2>
${sameName.length > 0 && html`<h3>To another standard</h3>${list(sameName)}`}
${
  sameQuantity.length > 0 &&
  html`<h3>The same quantity by another rule or for another case</h3>${
    sameQuantity.length <= most ? list(sameQuantity) : names(sameQuantity)
  }`
}
${
  givesArgument.length > 0 &&
  html`<h3>Functions that give an argument</h3><ul>${givesArgument.map(
    ({ parameter, functions: giving }) => html`<li><code>${parameter}</code>: ${names(giving)}</li>`,
  )}</ul>`
}
${takesResult.length > 0 && html`<h3>Functions that take the result</h3><div>${names(takesResult)}</div>`}
<p><a href="${pageOf()}#family-${family}">All of ${families[family]}</a></p></section>`;
}

/** Where a choice among the arguments takes the rule of a standard. */
function sourcesByChoice({ sourceFollows }: Declaration): Markup {
  if (!sourceFollows) return html``;
  const { argument: name, as } = sourceFollows;
  return html`${Object.entries(as).map(([value, source]) => html`<h3>With <code>${name}</code> ${value}</h3>${sourceWords(source)}`)}`;
}

/** How a formula computes: its equation or steps, and why its units do not follow where they don't. */
function workings(formula: Formula, heading: 2 | 3): Markup {
  const title = Object.keys(formula.steps).length > 1 ? "Steps" : "Equation";
  return html`${heading === 2 && html`<h2>${title}</h2>`}${stepsMarkup(formula)}${
    formula.empirical !== undefined &&
    html`<p class="kr-facts">An empirical equation, whose units do not follow from one another: ${formula.empirical.replace(
      /\.$/,
      "",
    )}.</p>`
  }`;
}

const notesOfOwn = ({ notes: own = [] }: Formula, { notes: all = [] }: Formula): readonly string[] =>
  own.filter((note) => !all.includes(note));

/** The workings of a function, or of each formula that it may be. */
function allWorkings(formula: Formula): Markup {
  if (!formula.variants) return html`<section>${workings(formula, 2)}</section>`;
  const { argument: name, as } = formula.variants;
  return html`<section><h2>Steps</h2>${Object.entries(as).map(
    ([value, own]) =>
      html`<h3>With <code>${name}</code> ${value}: ${sentence(own.summary)}</h3>${
        notesOfOwn(own, formula).length > 0 &&
        html`<ul>
        ${notesOfOwn(own, formula).map((note) => html`<li>${sentence(note)}</li>`)}
      </ul>`
      }${workings(own, 3)}`,
  )}</section>`;
}

/** The reference page of a function: its whole content below the page's head. */
export function functionPage(of: WorksheetFunction, library: Library): Markup {
  const declaration = of.formula ?? of.spill;
  const said = new Set(cautionsFor(of));
  const notes = declaration?.notes?.filter((n) => !said.has(n)) ?? [];
  return html`<p class="kr-subject">${families[declaration?.family ?? "workbook"]}${
    declaration && html` · <span class="kr-tag">${basisText[declaration.source.basis]}</span>`
  }</p>
<h1>${functionName(of.id)}</h1>
<p class="kr-summary">${sentence(of.summary)}.</p>
${cautionBox(of)}
${syntax(of)}
${gives(of)}
${of.parameters.length > 0 && html`<section><h2>Arguments</h2><ol class="kr-arguments">${of.parameters.map(argument)}</ol></section>`}
${notes.length > 0 && html`<section><h2>Definitions and signs</h2><ul>${notes.map((n) => html`<li>${sentence(n)}</li>`)}</ul></section>`}
${of.formula && allWorkings(of.formula)}
${declaration && html`<section><h2>Source</h2>${sourceWords(declaration.source)}${sourcesByChoice(declaration)}</section>`}
${example(of, library)}
${checks(of, library)}
${related(of, library)}`;
}
