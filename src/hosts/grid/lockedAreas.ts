import type { Area } from "../../cells/index.ts";

/** Everything on the sheet but the unlocked areas, in as few rectangles as stripes of equal rows give. */
export function lockedAreas(rows: number, columns: number, unlocked: readonly Area[]): readonly Area[] {
  const stripes: { readonly from: number; readonly gaps: string }[] = [];
  const byRow = new Map<number, Area[]>();
  for (const area of unlocked)
    for (let row = area.row; row < Math.min(area.row + area.rows, rows); row++) {
      const there = byRow.get(row);
      if (there) there.push(area);
      else byRow.set(row, [area]);
    }
  for (let row = 0; row < rows; row++) {
    const open = new Set<number>();
    for (const area of byRow.get(row) ?? []) {
      for (let column = area.column; column < area.column + area.columns; column++) open.add(column);
    }
    const gaps: number[] = [];
    for (let column = 0; column < columns; column++) {
      const starts = !open.has(column) && (column === 0 || open.has(column - 1));
      const ends = !open.has(column) && (column === columns - 1 || open.has(column + 1));
      if (starts) gaps.push(column);
      if (ends) gaps.push(column);
    }
    const key = gaps.join(",");
    if (stripes.at(-1)?.gaps !== key) stripes.push({ from: row, gaps: key });
  }
  return stripes.flatMap(({ from, gaps }, i) => {
    const height = (stripes[i + 1]?.from ?? rows) - from;
    const ends = gaps === "" ? [] : gaps.split(",").map(Number);
    const areas: Area[] = [];
    for (let g = 0; g < ends.length; g += 2)
      areas.push({ row: from, column: ends[g]!, rows: height, columns: ends[g + 1]! - ends[g]! + 1 });
    return areas;
  });
}
