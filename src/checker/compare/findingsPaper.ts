import { html, type Markup } from "../../typeset/index.ts";
import type { Comparison } from "./compare.ts";
import { gradesInOrder, gradeWords, type Finding, type Grade } from "./finding.ts";
import { aboutOf, comparedWith, limits, outcomeOf, whereOf } from "./said.ts";

const style = `@page { size: A4 landscape; margin: 15mm; @bottom-right { content: counter(page) " / " counter(pages);
  font: 9pt sans-serif; } }
.kbf { font: 10pt/1.35 system-ui, "Segoe UI", sans-serif; color: #111; background: #fff; max-width: 267mm; margin: 0 auto; padding: 8px; }
.kbf h1 { font-size: 16pt; margin: 0 0 4pt; } .kbf h2 { font-size: 12pt; margin: 12pt 0 3pt; break-after: avoid; }
.kbf table { border-collapse: collapse; width: 100%; } .kbf th, .kbf td { border-bottom: 0.5pt solid #999;
  padding: 2pt 4pt; text-align: left; vertical-align: top; overflow-wrap: break-word; }
.kbf thead { display: table-header-group; } .kbf tr { break-inside: avoid; } .kbf .place { white-space: nowrap; }
  .kbf code { font: 9pt ui-monospace, Consolas, monospace; overflow-wrap: anywhere; }
.kbf .findings { table-layout: fixed; } .kbf .findings th { box-sizing: border-box; }
  .kbf .findings th:nth-child(1) { width: 21mm; } .kbf .findings th:nth-child(2) { width: 42mm; }
  .kbf .findings th:nth-child(4), .kbf .findings th:nth-child(5) { width: 50mm; }
  .kbf .findings th:nth-child(6) { width: 32mm; }
.kbf .facts th { width: 32mm; font-weight: 600; } .kbf .outcome { font-weight: 600; font-size: 12pt; }`;

function row(finding: Finding): Markup {
  return html`<tr><td class="place">${whereOf(finding) || "sheet"}</td><td>${aboutOf(finding)}</td>
    <td>${finding.what}</td><td>${finding.expected !== undefined && html`<code>${finding.expected}</code>`}</td>
    <td>${finding.found !== undefined && html`<code>${finding.found}</code>`}</td><td></td></tr>`;
}

function grade(of: Grade, findings: readonly Finding[]): Markup | false {
  const these = findings.filter((f) => f.grade === of);
  return (
    these.length > 0 &&
    html`<h2>${gradeWords[of].title}: ${these.length} (${gradeWords[of].means})</h2>
<table class="findings"><thead><tr><th>where</th><th>of</th><th>what</th>
<th>expected</th><th>found</th><th>answer, initials, date</th></tr></thead><tbody>${these.map(row)}</tbody></table>`
  );
}

/** The list of findings as an HTML document, for printing and filing. `date` as it is to be read. */
export function findingsPaper(
  comparison: Comparison,
  { date, host }: { readonly date: string; readonly host: string },
): string {
  const title = `Comparison of “${comparison.sheet}” with its template`;
  return html`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>${title}</title><style>${style}</style></head><body><main class="kbf">
<h1>${title}</h1>
<p class="outcome">${outcomeOf(comparison)}</p>
<table class="facts"><tbody>${[...comparedWith(comparison), ["date", date] as const, ["host", host] as const].map(
    ([what, text]) => html`<tr><th scope="row">${what}</th><td>${text}</td></tr>`,
  )}</tbody></table>
${gradesInOrder.map((g) => grade(g, comparison.findings))}
<p>${limits}</p>
</main></body></html>
`.toString();
}
