import { logoToTake, type Host } from "../../hosts/index.ts";
import { cautions, version } from "../../core/index.ts";
import { asRead, logoName, type Logo } from "../../sheet/index.ts";
import { html, type Markup } from "../../typeset/index.ts";
import { paperDocument } from "../paper/document.ts";
import { basisOf, placeInWork } from "../trace/source.ts";
import type { Setting } from "../trace/note.ts";
import { Tracer, type TracedCell } from "../trace/traceCell.ts";
import { utilisationText, workingsOf, type Picture } from "./chapter.ts";
import { equationsOf, firstUses } from "./equations.ts";
import { Followed } from "./followed.ts";
import { oneOfEachFormula } from "./oneOfEachFormula.ts";
import { chapterInBrief } from "./inBrief.ts";
import { NotReportable, sheetsOfMember } from "./memberSheets.ts";
import { assumedText, noVerdict, readSheet, type ReadCheck, type ReadSheet } from "./read.ts";

export interface ReportFacts {
  /** As it is to be read. */
  readonly date: string;
}

export interface ReportOptions {
  readonly setting: Setting;
  readonly picture: Picture;
  /** With an appendix: every value with its equation and numbers, every row of every table. */
  readonly appendix?: boolean;
  /** After each value; `share` runs from 0 to 1. */
  readonly progress?: (share: number) => void;
  readonly signal?: AbortSignal;
}

/** The check that governs, as the sheet's own first page says it; undefined where none has a number. */
export function governing({ checks }: ReadSheet): ReadCheck | undefined {
  const [first] = asRead(checks, (check) => check);
  return typeof first?.utilisation === "number" ? first : undefined;
}

/** The sheets of a member as a report tells them. */
export async function readMember(host: Host, sheet: string): Promise<readonly [ReadSheet, ...ReadSheet[]]> {
  const [source, ...linked] = await sheetsOfMember(host, sheet);
  return [readSheet(source), ...linked.map(readSheet)];
}

/** "41 of 85 rows and tables checked, 2 stale" */
export function checkedText({ marks: { parts, marked, stale } }: ReadSheet): string {
  return `${marked} of ${parts}${stale > 0 ? `, ${stale} stale` : ""}`;
}

function summary(sheets: readonly ReadSheet[]): Markup {
  return html`<table class="kn-table"><thead><tr><th scope="col">chapter</th><th scope="col">sheet</th>
<th scope="col">verdict</th><th scope="col">governing check</th><th scope="col" class="kn-number">utilisation</th>
<th scope="col">where</th><th scope="col">rows checked</th></tr></thead><tbody>${sheets.map((sheet, i) => {
    const most = governing(sheet);
    const assumed = assumedText(sheet);
    return html`<tr><td><a href="#sheet-${i + 1}">${i + 1}</a></td><td>${sheet.of.snapshot.sheet}<br>
<span class="kn-quiet">${sheet.of.template.title}</span></td><td><strong>${sheet.overall}</strong>${
      assumed && html`<br><span class="kn-quiet">${assumed}</span>`
    }</td>
<td>${most?.description ?? "–"}</td><td class="kn-number">${utilisationText(most?.utilisation)}</td>
<td>${most?.where ?? ""}</td><td>${checkedText(sheet)}</td></tr>`;
  })}</tbody></table>`;
}

/** For each sheet that has any: its texts as a list. */
function bySheet(sheets: readonly ReadSheet[], textsOf: (sheet: ReadSheet) => readonly string[], none: string): Markup {
  const some = sheets.filter((sheet) => textsOf(sheet).length > 0);
  if (some.length === 0) return html`<p>${none}</p>`;
  return html`${some.map(
    (sheet) =>
      html`<h3>${sheet.of.snapshot.sheet}</h3><ul>${textsOf(sheet).map((text) => html`<li>${text}</li>`)}</ul>`,
  )}`;
}

/** What does not pass; a check whose row is gone passes no more than one that fails. */
const failing = ({ checks }: ReadSheet): readonly string[] =>
  checks
    .filter(({ verdict }) => verdict !== "OK")
    .map(({ description, verdict, where }) => `${verdict || noVerdict}: ${description}${where && ` (${where})`}`);

