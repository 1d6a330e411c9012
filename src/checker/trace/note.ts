import {
  cautions,
  coherentUnit,
  equationFor,
  nameOf,
  readFactor,
  version,
  type Declaration,
  type Formula,
  type Trace,
} from "../../core/index.ts";
import {
  equationTex,
  html,
  Markup,
  numberText,
  ended,
  hasSymbol,
  sentence,
  substitutionTex,
  symbol,
  withUnit,
  type Parser,
} from "../../typeset/index.ts";
import { paperDocument } from "../paper/document.ts";
import type { Recognised } from "../recognise/recognised.ts";
import type { TracedCall, TracedOrigin } from "./call.ts";
import type { Collected } from "./collect.ts";
import { numberOf, shownPieces } from "./inSymbols.ts";
import type { Label } from "./labels.ts";
import { formulaInWords } from "./noteFormula.ts";
import { basisOf, placeInWork } from "./source.ts";
import type { PartOfSpill, TracedCell } from "./traceCell.ts";
import type { Branch } from "./tree.ts";

/** What sets equations: the reader of expressions, and TeX as MathML. */
export interface Setting {
  readonly math: Parser;
  readonly mathml: (tex: string) => string;
  /** How many signs of an equation fit beside one another, where it is fewer than on the width of the paper. */
  readonly across?: number;
}

interface NoteFacts {
  /** As it is to be read. */
  readonly date: string;
  readonly host: string;
  /** The sheet as its template's, where it is one. */
  readonly sheet?: Recognised;
  readonly depth: number;
}

const nameOfCell = (label: Label | undefined, address: string): Markup =>
  html`${label?.item && html`<span class="kn-quiet">${label.item}</span> `}${
    label?.description ? sentence(label.description) : address
  }${label?.symbol && html` ${symbol(label.symbol)}`}`;

/** So many signs fit across the paper; longer equations are set smaller, down to what can still be read. */
const across = 120;
const smallest = 0.6;

/** How many signs stand beside one another: of fractions and cases as if they stood in a row. */
const signsOf = (tex: string): number =>
  tex.replace(/\\(?:mathrm|text|left|right|frac)\b|[{}_^ ]/g, "").replace(/\\[a-zA-Z]+/g, "x").length;

const sizeOf = (tex: string, fits: number): number => Math.max(smallest, Math.min(1, fits / signsOf(tex)));

/** The right-hand side with numbers in place of names, as plain text. */
const plainNumbers = (equation: string, known: Readonly<Record<string, unknown>>): string =>
  `= ${equation.replace(/[A-Za-z_]\w*/g, (name) => (typeof known[name] === "number" ? numberText(known[name]) : name))}`;

/** An equation; one too long for the paper or that cannot be set stands as its plain text, and is left out where it has none. */
function set(tex: string, plain: string, { mathml, across: fits = across }: Setting): Markup {
  if (signsOf(tex) > fits / smallest && plain !== "") return html`<div class="kn-equation"><code>${plain}</code></div>`;
  let equation: string;
  try {
    equation = mathml(tex);
  } catch {
    // The typesetter throws errors of its own for what it cannot set.
    return plain === "" ? html`` : html`<div class="kn-equation"><code>${plain}</code></div>`;
  }
  const size = sizeOf(tex, fits);
  return html`<div class="kn-equation"${size < 1 && new Markup(` style="font-size: ${size.toFixed(2)}em"`)}>${new Markup(equation)}</div>`;
}

/** `numbers`: each equation a second time, with numbers in place of names. */
function stepsOf(formula: Formula, { steps, values }: Trace, setting: Setting, numbers = true): Markup {
  const known: Record<string, unknown> = { ...values, ...Object.fromEntries(steps.map((s) => [s.name, s.value])) };
  const several = steps.length > 1;
  return html`${steps.map(({ name, step, value, shown }) => {
    const reads = step.reads ?? coherentUnit(step.unit);
    const written =
      "lookup" in step
        ? html`<p class="kn-quiet">read from the table by ${
            formula.params[step.lookup.of]?.text ?? formula.steps[step.lookup.of]?.text ?? step.lookup.of
          }</p>`
        : html`${set(equationTex(setting.math, formula, name, values), equationFor(step, values), setting)}${
            numbers &&
            "equation" in step &&
            set(
              `= ${substitutionTex(setting.math, formula, name, known)}`,
              plainNumbers(equationFor(step, values), known),
              setting,
            )
          }`;
    return html`${
      several &&
      (step.text !== undefined || step.clause !== undefined) &&
      html`<p class="kn-quiet">${
        step.text !== undefined && sentence(step.text)
      }${step.clause !== undefined && ` ${step.clause}`}</p>`
    }${written}<p>${symbol(step.symbol)} = ${withUnit(value, reads)}${
      readFactor(step) !== 1 && ` = ${withUnit(shown, step.unit)}`
    }</p>`;
  })}`;
}

