import type { Address } from "../../cells/index.ts";
import { hasSymbol, html, sentence, symbol, type Markup } from "../../typeset/index.ts";
import { checksTable, factsTable, pictures, type Picture } from "./chapter.ts";
import { decidingCells } from "./deciding.ts";
import type { Followed } from "./followed.ts";
import { keyRows } from "./keyRows.ts";
import { readCellText, type ReadBlock, type ReadCell, type ReadColumn, type ReadItem, type ReadSheet } from "./read.ts";

/** Pixels: half as wide as the paper between its margins. */
const pictureWidth = 330;

const unitOf = (unit: string): string => (unit === "–" ? "" : unit);

function entered(items: readonly (readonly [item: string, cell: ReadCell])[]): Markup | false {
  if (items.length === 0) return false;
  return html`<ul class="kn-given">${items.map(
    ([item, cell]) =>
      html`<li><span class="kn-quiet">${item}</span> ${sentence(cell.meaning.description)} ${symbol(
        cell.meaning.symbol,
      )}${hasSymbol(cell.meaning.symbol) && " "}= <strong>${readCellText(cell) || "empty"}</strong> ${unitOf(
        cell.meaning.unit,
      )}${cell.mark !== "" && html` <span class="kn-quiet">(${cell.mark})</span>`}</li>`,
  )}</ul>`;
}

/** What a value is and how it comes about. */
const said = ({ description, equation = "", source = "" }: ReadCell["meaning"]): Markup =>
  html`${sentence(description)}${equation !== "" && html`: <span class="kn-how">${sentence(equation)}</span>`}${
    source !== "" && html` <span class="kn-quiet">${source}</span>`
  }`;

function worked(items: readonly (readonly [item: string, cell: ReadCell])[]): Markup | false {
  if (items.length === 0) return false;
  return html`<table class="kn-table kn-dense"><tbody>${items.map(
    ([item, cell]) => html`<tr><td class="kn-quiet">${item}</td><td>${symbol(cell.meaning.symbol)}</td>
<td>${said(cell.meaning)}</td><td class="kn-number">${readCellText(cell) || "–"}</td><td>${unitOf(cell.meaning.unit)}</td></tr>`,
  )}</tbody></table>`;
}

/** A column that stands in several bands of the table on the sheet. */
const repeats = ({ meaning, cells }: ReadColumn, before: readonly ReadColumn[]): boolean =>
  hasSymbol(meaning.symbol) &&
  before.some(
    (other) =>
      other.meaning.symbol === meaning.symbol &&
      other.cells.length === cells.length &&
      other.cells.every((cell, i) => readCellText(cell) === readCellText(cells[i]!)),
  );

/** A table turned: a line a column, with the rows that a reader needs beside one another. */
function turned(item: ReadItem & { readonly kind: "table" }, deciding: readonly Address[]): Markup {
  const { rows, of, failingLeftOut } = keyRows(item.columns, deciding);
  const [head, ...others] = item.columns.filter((column, i) => !repeats(column, item.columns.slice(0, i)));
  const told = (column: ReadColumn, i: number): string => {
    const cell = column.cells[i];
    return cell ? readCellText(cell) : "";
  };
  const left =
    rows.length === of
      ? ""
      : `${rows.length} of ${of} rows: what decides a check, does not pass, or stands at an end${
          failingLeftOut > 0 ? `; ${failingLeftOut} more do not pass` : ""
        }`;
  return html`<h4>${item.item} ${item.title ? sentence(item.title) : "Table"}${
    left !== "" && html` <span class="kn-quiet">${left}</span>`
  }</h4>
<table class="kn-table kn-dense"><thead><tr><th scope="col"></th><th scope="col">${sentence(
    head!.meaning.description,
  )}</th><th scope="col"></th>${rows.map(
    (i) => html`<th scope="col" class="kn-number">${told(head!, i)}</th>`,
  )}</tr></thead><tbody>${others.map(
    (column) => html`<tr><td>${symbol(column.meaning.symbol)}</td><td>${said(column.meaning)}</td>
<td>${unitOf(column.meaning.unit)}</td>${rows.map((i) => html`<td class="kn-number kn-wraps">${told(column, i)}</td>`)}</tr>`,
  )}</tbody></table>`;
}

const isLinked = (item: ReadItem): boolean =>
  item.kind === "table" ? item.columns.some(({ kind }) => kind === "linked") : item.kind === "linked";

function blockInBrief({ item, title, items }: ReadBlock, deciding: readonly Address[]): Markup | false {
  // What is linked stands in the chapter of the sheet it comes from.
  const own = items.filter((one) => !isLinked(one));
  if (own.length === 0) return false;
  const ofKind = (kind: "input" | "computed"): readonly (readonly [string, ReadCell])[] =>
    own.flatMap((one) => (one.kind === kind ? [[one.item, one.cell] as const] : []));
  return html`<h3>${item} ${sentence(title)}</h3>
${entered(ofKind("input"))}
${worked(ofKind("computed"))}
${own.map((one) => one.kind === "table" && turned(one, deciding))}`;
}

/** A block that gathers the verdict of the sheet, which stands at the head of its chapter. */
const gathers = ({ of: { plan } }: ReadSheet, { items }: ReadBlock): boolean =>
  items.some(
    (item) =>
      item.kind === "computed" &&
      item.cell.meaning.at.row === plan.summary.overall.row &&
      item.cell.meaning.at.column === plan.summary.overall.column,
  );

/** Tables that only draw: the picture shows what they hold. */
function onlyDrawn({ of: { plan } }: ReadSheet): (item: ReadItem) => boolean {
  const drawn = plan.charts.flatMap(({ series }) => series.flatMap(({ x, y }) => [x, y]));
  const isDrawn = ({ meaning: { at } }: ReadColumn): boolean =>
    drawn.some(({ row, column }) => row === at.row && column === at.column);
  return (item) =>
    item.kind === "table" &&
    item.columns[0]!.meaning.at.row >= plan.print.area.rows &&
    item.columns.slice(1).every(isDrawn);
}

/** A sheet as a reader needs it: checks, pictures, inputs, every value with how it comes about, and of long tables what decides. */
export function chapterInBrief(sheet: ReadSheet, number: number, picture: Picture, followed: Followed): Markup {
  const deciding = decidingCells(sheet, followed);
  const draws = onlyDrawn(sheet);
  const blocks = sheet.blocks
    .filter((block) => !gathers(sheet, block))
    .map((block) => ({ ...block, items: block.items.filter((item) => !draws(item)) }));
  return html`<section class="kn-chapter kn-brief" id="sheet-${number}"><h2>${number} ${
    sheet.of.snapshot.sheet
  } <span class="kn-quiet">${sheet.of.template.title}</span></h2>
${factsTable(sheet)}
${checksTable(sheet)}
${
  sheet.warnings.length > 0 &&
  html`<h3>Warnings of this sheet</h3><ul>${sheet.warnings.map((text) => html`<li>${text}</li>`)}</ul>`
}
<div class="kn-pair">${pictures(sheet, (chart, lines) => picture(chart, lines, pictureWidth))}</div>
${blocks.map((block) => blockInBrief(block, deciding))}</section>`;
}
