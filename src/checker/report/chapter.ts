import { cellAt, cellsOf } from "../../cells/index.ts";
import { chartLines, type Line, type PlannedChart } from "../../sheet/index.ts";
import { hasSymbol, html, numberText, sentence, symbol, type Markup } from "../../typeset/index.ts";
import { standing } from "../recognise/standing.ts";
import { shownPieces } from "../trace/inSymbols.ts";
import { formulaInWords } from "../trace/noteFormula.ts";
import { quantity, type Setting } from "../trace/note.ts";
import type { TracedCell, Tracer } from "../trace/traceCell.ts";
import { oneOfEachFormula } from "./oneOfEachFormula.ts";
import {
  assumedText,
  noVerdict,
  readCellText,
  type ReadBlock,
  type ReadCell,
  type ReadCheck,
  type ReadColumn,
  type ReadItem,
  type ReadSheet,
} from "./read.ts";

/** What draws the pictures of a report; lines without a point are left out before. */
export type Picture = (chart: PlannedChart, lines: readonly Line[], width?: number) => Markup;

/** What a chapter is made with. */
export interface Making {
  readonly tracer: Tracer;
  readonly setting: Setting;
  readonly picture: Picture;
  /** After each traced value; throws where the report is given up. */
  readonly step: () => Promise<void>;
  /** Every cell traced, for the list of sources. */
  readonly traced: (cell: TracedCell) => void;
}

/** So many columns of a table stand side by side on paper. */
const mostColumns = 8;

/** An utilisation as a person reads it. */
export const utilisationText = (value: ReadCheck["utilisation"] | undefined): string =>
  typeof value === "number" ? numberText(Number(value.toPrecision(3))) : String(value ?? "");

const quiet = (text: string): Markup => html`<span class="kn-quiet">${text}</span>`;

function values(title: string, cells: readonly (readonly [item: string, cell: ReadCell])[]): Markup | false {
  if (cells.length === 0) return false;
  return html`<h4>${title}</h4><table class="kn-table"><thead><tr><th scope="col">no.</th><th scope="col">quantity</th>
<th scope="col">symbol</th><th scope="col" class="kn-number">value</th><th scope="col">unit</th><th scope="col">checked</th>
</tr></thead><tbody>${cells.map(
    ([item, cell]) => html`<tr><td>${item}</td><td>${sentence(cell.meaning.description)}</td>
<td>${symbol(cell.meaning.symbol)}</td><td class="kn-number">${readCellText(cell) || "–"}</td><td>${cell.meaning.unit}</td>
<td>${cell.mark}</td></tr>`,
  )}</tbody></table>`;
}

function tableValues(columns: readonly ReadColumn[]): readonly Markup[] {
  const [first, ...others] = columns;
  const groups: (readonly ReadColumn[])[] = [];
  for (let from = 0; from === 0 || from < others.length; from += mostColumns - 1)
    groups.push([first!, ...others.slice(from, from + mostColumns - 1)]);
  const rows = Math.max(...columns.map(({ cells }) => cells.length));
  const head = ({ meaning: { symbol: sign, description, unit } }: ReadColumn): Markup =>
    html`<th scope="col" class="kn-number">${hasSymbol(sign) ? symbol(sign) : description.split(/[,;:(]/)[0]!}${
      unit !== "–" && unit !== "" && html`<br>${unit}`
    }</th>`;
  return groups.map(
    (group) =>
      html`<table class="kn-table"><thead><tr>${group.map(head)}</tr></thead><tbody>${Array.from(
        { length: rows },
        (_, i) =>
          html`<tr>${group.map(({ cells }) => html`<td class="kn-number">${cells[i] ? readCellText(cells[i]) : ""}</td>`)}</tr>`,
      )}</tbody></table>`,
  );
}

const eachColumn =
  "Each formula of each column with the numbers of the first row that has any; the other rows follow likewise.";

async function traced(sheet: ReadSheet, { at }: ReadCell, { tracer, step, traced: seen }: Making): Promise<TracedCell> {
  const cell = await tracer.trace({ sheet: sheet.of.snapshot.sheet, ...at });
  seen(cell);
  await step();
  return cell;
}

/** A formula without functions of ours and without anything to look at: a line is enough for it. */
const isPlain = ({ calls, partOf, unreadable, unlike, misfit }: TracedCell): boolean =>
  calls.length === 0 && !partOf && unreadable === undefined && unlike === undefined && misfit === undefined;

function plainTable(cells: readonly TracedCell[]): Markup {
  return html`<table class="kn-table"><thead><tr><th scope="col">no.</th><th scope="col">quantity</th>
<th scope="col">formula</th><th scope="col" class="kn-number">value</th><th scope="col">unit</th></tr></thead>
<tbody>${cells.map(({ label, address, content, originOf }) => {
    const pieces = content.formula === undefined ? [] : shownPieces(content.formula, originOf);
    return html`<tr><td>${label?.item ?? ""}</td>
<td>${label?.description ? sentence(label.description) : address} ${label?.symbol && symbol(label.symbol)}</td>
<td>${pieces.length > 0 && html`<code>${formulaInWords(pieces)}</code>`}</td>
<td class="kn-number">${content.error?.code ?? content.text}</td><td>${label?.unit ?? ""}</td></tr>`;
  })}</tbody></table>`;
}

