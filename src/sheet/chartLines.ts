import type { Area, CellContent } from "../cells/index.ts";
import type { PlannedChart, Series } from "./plan.ts";

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** One line of a chart, or its points without a line; a point that holds no number is left out. */
export interface Line {
  readonly name: string;
  readonly kind: Series["kind"];
  readonly points: readonly Point[];
}

/**
 * A chart's lines in the order of its rows, from what stands in the cells of an area. Repeated places, which keep the
 * table's length, count once; a logarithmic axis has none for 0 and less.
 */
export function chartLines(chart: PlannedChart, cells: (area: Area) => readonly CellContent[]): readonly Line[] {
  return chart.series.map(({ name, kind, x, y }) => {
    const [xs, ys] = [cells(x), cells(y)];
    const points: Point[] = [];
    xs.forEach((at, i) => {
      const px = at.value;
      const py = ys[i]?.value;
      if (typeof px !== "number" || typeof py !== "number" || (chart.x.log && px <= 0)) return;
      const last = points.at(-1);
      if (last && last.x === px && last.y === py) return;
      points.push({ x: px, y: py });
    });
    return { name, kind, points };
  });
}