/** Where an argument comes from: its cells, what is computed from some, or the formula itself. */
function whence({ written, origin }: TracedOrigin): string {
  if (origin?.address !== undefined) return `, from ${origin.address}`;
  if (written.kind === "literal") return ", typed in the formula";
  return written.kind === "expression" || written.kind === "call" ? `, from ${written.text}` : "";
}

/** Each argument of a call: its name, and what was handed over. */
function argumentsOf(
  call: TracedCall,
): readonly { readonly name: Markup; readonly short: Markup; readonly value: string; readonly from: string }[] {
  const of = call.formula ?? call.spill;
  if (!of) return [];
  return Object.entries(of.params).map(([name, declared], i) => {
    const p = call.trace?.arguments[i]?.parameter ?? declared;
    const given = call.arguments[i];
    const value = given?.value;
    const conversion = call.trace?.arguments.find((a) => a.name === name)?.conversion?.split(" = ")[1];
    const text =
      typeof value === "number"
        ? p.kind === "number"
          ? withUnit(value, p.unit)
          : numberText(value)
        : value === null || value === undefined || value === ""
          ? "default" in p && p.default !== undefined
            ? `${p.kind === "number" ? withUnit(p.default, p.unit) : p.default} (default)`
            : "blank" in p && p.blank !== undefined
              ? `blank: ${p.blank}`
              : "not given"
          : Array.isArray(value)
            ? `${value.length} rows`
            : String(value);
    return {
      name: html`${symbol(p.symbol)} ${sentence(p.text)}`,
      short: hasSymbol(p.symbol) ? symbol(p.symbol) : sentence(p.text),
      value: text,
      from: `${given ? whence(given) : ""}${conversion === undefined ? "" : `; put in as ${conversion}`}`,
    };
  });
}

/** What a call says of itself beside its result. */
const remarks = (call: TracedCall, of: Declaration): Markup =>
  html`${(call.trace?.warnings ?? call.spilled?.warnings ?? []).map(
    (w) => html`<p class="kn-flag">Warning: ${sentence(ended(w))}</p>`,
  )}${call.flags.map((f) => html`<p class="kn-flag">Look at ${nameOf(of.params[f.parameter]!)}: ${f.message}.</p>`)}`;

/** A rule by itself, with the numbers of one call of it: short enough for half the width of the paper. */
export function rule(call: TracedCall, setting: Setting, used: string): Markup {
  const of = call.formula ?? call.spill;
  if (!of) return html``;
  const given = argumentsOf(call);
  return html`<section class="kn-item"><p><code>KERN.${of.id}</code>: ${sentence(of.summary)}.
<span class="kn-quiet">${placeInWork(of, call.trace?.values)}. Basis: ${basisOf(of, call.trace?.values)}. Here: ${used}.</span></p>
<p class="kn-quiet">${given.map(({ short, value }, i) => html`${i > 0 && "; "}${short} = ${value}`)}</p>
${call.trace && call.formula && stepsOf(call.trace.formula, call.trace, setting, false)}
${call.spill && set(call.spill.governing, call.spill.governing, setting)}
${call.refused && html`<p class="kn-flag">No result: ${call.refused.message}.</p>`}
${remarks(call, of)}</section>`;
}

function callOf(call: TracedCall, setting: Setting): Markup {
  const of = call.formula ?? call.spill;
  if (call.unknown) return html`<p class="kn-flag">${call.unknown.message}.</p>`;
  if (!of) return html`<p>KERN.${call.call.id}</p>`;
  return html`<p>By <code>KERN.${of.id}</code>: ${sentence(of.summary)}.</p>
<ul class="kn-quiet">${argumentsOf(call).map(({ name, value, from }) => html`<li>${name} = ${value}${from}</li>`)}</ul>
${call.trace && call.formula && stepsOf(call.trace.formula, call.trace, setting)}
${call.spill && set(call.spill.governing, call.spill.governing, setting)}
${call.refused && html`<p class="kn-flag">No result: ${call.refused.message}.</p>`}
<p class="kn-quiet">${placeInWork(of, call.trace?.values)}. Basis: ${basisOf(of, call.trace?.values)}.</p>
${remarks(call, of)}`;
}

function partOf({ address, row, column, call }: PartOfSpill): Markup {
  const { symbol: sign, text, unit } = Object.values(call.spilled.of.columns)[column]!;
  return html`<p>Row ${row + 1}, column ${column + 1} of the result in ${address}: ${symbol(sign)} ${sentence(text)}${
    unit !== "–" && ` in ${unit}`
  }.</p>`;
}

