import {
  formulaIn,
  parametersFor,
  type Argument,
  type Declaration,
  type Formula,
  type Parameter,
} from "../core/index.ts";
import { argumentsOf, asItShould, halfLastDigit, uncounted, type Judgement, type Outcome } from "../published/index.ts";
import { html, numberText, type Markup } from "../typeset/index.ts";
import { called, valueOf } from "./quantities.ts";
import { sentence, symbol } from "./words.ts";

/** The verdict on one printed value, in words. */
export function verdictOf({ case: c }: Judgement, outcome: Outcome): string {
  if (outcome.error !== undefined) return `FAIL: ${outcome.error}`;
  if (!asItShould(c, outcome)) return "FAIL";
  if (c.mustDiffer) return outcome.agrees ? "agrees by chance" : "differs, as it should";
  return "OK";
}

/** Computed values with one digit more than is compared. */
function computedText(value: number, tolerance: number): string {
  const digits = Math.ceil(Math.log10(Math.max(Math.abs(value), 1e-300) / tolerance)) + 1;
  return String(Number(value.toPrecision(Math.min(15, Math.max(3, digits))))).replace(/-/g, "−");
}

const key = (a: Argument): string => JSON.stringify(a ?? null);

interface Inputs {
  readonly parameters: readonly Parameter[];
  /** By row, then by argument. */
  readonly rows: readonly (readonly Argument[])[];
  /** Which arguments change from row to row. */
  readonly varies: readonly boolean[];
  /** What the source prints instead of the result, where it is so in every row. */
  readonly then?: string;
}

function inputsOf(j: Judgement, f: Declaration): Inputs {
  const rows = j.outcomes.map(({ row }) => argumentsOf(row, f));
  const parameters = parametersFor(f, rows[0] ?? []);
  const thens = new Set(j.outcomes.map(({ row }) => row.then?.text));
  const [then] = thens;
  return {
    parameters,
    rows,
    varies: parameters.map((_, i) => rows.some((row) => key(row[i]) !== key(rows[0]![i]))),
    ...(thens.size === 1 && then !== undefined && { then }),
  };
}

const given = (a: Argument): boolean => a !== undefined && a !== null && a !== "";

/** Arguments as "μ = 0.2 1/rad", those of ranges as tables. */
function inputList({ parameters, rows }: Inputs, row: number, wanted: (i: number) => boolean): Markup {
  const shown = parameters
    .map((p, i) => ({ p, value: rows[row]![i], i }))
    .filter(({ value, i }) => wanted(i) && given(value));
  const plain = shown.filter(({ value }) => !Array.isArray(value));
  return html`${plain.map(
    ({ p, value }, i) => html`${i > 0 && html`; `}<span class="kr-input">${called(p)} = ${valueOf(p, value)}</span>`,
  )}${shown
    .filter(({ value }) => Array.isArray(value))
    .map(({ p, value }) => html`<div>${called(p)}: ${valueOf(p, value)}</div>`)}`;
}

function cellOf(p: Parameter, value: Argument): Markup {
  if (!given(value)) return html`–`;
  return p.kind === "number" && typeof value === "number" ? html`${numberText(value)}` : valueOf(p, value);
}

function row(j: Judgement, o: Outcome, r: number, inputs: Inputs): Markup {
  const good = asItShould(j.case, o);
  const wider = o.tolerance > halfLastDigit(o.row.printed) * (1 + 1e-9);
  return html`<tr>${inputs.parameters.map(
    (p, i) => inputs.varies[i] === true && html`<td>${cellOf(p, inputs.rows[r]![i])}</td>`,
  )}<td>${o.row.printed.replace("-", "−")}${
    o.row.then && !inputs.then && html`<br><small>${sentence(o.row.then.text)}</small>`
  }</td><td>${
    o.computed === undefined ? "–" : computedText(o.computed, o.tolerance)
  }</td><td>±${numberText(o.tolerance)}${
    wider && html`<sup title="wider than half a unit of the last printed digit">w</sup>`
  }</td><td class="${good ? "kr-good" : "kr-bad"}">${verdictOf(j, o)}${
    o.row.because !== undefined && html`<br><small>wider tolerance because ${o.row.because}</small>`
  }</td></tr>`;
}

const unitHead = (p: Parameter): Markup | false =>
  p.kind === "number" && p.unit !== "–" && html` <small>${p.unit}</small>`;

const isFormula = (f: Declaration): f is Formula => "steps" in f;

/** One case: its source and place, the inputs in the cells' units, and each printed value beside the computed one. */
export function checkMarkup(j: Judgement, f: Declaration, level: 3 | 4): Markup {
  const c = j.case;
  const inputs = inputsOf(j, f);
  const step = c.step === undefined || !isFormula(f) ? undefined : formulaIn(f, inputs.rows[0] ?? []).steps[c.step];
  const heading = html`${c.id} <span class="kr-tag ${j.passed ? "kr-good" : "kr-bad"}">${
    j.passed ? (c.mustDiffer ? "differs, as it should" : "passed") : "FAILED"
  }</span>${c.basis !== "published" && html` <span class="kr-tag kr-open">${uncounted[c.basis]}</span>`}${
    c.mustDiffer && html` <span class="kr-tag kr-open">superseded: must differ</span>`
  }`;
  const common = inputList(inputs, 0, (i) => !inputs.varies[i]);
  return html`<section class="kr-check">${level === 3 ? html`<h3>${heading}</h3>` : html`<h4>${heading}</h4>`}
<p><cite>${c.source}</cite>; ${c.where}.</p>
${
  c.step !== undefined &&
  html`<p>Compared: the step ${step ? symbol(step.symbol) : c.step}${step?.text !== undefined && html`, ${step.text}`}.</p>`
}
${common.text !== "" && html`<div class="kr-inputs">Inputs${inputs.varies.some(Boolean) && html` of every row`}: ${common}</div>`}
${inputs.then !== undefined && html`<p>Printed: ${sentence(inputs.then)}.</p>`}
<div class="kr-scroll" tabindex="0" role="group" aria-label="Values of ${c.id}"><table class="kr-table">
<thead><tr>${inputs.parameters.map(
    (p, i) => inputs.varies[i] === true && html`<th scope="col">${called(p)}${unitHead(p)}</th>`,
  )}<th scope="col">printed <small>${c.unit}</small></th><th scope="col">computed</th><th scope="col">tolerance</th>
<th scope="col">verdict</th></tr></thead>
<tbody>${j.outcomes.map((o, r) => row(j, o, r, inputs))}</tbody></table></div>
${c.because !== undefined && html`<p>Wider tolerance because ${c.because}.</p>`}
${c.note !== undefined && html`<p>Note: ${c.note}${c.note.endsWith(".") ? "" : "."}</p>`}
</section>`;
}
