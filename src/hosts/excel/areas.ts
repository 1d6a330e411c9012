import { type Area, areaA1 } from "../../cells/index.ts";

/** Addresses of several areas in one text, in texts of bounded length. */
const longestAddress = 1_000;

export function addressLists(areas: readonly Area[]): readonly string[] {
  const out: string[] = [];
  for (const area of areas) {
    const address = areaA1(area, false);
    const last = out.at(-1);
    if (last !== undefined && last.length + address.length < longestAddress) out[out.length - 1] = `${last},${address}`;
    else out.push(address);
  }
  return out;
}

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

export function rangeOf(sheet: Excel.Worksheet, { row, column, rows, columns }: Area): Excel.Range {
  return sheet.getRangeByIndexes(row, column, rows, columns);
}