/** How a cell's value came about: its equation with numbers, arguments and source; `home`: the sheet it is read from. */
export function quantity(cell: TracedCell, setting: Setting, home: string): Markup {
  const { content, label } = cell;
  const value = content.error
    ? content.error.code
    : typeof content.value === "number"
      ? withUnit(content.value, label?.unit ?? "")
      : content.text || "empty";
  const whole = cell.calls.find((c) => c.call.whole);
  const pieces = content.formula === undefined ? [] : shownPieces(content.formula, cell.originOf);
  return html`<section class="kn-item"><h3>${nameOfCell(label, cell.address)} <span class="kn-quiet">${
    cell.place.sheet === home ? cell.address : `${cell.place.sheet}!${cell.address}`
  }</span></h3>
${
  !whole &&
  content.formula !== undefined &&
  html`<p><code>${formulaInWords(pieces)}</code></p>${
    pieces.some((p) => numberOf(p) !== p.text) && html`<p><code>= ${pieces.map((p) => numberOf(p)).join("")}</code></p>`
  }`
}
${cell.calls.map((c) => callOf(c, setting))}
${cell.partOf && partOf(cell.partOf)}
${cell.unreadable !== undefined && html`<p class="kn-flag">The formula cannot be read: ${cell.unreadable}.</p>`}
<p class="kn-gives">${label?.symbol && html`${symbol(label.symbol)} `}= ${value}</p>${
    cell.misfit !== undefined && html`<p class="kn-flag">Look at the unit: ${cell.misfit}.</p>`
  }${
    cell.unlike !== undefined &&
    html`<p class="kn-flag">${cell.unlike}. Do not use this value before the workbook is recalculated.</p>`
  }</section>`;
}

function inputs(all: readonly Branch[]): Markup {
  if (all.length === 0) return html`<p>None.</p>`;
  return html`<table class="kn-table"><thead><tr><th scope="col">item</th><th scope="col">quantity</th>
<th scope="col">symbol</th><th scope="col" class="kn-number">value</th><th scope="col">unit</th>
<th scope="col">from</th><th scope="col">cell</th></tr></thead><tbody>${all.map(
    ({ label, address, text, value, unit, source }) =>
      html`<tr><td>${label?.item ?? ""}</td><td>${
        label?.description ? sentence(label.description) : ""
      }</td><td>${symbol(label?.symbol ?? "")}</td>
<td class="kn-number">${typeof value === "number" ? numberText(value) : text}</td>
<td>${unit}</td><td>${source}</td><td>${address}</td></tr>`,
  )}</tbody></table>`;
}

/** How a value came about, as an HTML document to print and file: inputs, then each quantity in order of calculation. */
export function calculationNote(
  { root, inputs: ends, quantities, notFollowed: cells }: Collected,
  { date, host, sheet, depth }: NoteFacts,
  setting: Setting,
): string {
  // Ranges too long to follow cell by cell have formulas, and so are no inputs.
  const computed = (branch: Branch): boolean => branch.source.startsWith("formulas");
  const given = ends.filter((branch) => !computed(branch));
  const notFollowed = [...ends.filter(computed), ...cells];
  const about = root.label?.description || root.address;
  const title = `Calculation note: ${about}`;
  const facts: readonly (readonly [string, string])[] = [
    ["Sheet", root.place.sheet],
    ["Cell", root.address],
    ["Date", date],
    ...(sheet
      ? ([
          ["Template", `${sheet.template.title}, ${sheet.head.templateId} ${sheet.head.templateVersion}`],
          ["Hash at its building", sheet.head.hash],
          ["Functions at its building", sheet.head.functionsVersion],
        ] as const)
      : []),
    ["Functions of this note", `Kernbook ${version}`],
    ["Read from", host],
    ["Followed", Number.isFinite(depth) ? `${depth} ${depth === 1 ? "step" : "steps"} back` : "down to the inputs"],
  ];
  return paperDocument(
    title,
    html`<h1>Calculation note</h1>
<p>${nameOfCell(root.label, root.address)}</p>
<table class="kn-facts"><tbody>${facts
      .filter(([, text]) => text !== "")
      .map(([what, text]) => html`<tr><th scope="row">${what}</th><td>${text}</td></tr>`)}</tbody></table>
<h2>Inputs</h2>
${inputs(given)}
${
  notFollowed.length > 0 &&
  html`<h2>Values taken as they stand</h2><p class="kn-quiet">They have formulas of their own, which this note does not follow.</p>${inputs(
    notFollowed,
  )}`
}
<h2>Calculation</h2>
${quantities.map((cell) => quantity(cell, setting, root.place.sheet))}
<aside class="kn-caution"><p>${cautions.competence}</p><p>${
      cautions.stressing
    }</p><p>The equations and clauses are those of the functions named;
check them against your own copy of the standard in force and its National Annex.
The note shows how the sheet's value comes about; it is no independent check.</p></aside>`,
  );
}
