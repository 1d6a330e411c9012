import { coherentUnit, readFactor, type Formula, type Step, type Trace } from "../core/index.ts";
import { hasSymbol, html, numberText, withUnit, type Markup } from "../typeset/index.ts";
import { equation } from "./equation.ts";
import { sentence, symbol } from "./words.ts";

/** The table of a step as data: by choice, or by points between which it is linear. */
function tableOf(f: Formula, step: Extract<Step, { readonly lookup: unknown }>): Markup {
  const { lookup } = step;
  const of = f.params[lookup.of] ?? f.steps[lookup.of];
  const unit = step.reads ?? coherentUnit(step.unit);
  const head = html`${of && hasSymbol(of.symbol) ? symbol(of.symbol) : (of?.text ?? lookup.of)}`;
  const value = html`${symbol(step.symbol)}${unit !== "–" && html` <small>${unit}</small>`}`;
  const meaning = (key: string): string | undefined =>
    of && "kind" in of && of.kind === "choice" ? of.values.find((v) => String(v.value) === key)?.text : undefined;
  const rows =
    "values" in lookup
      ? Object.entries(lookup.values).map(
          ([key, v]) =>
            html`<tr><th scope="row"><code>${key}</code>${
              meaning(key) !== undefined && meaning(key) !== key && html` ${sentence(meaning(key)!)}`
            }</th><td>${numberText(v)}</td></tr>`,
        )
      : lookup.points.map(([x, y]) => html`<tr><th scope="row">${numberText(x)}</th><td>${numberText(y)}</td></tr>`);
  return html`<div class="kr-scroll" tabindex="0" role="group" aria-label="Table of ${step.text ?? step.symbol}">
<table class="kr-table kr-lookup"><thead><tr><th scope="col">${head}</th><th scope="col">${value}</th></tr></thead>
<tbody>${rows}</tbody></table></div>${
    "points" in lookup &&
    html`<p class="kr-facts">Linear between these points${step.text !== undefined && html`; ${sentence(step.text)}`}.</p>`
  }`;
}

/** The equation or the steps, with clause and table data. */
export function stepsMarkup(f: Formula): Markup {
  const names = Object.keys(f.steps);
  const several = names.length > 1;
  return html`<ol class="kr-steps">${names.map((name) => {
    const step = f.steps[name]!;
    const about = (several && step.text !== undefined) || step.clause !== undefined;
    return html`<li>${
      about &&
      html`<div class="kr-facts">${several && step.text !== undefined && sentence(step.text)}${
        step.clause !== undefined && html` <b>${step.clause}</b>`
      }</div>`
    }${"lookup" in step ? tableOf(f, step) : equation(f, name)}${
      several &&
      step.unit !== "–" &&
      !("lookup" in step) &&
      html`<div class="kr-facts">${symbol(step.symbol)} in ${step.unit}</div>`
    }</li>`;
  })}</ol>`;
}

/** Every step's value of an executed example. */
export function stepValues({ steps }: Trace): Markup {
  if (steps.length < 2) return html``;
  return html`<p>On the way:</p><ul class="kr-values">${steps
    .slice(0, -1)
    .map(
      ({ step, value, shown }) =>
        html`<li>${symbol(step.symbol)}${
          step.text !== undefined && html` <span class="kr-facts">${sentence(step.text)}</span>`
        } = ${withUnit(shown, step.unit)}${
          readFactor(step) !== 1 && html` = ${withUnit(value, step.reads ?? coherentUnit(step.unit))}`
        }</li>`,
    )}</ul>`;
}
