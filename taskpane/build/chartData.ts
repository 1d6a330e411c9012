import type { CellContent, Host } from "../../src/hosts/index.ts";
import type { Area, PlannedChart, Series } from "../../src/sheet/index.ts";

/** One line of a chart; a point that holds no number is left out. */
export interface Line {
  readonly name: string;
  readonly kind: Series["kind"];
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

const flat = (cells: readonly (readonly CellContent[])[]): readonly CellContent[] => cells.flat();

/** Reads a chart's lines from the sheet. Repeated places, which keep the table's length, count once. */
export async function readLines(host: Host, sheet: string, chart: PlannedChart): Promise<readonly Line[]> {
  const seen = new Map<string, Promise<readonly CellContent[]>>();
  const cells = (area: Area): Promise<readonly CellContent[]> => {
    const key = `${area.row}/${area.column}/${area.rows}/${area.columns}`;
    let known = seen.get(key);
    if (!known) seen.set(key, known = host.read(sheet, area).then(flat));
    return known;
  };
  return Promise.all(chart.series.map(async ({ name, kind, x, y }) => {
    const [xs, ys] = await Promise.all([cells(x), cells(y)]);
    const points: { x: number; y: number }[] = [];
    xs.forEach((at, i) => {
      const px = at.value;
      const py = ys[i]?.value;
      if (typeof px !== "number" || typeof py !== "number") return;
      const last = points.at(-1);
      if (last && last.x === px && last.y === py) return;
      points.push({ x: px, y: py });
    });
    return { name, kind, points };
  }));
}
