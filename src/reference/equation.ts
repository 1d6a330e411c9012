import { all, create, type MathJsInstance } from "mathjs/number";
import temml from "temml";
import { equationFor, type Formula } from "../core/index.ts";
import { equationTex, html, Markup } from "../typeset/index.ts";

let reader: MathJsInstance | undefined;

/** A step's equation as MathML, which needs no script; nothing for a table. */
export function equation(f: Formula, step: string): Markup {
  const declared = f.steps[step]!;
  if ("lookup" in declared) return html``;
  const tex = equationTex((reader ??= create(all!)), f, step);
  return html`<div class="kr-equation" tabindex="0" role="group" aria-label="Equation: ${equationFor(declared)}">${new Markup(
    temml.renderToString(tex, { displayMode: true, throwOnError: true }),
  )}</div>`;
}
