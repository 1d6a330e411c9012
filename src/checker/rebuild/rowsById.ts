import { cellAt, rewritten, type Address, type Area, type Snapshot } from "../../cells/index.ts";
import { columns } from "../../sheet/index.ts";

/** A row or a table's column of a sheet, found by the sheet's own name for it. */
export interface RowById {
  readonly id: string;
  readonly at: Area;
  /** What stands beside it or above its column. */
  readonly text: string;
  readonly unit: string;
  /** Its formula, and its verdict's, with ids in place of addresses; empty where values are typed. */
  readonly formula: string;
  readonly verdict: string;
  /** Whether anything stands in it. */
  readonly holds: boolean;
}

const prefix = "kb_";

interface Named {
  readonly id: string;
  readonly at: Area;
}

function namedOn({ names, sheet }: Snapshot): readonly Named[] {
  return [...names].flatMap(([name, at]): readonly Named[] =>
    at && name.startsWith(prefix) && at.sheet.toLowerCase() === sheet.toLowerCase()
      ? [{ id: name.slice(prefix.length), at }]
      : [],
  );
}

const key = ({ row, column }: Address): string => `${row},${column}`;

/** What stands in a cell and is not computed. */
function fixedText(snapshot: Snapshot, row: number, column: number): string {
  const { value, formula } = cellAt(snapshot, row, column);
  return formula === undefined ? String(value ?? "") : "";
}

/** Texts above a column's first cell, the nearest first: unit, symbol, heading. Bounds and numbers between are passed over. */
function above(snapshot: Snapshot, { row, column }: Area): readonly string[] {
  const out: string[] = [];
  for (let r = row - 1; r >= Math.max(0, row - 8) && out.length < 3; r--) {
    const { value } = cellAt(snapshot, r, column);
    if (typeof value === "string" && value !== "" && value !== "from" && value !== "to") out.push(value);
  }
  return out;
}

/** Reads formulas of a sheet with ids in place of addresses, so that rows may stand elsewhere on another sheet. */
class Formulas {
  readonly #at = new Map<string, Named>();

  constructor(
    private readonly snapshot: Snapshot,
    named: readonly Named[],
  ) {
    for (const one of named)
      for (let row = one.at.row; row < one.at.row + one.at.rows; row++)
        this.#at.set(key({ row, column: one.at.column }), one);
  }

  /** "L"; "x[+0]" in the row of the formula; a cell without a name by what its row says. */
  #cell(cell: Address, own: Address): string {
    const named = this.#at.get(key(cell));
    if (!named) return `“${fixedText(this.snapshot, cell.row, columns.description)}”${cell.column}`;
    if (named.at.rows === 1) return named.id;
    const home = this.#at.get(key(own));
    const index = cell.row - named.at.row;
    return home && home.at.rows === named.at.rows
      ? `${named.id}[+${index - (own.row - home.at.row)}]`
      : `${named.id}[${index}]`;
  }

  of(own: Address): string {
    const { formula } = cellAt(this.snapshot, own.row, own.column);
    if (formula === undefined) return "";
    return rewritten(formula, this.snapshot.sheet, ({ from, to = from }) => {
      const named = this.#at.get(key(from));
      if (
        named &&
        named.at.row === from.row &&
        named.at.row + named.at.rows - 1 === to.row &&
        from.column === to.column
      )
        return named.id;
      const [first, last] = [this.#cell(from, own), this.#cell(to, own)];
      return first === last ? first : `${first}:${last}`;
    });
  }
}

/** A row with its unit beside it, a column with its unit above it, or a field of the first page, which says no unit of its own. */
export type Place = "row" | "column" | "field";

/** The rows of a sheet by id. Only the first cell of a table's column is read: its formulas follow one pattern. */
export function rowsById(snapshot: Snapshot, placeOf: (id: string) => Place | undefined): ReadonlyMap<string, RowById> {
  const named = namedOn(snapshot);
  const formulas = new Formulas(snapshot, named);
  const said = ({ at }: Named, place: Place): Pick<RowById, "text" | "unit" | "verdict"> => {
    if (place === "column") {
      const [unit = "", symbol = "", heading = ""] = above(snapshot, at);
      return { text: `${heading} ${symbol}`.trim(), unit, verdict: "" };
    }
    if (place === "field") return { text: "", unit: "", verdict: "" };
    return {
      text: fixedText(snapshot, at.row, columns.description),
      unit: fixedText(snapshot, at.row, at.column + 1),
      verdict: formulas.of({ row: at.row, column: columns.verdict }),
    };
  };
  return new Map(
    named.map((one): readonly [string, RowById] => {
      const { id, at } = one;
      const rows = Array.from({ length: at.rows }, (_, i) => cellAt(snapshot, at.row + i, at.column));
      return [
        id,
        {
          id,
          at,
          ...said(one, placeOf(id) ?? (at.rows > 1 ? "column" : "row")),
          formula: formulas.of(at),
          holds: rows.some(({ value }) => value !== null && value !== ""),
        },
      ];
    }),
  );
}
