import {
  coherentUnit,
  readFactor,
  type Argument,
  type Cell,
  type Columns,
  type Parameter,
  type Quantity,
} from "../core/index.ts";
import { hasSymbol, html, withUnit, type Markup } from "../typeset/index.ts";
import { symbol } from "./words.ts";

/** The symbol, or the meaning where a quantity has none. */
export function called({ symbol: of, text }: Pick<Parameter, "symbol" | "text">): Markup {
  return hasSymbol(of) ? symbol(of) : html`${text}`;
}

/** "m, read as mm": where the equation works in another unit than the cell. */
export function readsAs(q: Pick<Quantity, "unit" | "reads">): string {
  return readFactor(q) === 1 ? "" : (q.reads ?? coherentUnit(q.unit));
}

function cellText(cell: Cell, column: Columns[string] | Parameter | undefined): string {
  if (cell === null || cell === undefined || cell === "")
    return column && "blank" in column && column.blank !== undefined ? `blank: ${column.blank}` : "left out";
  if (typeof cell === "number") return withUnit(cell, column?.kind === "number" ? column.unit : "");
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  return String(cell);
}

/** Rows of a range as a table with symbols and units at its head. */
export function rowsTable(columns: Columns, rows: readonly (readonly Cell[])[]): Markup {
  const all = Object.values(columns);
  return html`<div class="kr-scroll" tabindex="0" role="group" aria-label="Rows of the range"><table class="kr-table">
<thead><tr>${all.map(
    (c) =>
      html`<th scope="col">${called(c)}${c.kind === "number" && c.unit !== "–" && html` <small>${c.unit}</small>`}</th>`,
  )}</tr></thead>
<tbody>${rows.map(
    (row) =>
      html`<tr>${row.map((cell) => html`<td>${typeof cell === "number" ? withUnit(cell, "") : cellText(cell, undefined)}</td>`)}</tr>`,
  )}</tbody>
</table></div>`;
}

/** The value of an argument for reading. */
export function valueOf(parameter: Parameter, value: Argument): Markup {
  if (Array.isArray(value)) {
    const rows = value as readonly (readonly Cell[])[];
    return parameter.kind === "table" ? rowsTable(parameter.columns, rows) : html`${rows.length} rows`;
  }
  const said =
    parameter.kind === "choice" ? parameter.values.find((v) => String(v.value) === String(value))?.text : undefined;
  return html`${cellText(value as Cell, parameter)}${said !== undefined && said !== String(value) && html` <small>(${said})</small>`}`;
}
