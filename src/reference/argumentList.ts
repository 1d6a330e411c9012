import {
  allowedText,
  blankText,
  everydayText,
  format,
  rowsAllowed,
  type Choice,
  type Quantity,
  type Table,
} from "../core/index.ts";
import type { FunctionParameter } from "../../functions/index.ts";
import { html, type Markup } from "../typeset/index.ts";
import { called, readsAs } from "./quantities.ts";
import { sentence, symbol, unitText } from "./words.ts";

/** Unit, allowed, everyday and valid range, default: what a number may be. */
function numberFacts(q: Quantity): readonly Markup[] {
  if (q.varies) {
    const { argument: by, as } = q.varies;
    return [
      html`by <code>${by}</code>`,
      ...Object.entries(as).flatMap(([value, own]) =>
        own.kind === "number" ? [html`<code>${value}</code>: ${sentence(own.text)}, ${joined(numberFacts(own))}`] : [],
      ),
      ...blankFact(q),
    ];
  }
  if (q.follows)
    return [
      html`by <code>${q.follows.argument}</code>`,
      ...Object.entries(q.follows.as).map(
        ([value, as]) => html`<code>${value}</code>: ${sentence(as.text)}, ${joined(numberFacts(as))}`,
      ),
      ...blankFact(q),
    ];
  const reads = readsAs(q);
  const allowed = allowedText(q);
  return [
    html`<b>${unitText(q.unit)}</b>${reads !== "" && html` (the equation takes ${reads})`}`,
    ...(q.whole ? [html`whole number`] : []),
    html`${allowed === "" ? "any number" : html`allowed ${allowed}`}`,
    ...(q.typical ? [html`usually ${everydayText(q)}`] : []),
    ...(q.valid
      ? [
          html`${q.valid.where} holds for ${allowedText({ unit: q.unit, min: q.valid.range[0], max: q.valid.range[1] })}`,
        ]
      : []),
    ...(q.default === undefined ? [] : [html`default ${format(q.default)}`]),
    ...blankFact(q),
  ];
}

const blankFact = (of: Quantity | Choice | Table): readonly Markup[] =>
  of.blank === undefined ? [] : [html`${blankText(of, "may stay blank: ")}`];

const joined = (facts: readonly Markup[]): Markup => html`${facts.map((fact, i) => html`${i > 0 && html`; `}${fact}`)}`;

function choices(of: Choice): Markup {
  const { values, default: fallback, blank } = of;
  return html`${blank !== undefined && html`<div class="kr-facts">${joined(blankFact(of))}</div>`}<ul class="kr-choices">${values.map(
    ({ value, text }) =>
      html`<li><code>${value}</code>${String(value) !== text && html` ${sentence(text)}`}${
        value === fallback && html` <span class="kr-tag">default</span>`
      }</li>`,
  )}</ul>`;
}

/** Each of the tables that a range may be. */
function kinds(of: NonNullable<Table["kinds"]>): Markup {
  return html`${Object.values(of.tables).map((kind) => html`<p>${sentence(kind.text)}.</p>${columns(kind)}`)}`;
}

function columns(table: Table): Markup {
  const { columns: all, minRows, optional, kinds: several } = table;
  if (several) return kinds(several);
  return html`<p class="kr-facts">A range, one row each; at least ${minRows} row${minRows !== 1 && "s"}, at most
${rowsAllowed(table)}${optional && "; may be left out"}${
    table.blank !== undefined && html`; ${joined(blankFact(table))}`
  }. Its columns:</p>
<ol class="kr-columns">${Object.values(all).map(
    (c) =>
      html`<li>${called(c)}${called(c).text !== c.text && html` ${sentence(c.text)}`}${
        c.kind === "number" ? html`<div class="kr-facts">${joined(numberFacts(c))}</div>` : choices(c)
      }</li>`,
  )}</ol>`;
}

/** One argument: name, symbol, meaning and what it takes. */
export function argument(p: FunctionParameter): Markup {
  const { name, parameter, repeating } = p;
  const optional = p.optional;
  return html`<li><div><code>${name}${repeating && " …"}</code> ${symbol(parameter.symbol)}${
    optional && html` <span class="kr-tag">may be left out</span>`
  }</div>
<div>${sentence(parameter.text)}${
    parameter.kind === "number"
      ? html`<div class="kr-facts">${joined(numberFacts(parameter))}</div>`
      : parameter.kind === "choice"
        ? choices(parameter)
        : parameter.kind === "table"
          ? columns(parameter)
          : html`<div class="kr-facts">text</div>`
  }</div></li>`;
}
