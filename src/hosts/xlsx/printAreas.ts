import type { Area, Plan } from "../../sheet/index.ts";
import { defaultRowHeight, pageHeight, rowHeights } from "./measures.ts";

function around(areas: readonly Area[]): Area {
  const row = Math.min(...areas.map((a) => a.row));
  const column = Math.min(...areas.map((a) => a.column));
  return { row, column, rows: Math.max(...areas.map((a) => a.row + a.rows)) - row, columns: Math.max(...areas.map((a) => a.column + a.columns)) - column };
}

/** The plan's area, then the charts beside it: an area for as many as fit one page, since each area begins a page and no chart is to be cut. */
export function printAreas(plan: Plan): readonly Area[] {
  const heights = rowHeights(plan);
  const room = pageHeight(plan, heights);
  const height = ({ row, rows }: Area): number => Array.from({ length: rows }, (_, i) => heights.get(row + i) ?? defaultRowHeight).reduce((sum, one) => sum + one, 0);
  const pages: Area[][] = [];
  for (const { at } of [...plan.charts].sort((a, b) => a.at.row - b.at.row)) {
    const page = pages.at(-1);
    if (page && height(around([...page, at])) <= room) page.push(at);
    else pages.push([at]);
  }
  return [plan.print.area, ...pages.map(around)];
}
