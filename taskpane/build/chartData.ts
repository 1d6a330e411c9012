import type { Area } from "../../src/cells/index.ts";
import type { CellContent, Host } from "../../src/hosts/index.ts";
import type { PlannedChart, Series } from "../../src/sheet/index.ts";

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

const flat = (cells: readonly (readonly CellContent[])[]): readonly CellContent[] => cells.flat();

/**
 * Reads a chart's lines from the sheet, in the order of its rows. Repeated places, which keep the table's length, count
 * once; a logarithmic axis has none for 0 and less.
 */
export async function readLines(host: Host, sheet: string, chart: PlannedChart): Promise<readonly Line[]> {
  const seen = new Map<string, Promise<readonly CellContent[]>>();
  const cells = (area: Area): Promise<readonly CellContent[]> => {
    const key = `${area.row}/${area.column}/${area.rows}/${area.columns}`;
    let known = seen.get(key);
    if (!known) seen.set(key, (known = host.read(sheet, area).then(flat)));
    return known;
  };
  return Promise.all(
    chart.series.map(async ({ name, kind, x, y }) => {
      const [xs, ys] = await Promise.all([cells(x), cells(y)]);
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
    }),
  );
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
