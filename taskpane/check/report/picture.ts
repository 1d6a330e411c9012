import type * as Plots from "@observablehq/plot";
import type { Picture } from "../../../src/checker/index.ts";
import { html, Markup } from "../../../src/typeset/index.ts";
import { dashes, drawn } from "../../build/drawn.ts";

/** Pixels: as wide as the paper between its margins. */
const wholeWidth = 620;

const sample = (classes: string, dash: string): Markup =>
  html`<svg width="34" height="10" class="${classes}">
<path d="M1 5H33" fill="none" stroke="currentColor" stroke-width="2" stroke-dasharray="${dash}"/></svg>`;

/** Draws the pictures of a report, each with a list of its lines. */
export const pictureWith =
  (Plot: typeof Plots): Picture =>
  (chart, lines, width = wholeWidth) => {
    const svg = drawn(Plot, chart, lines, width);
    const values = lines.filter(({ kind }) => kind === "value");
    const limits = [...new Set(lines.flatMap(({ kind, name }) => (kind === "limit" ? [name] : [])))];
    const points = lines.flatMap(({ kind, name }) => (kind === "point" ? [name] : []));
    return html`${new Markup(svg.outerHTML)}<ul class="kn-legend">${values.map(
      ({ name }, i) => html`<li>${sample(`kb-series-${i % 6}`, dashes[i % 6]!)} ${name}</li>`,
    )}${limits.length > 0 && html`<li>${sample("kb-limit", "1.5 3.5")} ${limits.join(", ")}</li>`}${points.map(
      (name) => html`<li>◆ ${name}</li>`,
    )}</ul>`;
  };
