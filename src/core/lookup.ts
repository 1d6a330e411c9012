import type { Label } from "./parameters.ts";

/** The table's value for one of the choices. */
export function valueFor(values: Readonly<Record<string, number>>, label: Label): number {
  const value = values[label];
  if (value === undefined) throw new Error(`the table has no value for ${label}`);
  return value;
}

/** Reads a table between its points, linearly; beyond its ends the end value holds. Points ascend. */
export function valueBetween(points: readonly (readonly [number, number])[], x: number): number {
  const next = points.findIndex(([at]) => x <= at);
  if (next === 0) return points[0]![1];
  if (next < 0) return points.at(-1)![1];
  const [x0, y0] = points[next - 1]!;
  const [x1, y1] = points[next]!;
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}
