import type { PlannedChart, Series } from "../../sheet/index.ts";

/** How charts look, on every host whose program draws them. Marks differ too, so that series are told apart without colour. */
export const lookOfCharts = {
  series: [
    { color: "#0b5f7a", mark: "circle" },
    { color: "#a2451b", mark: "square" },
    { color: "#5b3f9e", mark: "diamond" },
    { color: "#2f6f37", mark: "triangle" },
    { color: "#8a2465", mark: "star" },
    { color: "#5c5a10", mark: "x" },
  ],
  /** Points stand in the colour of the text, larger than the marks of lines, and are told apart by their marks. */
  points: ["diamond", "square", "triangle", "circle"],
  /** Sizes of marks, in points of print. */
  sizes: { mark: 4, point: 9 },
  /** Limits are dashed and have no marks. */
  limit: "#b00020",
  grid: "#d5dbe0",
  frame: "#b9c4cb",
} as const;

/** "P_m0 [kN]"; a quantity without a unit stands alone. */
export function axisTitle({ label, unit }: PlannedChart["x"]): string {
  return unit === "–" ? label : `${label} [${unit}]`;
}

/** The lines with their names beside the chart: no outlines, and lines of one name once. */
export function namedSeries({ series }: PlannedChart): ReadonlySet<Series> {
  const names = new Set<string>();
  return new Set(
    series.filter(({ kind, name }) => {
      if (kind === "outline" || kind === "frame" || names.has(name)) return false;
      names.add(name);
      return true;
    }),
  );
}

/** Whether both axes have one scale: a drawing, in a square place. */
export function isToScale({ series }: PlannedChart): boolean {
  return series.some(({ kind }) => kind === "frame");
}