/** Values in their order; formulas of one line that follow one another share a table. */
function calculations(cells: readonly TracedCell[], setting: Setting, home: string): readonly Markup[] {
  const out: Markup[] = [];
  let plain: TracedCell[] = [];
  const close = (): void => {
    if (plain.length > 0) out.push(plainTable(plain));
    plain = [];
  };
  for (const cell of cells) {
    if (isPlain(cell)) plain.push(cell);
    else {
      close();
      out.push(quantity(cell, setting, home));
    }
  }
  close();
  return out;
}

async function tableOf(sheet: ReadSheet, item: ReadItem & { readonly kind: "table" }, making: Making): Promise<Markup> {
  const computed = item.columns.filter(({ kind }) => kind === "computed");
  const shown: TracedCell[] = [];
  for (const column of computed)
    for (const one of oneOfEachFormula(column)) shown.push(await traced(sheet, one, making));
  const equations = calculations(shown, making.setting, sheet.of.snapshot.sheet);
  return html`<h4>${item.item} ${item.title ? sentence(item.title) : "Table"}</h4>
<p class="kn-quiet">${item.columns.map(
    ({ meaning: { symbol: sign, description, unit } }, i) =>
      html`${i > 0 && "; "}${hasSymbol(sign) && html`${symbol(sign)} `}${sentence(description)}${
        unit !== "–" && unit !== "" && ` (${unit})`
      }`,
  )}</p>
${tableValues(item.columns)}
${equations.length > 0 && html`<p class="kn-quiet">${eachColumn}</p>`}
${equations}`;
}

async function blockOf(sheet: ReadSheet, { item, title, items }: ReadBlock, making: Making): Promise<Markup> {
  const ofKind = (kind: "input" | "linked"): readonly (readonly [string, ReadCell])[] =>
    items.flatMap((one) => (one.kind === kind ? [[one.item, one.cell] as const] : []));
  const others: Markup[] = [];
  let rows: TracedCell[] = [];
  const close = (): void => {
    others.push(...calculations(rows, making.setting, sheet.of.snapshot.sheet));
    rows = [];
  };
  for (const one of items) {
    if (one.kind === "computed") rows.push(await traced(sheet, one.cell, making));
    else if (one.kind === "table") {
      close();
      others.push(await tableOf(sheet, one, making));
    }
  }
  close();
  return html`<h3>${item} ${sentence(title)}</h3>
${values("Entered", ofKind("input"))}
${values("Taken from the sheet it is linked to", ofKind("linked"))}
${others}`;
}

export function checksTable({ checks }: ReadSheet): Markup {
  return html`<table class="kn-table"><thead><tr><th scope="col">check</th><th scope="col">verdict</th>
<th scope="col" class="kn-number">utilisation</th><th scope="col">where</th></tr></thead><tbody>${checks.map(
    ({
      description,
      verdict,
      utilisation,
      where,
    }) => html`<tr><td>${sentence(description)}</td><td>${verdict || noVerdict}</td>
<td class="kn-number">${utilisationText(utilisation)}</td><td>${where}</td></tr>`,
  )}</tbody></table>`;
}

export function pictures({ of }: ReadSheet, picture: Picture): readonly Markup[] {
  return of.plan.charts.flatMap((chart) => {
    const lines = chartLines(chart, (area) =>
      cellsOf(area).map((planned) => {
        const at = standing(of, planned);
        return at ? cellAt(of.snapshot, at.row, at.column) : { value: null, text: "" };
      }),
    );
    if (lines.every(({ points }) => points.length === 0)) return [];
    return [html`<figure class="kn-item"><figcaption>${chart.title}</figcaption>${picture(chart, lines)}</figure>`];
  });
}

/** What a sheet is, and its verdict. */
export function factsTable(sheet: ReadSheet): Markup {
  const { of, overall, title } = sheet;
  return html`<table class="kn-facts"><tbody>${[
    ...title.filter(([, text]) => text !== ""),
    ["Overall verdict", [overall, assumedText(sheet)].filter(Boolean).join(", ")] as const,
    ["Template", `${of.head.templateId} ${of.head.templateVersion}, hash ${of.head.hash}`] as const,
  ].map(([what, text]) => html`<tr><th scope="row">${what}</th><td>${text}</td></tr>`)}</tbody></table>`;
}

/** The workings of a sheet in full: its inputs, every equation with numbers, every row of its tables. */
export async function workingsOf(sheet: ReadSheet, number: string, making: Making): Promise<Markup> {
  const blocks: Markup[] = [];
  for (const block of sheet.blocks) blocks.push(await blockOf(sheet, block, making));
  return html`<section class="kn-chapter"><h2>${number} ${sheet.of.snapshot.sheet} ${quiet(sheet.of.template.title)}</h2>
${blocks}</section>`;
}
