import type { Address, Plan } from "../../sheet/index.ts";
import { cellAt, type Snapshot } from "../snapshot.ts";
import { standing } from "./standing.ts";
import type { Recognised } from "./recognised.ts";

type Sheet = Pick<Recognised, "plan" | "rowNow" | "columnNow"> & { readonly snapshot: Snapshot };

/**
 * Which member of its table a planned cell stands for: by the columns that count ("tendon 2, point 3"), else by what its first column
 * holds now ("x = 4.5 m"), else by the number of its row. Empty for a cell of no table.
 */
export function members({ plan, snapshot, rowNow, columnNow }: Sheet): (planned: Address) => string {
  const counts = new Map<number, Plan["cells"][number][]>();
  for (const cell of plan.cells) if (cell.role === "item" && cell.value !== undefined) counts.set(cell.row, [...(counts.get(cell.row) ?? []), cell]);
  const columns = new Map<number, Plan["meanings"][number][]>();
  for (const meaning of plan.meanings) for (let r = 0; r < meaning.at.rows && meaning.at.rows > 1; r++) columns.set(meaning.at.row + r, [...(columns.get(meaning.at.row + r) ?? []), meaning]);
  return ({ row, column }) => {
    const of = columns.get(row);
    const own = of?.find(({ at }) => at.column === column);
    if (!of || !own) return "";
    const counted = (counts.get(row) ?? []).filter((cell) => cell.column !== column).map((cell) => `${of.find(({ at }) => at.column === cell.column)?.description ?? "row"} ${String(cell.value)}`);
    if (counted.length > 0) return counted.join(", ");
    const first = of.reduce((a, b) => (b.at.column < a.at.column ? b : a));
    const at = first === own ? undefined : standing({ rowNow, columnNow }, { row, column: first.at.column });
    const text = at ? cellAt(snapshot, at.row, at.column).text : "";
    if (text === "") return `row ${row - own.at.row + 1}`;
    const symbol = first.symbol.replaceAll("_", "");
    return /^[-+−]?[\d.]/.test(text) && symbol !== "" && symbol !== "–" ? `${symbol} = ${text}${first.unit === "–" || first.unit === "" ? "" : ` ${first.unit}`}` : `${first.description} ${text}`;
  };
}