const warningsOf = ({ warnings, answered }: ReadSheet): readonly string[] =>
  warnings.length === 0 || answered === undefined
    ? warnings
    : [
        ...warnings,
        answered ? "Their code is entered: somebody has looked at them." : "Not answered: their code is not entered.",
      ];

/** The sign of the office, of the width that it has on printed sheets. */
const logoMarkup = ({ image, width, text = logoName }: Logo): Markup =>
  html`<img class="kn-logo" src="${image}" alt="${text}" style="width: ${width}mm">`;

/** What the sheets hold, to be compared with a later look at them. */
const heldBy = (sheets: readonly ReadSheet[]): string =>
  JSON.stringify(
    sheets.map(({ of: { snapshot } }) => [
      snapshot.sheet,
      snapshot.cells.map((row) => row.map(({ value, formula, error }) => [value, formula, error?.code])),
    ]),
  );

function sourcesTable(cells: readonly TracedCell[]): Markup {
  const sources = new Map<string, { readonly basis: string; readonly functions: Set<string> }>();
  for (const { calls } of cells) {
    for (const call of calls) {
      const of = call.formula ?? call.spill;
      if (!of) continue;
      const place = placeInWork(of, call.trace?.values);
      const known = sources.get(place) ?? { basis: basisOf(of, call.trace?.values), functions: new Set<string>() };
      known.functions.add(of.id);
      sources.set(place, known);
    }
  }
  return html`<p class="kn-quiet">Each source, how it was established, and the functions that follow it.</p>
<ul class="kn-given">${[...sources]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(
      ([place, { basis, functions }]) =>
        html`<li>${place} <span class="kn-quiet">${basis}</span>: ${[...functions].sort().join(", ")}</li>`,
    )}</ul>`;
}

function revisions(sheets: readonly ReadSheet[]): Markup {
  const all = sheets.flatMap((sheet) => sheet.revisions.map((revision) => ({ sheet, revision })));
  if (all.length === 0) return html`<p>No revision is entered on any of the sheets.</p>`;
  return html`<table class="kn-table"><thead><tr><th scope="col">sheet</th><th scope="col">revision</th>
<th scope="col">what</th><th scope="col">date</th><th scope="col">by</th><th scope="col">checked by</th><th scope="col">seal</th>
</tr></thead><tbody>${all.map(
    ({ sheet, revision: { name, what, date, by, checkedBy, state } }) => html`<tr><td>${sheet.of.snapshot.sheet}</td>
<td>${name}</td><td>${what}</td><td>${date}</td><td>${by}</td><td>${checkedBy}</td><td>${state ?? ""}</td></tr>`,
  )}</tbody></table>`;
}

/** How many values are traced for a sheet: its share of the work. */
const tracedIn = ({ blocks }: ReadSheet): number =>
  blocks
    .flatMap(({ items }) => items)
    .reduce(
      (sum, item) =>
        sum +
        (item.kind === "computed" ? 1 : 0) +
        (item.kind === "table"
          ? item.columns.filter(({ kind }) => kind === "computed").flatMap(oneOfEachFormula).length
          : 0),
      0,
    );

const changedMeanwhile = "a sheet was changed while the report was written: make it again";

/** Lets the page show what has been done. */
const breathe = (): Promise<void> => new Promise((next) => setTimeout(next, 0));
const untilBreath = 10;

/**
 * The whole member as one HTML document to print and file: what its sheets say, what is still open, inputs, values,
 * pictures, of long tables what decides, each equation once with numbers, and sources.
 * @throws NotReportable where no template built the sheet or its source is missing
 */
