import { a1, type Address, type Area, areaA1 } from "../../src/cells/index.ts";
import { allowedText, basisText, sources, type Parameter, type Quantity } from "../../src/core/index.ts";
import type { FunctionParameter } from "../../functions/index.ts";
import type { InsertedCell } from "../../src/hosts/index.ts";
import { plainSymbol } from "../../src/sheet/index.ts";
import { callText } from "./formulaText.ts";
import type { DesignFunction } from "./search.ts";

export interface BlockOptions {
  /** Optional arguments that get a row; the others are left out of the formula. */
  readonly included: ReadonlySet<string>;
  /** Rows of each argument that is a range. */
  readonly tableRows: number;
}

/** A block ready to go onto a sheet. */
export interface Block {
  readonly cells: readonly InsertedCell[];
  readonly area: Area;
  /** Cells to be filled in, in order. */
  readonly inputs: readonly Address[];
  readonly result: Address;
}

// Meaning, symbol, value, unit, what is allowed.
const value = 2;
const unit = 3;
const allowed = 4;

function allowedWords(parameter: Parameter): string {
  switch (parameter.kind) {
    case "number":
      return allowedText(parameter);
    case "choice":
      return parameter.values.map((v) => (String(v.value) === v.text ? v.text : `${v.value}: ${v.text}`)).join("; ");
    default:
      return "";
  }
}

const unitOf = (p: Parameter): string => (p.kind === "number" && p.unit !== "–" ? p.unit : "");
const format = (q: Quantity): string => (q.whole ? "0" : "General");

/** The clause with how it was established, written beside the result. */
export function sourceWords({ formula }: DesignFunction): string {
  const { key, clause, basis } = formula.source;
  const said = basisText[basis];
  // Common practice is a basis and no work.
  if (key === "practice") return [`${said[0]!.toUpperCase()}${said.slice(1)}`, clause].filter(Boolean).join("; ");
  return [key === "mechanics" ? sources[key].split(":")[0]! : key, clause, `(${said})`].filter(Boolean).join(" ");
}

/** One labelled row an argument, and the formula that reads them, from the upper left cell down. */
export function blockFor(of: DesignFunction, at: Address, { included, tableRows }: BlockOptions): Block {
  const cells: InsertedCell[] = [];
  const inputs: Address[] = [];
  let row = at.row;
  const put = (
    column: number,
    role: InsertedCell["role"] & string,
    content?: string | number,
    formatOf?: string,
  ): Address => {
    const cell = { row, column: at.column + column };
    cells.push({
      ...cell,
      role,
      ...(content !== undefined && content !== "" && { value: content }),
      ...(formatOf !== undefined && { format: formatOf }),
    });
    return cell;
  };
  const input = (column: number, p: Parameter): Address => {
    const cell = put(
      column,
      p.kind === "choice" ? "choice" : p.kind === "number" ? "input" : "textInput",
      "default" in p ? p.default : undefined,
    );
    inputs.push(cell);
    return cell;
  };
  const label = (text: string, symbol: string): void => {
    put(0, "description", text);
    put(1, "symbol", plainSymbol(symbol));
  };
  put(0, "subtitle", `${of.name}: ${of.summary}`);
  row++;
  const written = new Map<string, string>();
  const one = ({ name, parameter }: FunctionParameter): void => {
    label(parameter.text, parameter.symbol);
    if (parameter.kind !== "table") {
      written.set(name, a1(input(value, parameter)));
      put(unit, "unit", unitOf(parameter));
      put(allowed, "label", allowedWords(parameter));
      row++;
      return;
    }
    if (parameter.kinds) {
      const others = Object.values(parameter.kinds.tables)
        .slice(1)
        .map(({ text }) => text);
      put(
        allowed,
        "label",
        `laid out for ${Object.values(parameter.kinds.tables)[0]!.text}; or ${others.join("; or ")}`,
      );
    }
    const columns = Object.values(parameter.columns);
    columns.forEach((column, i) =>
      put(value + i, "tableHeading", plainSymbol(column.symbol) === "–" ? column.text : plainSymbol(column.symbol)),
    );
    row++;
    columns.forEach((column, i) => put(value + i, "tableUnit", unitOf(column) || "–"));
    const choices = columns.flatMap((column) =>
      column.kind === "choice" ? [`${column.text}: ${column.values.map((v) => v.value).join(", ")}`] : [],
    );
    if (choices.length > 0) put(value + columns.length, "label", choices.join("; "));
    row++;
    const first = row;
    const rows = Math.max(tableRows, parameter.minRows ?? 1);
    for (let i = 0; i < rows; i++, row++) columns.forEach((column, k) => input(value + k, column));
    written.set(name, areaA1({ row: first, column: at.column + value, rows, columns: columns.length }, false));
  };
  for (const parameter of of.parameters) if (!parameter.optional || included.has(parameter.name)) one(parameter);
  label(of.formula.result.text, of.formula.result.symbol);
  const result = { row, column: at.column + value };
  cells.push({
    ...result,
    role: "value",
    formula: callText(of, ({ name }) => written.get(name)),
    format: format(of.formula.result),
  });
  put(unit, "unit", unitOf(of.formula.result));
  put(allowed, "source", sourceWords(of));
  const columns = Math.max(...cells.map((cell) => cell.column)) - at.column + 1;
  return { cells, area: { ...at, rows: row - at.row + 1, columns }, inputs, result };
}
