import type { Area } from "../../src/cells/index.ts";
import type { CellContent, Host } from "../../src/hosts/index.ts";
import { chartLines, type Line, type PlannedChart } from "../../src/sheet/index.ts";

export type { Line, Point } from "../../src/sheet/index.ts";

const keyOf = (area: Area): string => `${area.row}/${area.column}/${area.rows}/${area.columns}`;

/** Reads a chart's lines from the sheet. */
export async function readLines(host: Host, sheet: string, chart: PlannedChart): Promise<readonly Line[]> {
  const areas = new Map(chart.series.flatMap(({ x, y }) => [x, y]).map((area) => [keyOf(area), area]));
  const read = await Promise.all(
    [...areas].map(async ([key, area]): Promise<[string, readonly CellContent[]]> => [
      key,
      (await host.read(sheet, area)).flat(),
    ]),
  );
  const cells = new Map(read);
  return chartLines(chart, (area) => cells.get(keyOf(area))!);
}

/** Whether a line goes back along x, as an outline does: its numbers are then read in the order in which they are joined. */
export function goesBack(lines: readonly Line[]): boolean {
  return lines.some(({ kind, points }) => kind !== "point" && points.some(({ x }, i) => i > 0 && x < points[i - 1]!.x));
}

/** The powers of ten round positive numbers, one decade at least. */
export function decades(values: readonly number[]): readonly number[] {
  const first = Math.floor(Math.log10(Math.min(...values)));
  const last = Math.max(Math.ceil(Math.log10(Math.max(...values))), first + 1);
  // Read from text, a power of ten is the nearest number to it.
  return Array.from({ length: last - first + 1 }, (_, i) => Number(`1e${first + i}`));
}

/** Every how many decades there is room for a number, where a decade is so many pixels long. */
export const decadesApart = (length: number): number => Math.ceil(50 / length);

/** A power of ten as an axis shows it: 0.1, 1, 1000, 10 000, and 10⁶ from a million on. */
export function decadeText(power: number): string {
  const exponent = Math.round(Math.log10(power));
  if (exponent >= 6 || exponent <= -4)
    return `10${[...String(exponent)].map((c) => (c === "-" ? "⁻" : "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(c)]!)).join("")}`;
  return power < 10_000 ? String(power) : String(power).replace(/000$/, "\u202f000");
}
