import { type Address, cellAt, type Snapshot } from "../../cells/index.ts";
import { plainSymbol, type Plan } from "../../sheet/index.ts";
import { standing } from "./standing.ts";
import type { Recognised } from "./recognised.ts";

type Sheet = Pick<Recognised, "plan" | "rowNow" | "columnNow"> & { readonly snapshot: Snapshot };

/**
 * Which member of its table a planned cell stands for: by the columns that count ("tendon 2, point 3"), else by what its first column
 * holds now ("x = 4.5 m"), else by the number of its row. Empty for a cell of no table.
 */
export function members({ plan, snapshot, rowNow, columnNow }: Sheet): (planned: Address) => string {
  const counts = new Map<number, Plan["cells"][number][]>();
  for (const cell of plan.cells)
    if (cell.role === "item" && cell.value !== undefined) counts.set(cell.row, [...(counts.get(cell.row) ?? []), cell]);
  const columns = new Map<number, Plan["meanings"][number][]>();
  for (const meaning of plan.meanings.filter(({ at }) => at.rows > 1))
    for (let r = 0; r < meaning.at.rows; r++)
      columns.set(meaning.at.row + r, [...(columns.get(meaning.at.row + r) ?? []), meaning]);
  const counted = (of: readonly Plan["meanings"][number][], row: number, column: number): string =>
    (counts.get(row) ?? [])
      .filter((cell) => cell.column !== column)
      .map((cell) => `${of.find(({ at }) => at.column === cell.column)?.description ?? "row"} ${String(cell.value)}`)
      .join(", ");
  return ({ row, column }) => {
    const of = columns.get(row);
    const own = of?.find(({ at }) => at.column === column);
    if (!of || !own) return "";
    const words = counted(of, row, column);
    const alone =
      words !== "" &&
      Array.from({ length: own.at.rows }, (_, i) => own.at.row + i).every(
        (other) => other === row || counted(of, other, column) !== words,
      );
    if (alone) return words;
    // What tells rows of one count apart: a place along the member, mostly.
    const counting = new Set((counts.get(row) ?? []).map((cell) => cell.column));
    const others = of.filter(({ at }) => at.column !== column && !counting.has(at.column));
    const first = others.length > 0 ? others.reduce((a, b) => (b.at.column < a.at.column ? b : a)) : undefined;
    const at = first && standing({ rowNow, columnNow }, { row, column: first.at.column });
    const text = at ? cellAt(snapshot, at.row, at.column).text : "";
    const told = first && text !== "" ? member(first, text) : words === "" ? `row ${row - own.at.row + 1}` : "";
    return [words, told].filter(Boolean).join(", ");
  };
}

function member({ symbol, description, unit }: Plan["meanings"][number], text: string): string {
  const plain = plainSymbol(symbol);
  return /^[-+−]?[\d.]/.test(text) && plain !== "" && plain !== "–"
    ? `${plain} = ${text}${unit === "–" || unit === "" ? "" : ` ${unit}`}`
    : `${description} ${text}`;
}
