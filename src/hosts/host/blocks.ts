import type { Area } from "../../cells/index.ts";

/** Neighbours in a row together. */
export function rowRuns(cells: readonly Area[]): readonly Area[] {
  const out: Area[] = [];
  for (const area of [...cells].sort((a, b) => a.row - b.row || a.column - b.column)) {
    const last = out.at(-1);
    if (last && last.row === area.row && last.rows === area.rows && last.column + last.columns === area.column)
      out[out.length - 1] = { ...last, columns: last.columns + area.columns };
    else out.push(area);
  }
  return out;
}

/** Equal runs below each other together. */
export function blocks(cells: readonly Area[]): readonly Area[] {
  const out: Area[] = [];
  for (const run of [...rowRuns(cells)].sort((a, b) => a.column - b.column || a.columns - b.columns || a.row - b.row)) {
    const last = out.at(-1);
    if (last && last.column === run.column && last.columns === run.columns && last.row + last.rows === run.row)
      out[out.length - 1] = { ...last, rows: last.rows + run.rows };
    else out.push(run);
  }
  return out;
}
