import type { PlannedCell } from "../../sheet/index.ts";

/** A cell as it is typed. */
export type Typed = string | number | boolean;

/**
 * What to type so that the cell holds this. A leading apostrophe keeps a text a text: whatever the language of the
 * program, which reads dates, percentages and decimal commas out of texts. The apostrophe is no part of the value.
 */
export function typed({ value, formula }: Pick<PlannedCell, "value" | "formula">): Typed {
  if (formula !== undefined) return formula;
  return typeof value === "string" ? `'${value}` : (value ?? "");
}

/** Rows that are written together. */
interface Chunk {
  readonly row: number;
  readonly cells: number;
  readonly typed: readonly (readonly Typed[])[];
  readonly formats: readonly (readonly string[])[];
}

/** Far below the 5 MB the program takes in one request. */
const mostCharacters = 500_000;
const mostCells = 4_000;
const generalFormat = "General";

/** The plan's cells by rows, in chunks of bounded size; cells the plan leaves out are empty. */
export function chunks(cells: readonly PlannedCell[], rows: number, columns: number): readonly Chunk[] {
  const table = Array.from({ length: rows }, () => ({
    typed: Array.from({ length: columns }, (): Typed => ""),
    formats: Array.from({ length: columns }, () => generalFormat),
    cells: 0,
  }));
  for (const cell of cells) {
    const row = table[cell.row]!;
    row.typed[cell.column] = typed(cell);
    row.formats[cell.column] = cell.format ?? generalFormat;
    row.cells++;
  }
  const out: Chunk[] = [];
  for (let from = 0; from < rows;) {
    let to = from;
    let size = 0;
    do size += JSON.stringify(table[to]).length;
    while (++to < rows && size < mostCharacters && (to - from + 1) * columns <= mostCells);
    const part = table.slice(from, to);
    out.push({
      row: from,
      cells: part.reduce((sum, row) => sum + row.cells, 0),
      typed: part.map((row) => row.typed),
      formats: part.map((row) => row.formats),
    });
    from = to;
  }
  return out;
}