export async function reportOf(
  host: Host,
  sheet: string,
  { date }: ReportFacts,
  { setting, picture, appendix = false, progress, signal }: ReportOptions,
): Promise<string> {
  const sheets = await readMember(host, sheet);
  const { logo, without } = await logoToTake(host, sheets[0].of.snapshot.sheet);
  const followed = new Followed();
  const uses = firstUses(sheets, followed);
  const all = uses.length + (appendix ? sheets.reduce((sum, one) => sum + tracedIn(one), 0) : 0);
  const cells: TracedCell[] = [];
  let done = 0;
  const step = async (): Promise<void> => {
    signal?.throwIfAborted();
    progress?.(++done / all);
    if (done % untilBreath === 0) await breathe();
  };
  const making = {
    tracer: new Tracer(host),
    setting,
    picture,
    step,
    traced: (cell: TracedCell): void => void cells.push(cell),
  };
  signal?.throwIfAborted();
  const chapters = sheets.map((one, i) => chapterInBrief(one, i + 1, picture, followed));
  const equations = await equationsOf(uses, making);
  const workings: Markup[] = [];
  if (appendix) for (const [i, one] of sheets.entries()) workings.push(await workingsOf(one, `A${i + 1}`, making));
  // Equations are read one by one, while the sheets may be edited: half of one state and half of another is no report.
  if (heldBy(await readMember(host, sheet)) !== heldBy(sheets)) throw new NotReportable(changedMeanwhile);
  const notRead =
    sheets.some((one) => followed.notRead(one).length > 0) &&
    html`<h2>Formulas that could not be read</h2>
<p>The report does not follow what stands behind them, and shows none of their equations. Look at these cells.</p>
${bySheet(sheets, (one) => followed.notRead(one), "")}`;
  const [first] = sheets;
  const named = (what: string): string => first.title.find(([of]) => of === what)?.[1] ?? "";
  const title = `Report: ${named("Member") || first.of.snapshot.sheet}`;
  const after = sheets.length;
  const parts = ["Equations", "Sources", "Revisions", "Limits of this report"] as const;
  return paperDocument(
    title,
    html`${logo && logoMarkup(logo)}<h1>${title}</h1>
<table class="kn-facts"><tbody>${[
      ...first.title.filter(([, text]) => text !== ""),
      ["Made", `${date}, Kernbook ${version}`] as const,
    ].map(([what, text]) => html`<tr><th scope="row">${what}</th><td>${text}</td></tr>`)}</tbody></table>
<aside class="kn-caution"><p>${cautions.competence}</p><p>${cautions.stressing}</p></aside>
<nav><h2>Contents</h2><ol>${sheets.map(
      ({ of }, i) => html`<li><a href="#sheet-${i + 1}">${of.snapshot.sheet}: ${of.template.title}</a></li>`,
    )}${parts.map((part, i) => html`<li><a href="#part-${after + i + 1}">${part}</a></li>`)}</ol></nav>
<h2>Summary</h2>
${summary(sheets)}
<h2>Checks that do not pass</h2>
${bySheet(sheets, failing, "Every check of every sheet says OK.")}
<h2>Warnings</h2>
${bySheet(sheets, warningsOf, "No sheet has a warning.")}
<h2>Open assumptions</h2>
${bySheet(sheets, ({ assumed }) => assumed, "No input is marked as assumed.")}
${notRead}
${chapters}
<section id="part-${after + 1}" class="kn-brief"><h2>${after + 1} ${parts[0]}</h2>
<p>Each equation once, with the numbers of the value named “here”. Every other value that has it follows it likewise: select
the value and open Trace.</p>${equations}</section>
<section id="part-${after + 2}" class="kn-brief"><h2>${after + 2} ${parts[1]}</h2>${sourcesTable(cells)}</section>
<section id="part-${after + 3}"><h2>${after + 3} ${parts[2]}</h2>${revisions(sheets)}</section>
<section id="part-${after + 4}"><h2>${after + 4} ${parts[3]}</h2>
<p>Of a table of more than six rows the report shows up to six that do not pass, saying how many more there are, up to four
that decide a check, from the check that governs on, and the ends where fewer than four are shown.
Values linked to the stress check stand in its chapter alone. All rows stand on the sheets${
      appendix ? " and in the appendix" : ", and in the appendix where the report is made with it"
    }.</p>
<p>The report says what the sheets say at the time it was made. It is no independent check. Equations and clauses are those of
the functions named; check them against your own copy of the standard in force and its National Annex. Values typed over
formulas are found by Compare, not here.</p>${without && html`<p>${without}</p>`}</section>
${workings.length > 0 && html`<h1 class="kn-chapter">Appendix: workings</h1>${workings}`}`,
  );
}
