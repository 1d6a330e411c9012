import { version } from "../../core/index.ts";
import { html, type Markup } from "../../typeset/index.ts";
import { paperDocument } from "../paper/document.ts";
import type { Finding, FoundArgument, Verdict } from "./finding.ts";
import {
  countsText,
  evidenceText,
  limitsOfIdentifying,
  outcomeText,
  placeWords,
  verdictsInOrder,
  verdictWords,
  type IdentifiedList,
} from "./list.ts";

/** "μ = B2 in 1/rad" */
export function argumentText({ symbol, from, kind, unit, turned }: FoundArgument): string {
  const name = symbol.replace(/_/g, "");
  if (kind === "choice") return `${name}: ${from}`;
  const inUnit = unit === "–" ? "" : ` in ${unit}`;
  return `${name} = ${from}${inUnit}${turned ? ", sign turned" : ""}`;
}

function line(finding: Finding): Markup {
  const { place, label, formula, found } = finding;
  return html`<tr><td>${placeWords(place)}</td><td>${label}</td><td><code>${formula}</code></td>
<td>${found && html`<strong>${found.id}</strong><br>${found.source}<br>${found.arguments.map(argumentText).join("; ")}`}</td>
<td>${outcomeText(finding)}${found && html`<br><span class="kn-quiet">${evidenceText(finding)}</span>`}</td></tr>`;
}

function group(verdict: Verdict, findings: readonly Finding[]): Markup | false {
  const these = findings.filter((f) => f.verdict === verdict);
  return (
    these.length > 0 &&
    html`<h2>${verdictWords[verdict].title}: ${these.length}</h2>
<table class="kn-table"><thead><tr><th>cell</th><th>called</th><th>formula</th><th>function, source, arguments</th>
<th>what differs, evidence</th></tr></thead><tbody>${these.map(line)}</tbody></table>`
  );
}

/** The list as an HTML document, for printing and filing. `date` as it is to be read. */
export function identifiedPaper(
  list: IdentifiedList,
  { date, host }: { readonly date: string; readonly host: string },
): string {
  const title = `Formulas of “${list.sheet}” and what they compute`;
  return paperDocument(
    title,
    html`<h1>${title}</h1>
<p><strong>${countsText(list)}</strong></p>
<table class="kn-facts"><tbody><tr><th scope="row">date</th><td>${date}</td></tr>
<tr><th scope="row">host</th><td>${host}</td></tr><tr><th scope="row">version</th><td>Kernbook ${version}</td></tr></tbody></table>
${verdictsInOrder.map((verdict) => group(verdict, list.findings))}
<p class="kn-quiet">${limitsOfIdentifying}</p>`,
  );
}
