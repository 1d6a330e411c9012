import type { Area } from "../cells/index.ts";
import { firstOf, type Layout } from "./layout.ts";
import type { PlannedChart, Series } from "./plan.ts";
import type { Problems } from "./problems.ts";
import { meets, type Dimension, type ShapedBlock, type ShapedSheet, type Subject } from "./shape.ts";
import { markedSymbol, typeset } from "./subscripts.ts";
import type { ChartSpec } from "./template.ts";

type ColumnSubject = Extract<Subject, { kind: "column" }>;

interface Run {
  readonly name: string;
  readonly first: number;
  readonly rows: number;
  readonly left: readonly Dimension[];
}

/** The runs of rows a series stands for: `member` decides the outermost dimension, `each` the one after it. */
function runs(series: ChartSpec["series"][number], over: readonly Dimension[], rows: number): readonly Run[] | string {
  let left = over;
  let start = 0;
  let count = rows;
  if (series.member !== undefined) {
    const outer = left[0];
    if (!outer) return "its table has no dimension to choose a member of";
    const i = outer.members.findIndex(({ id }) => id === series.member);
    if (i < 0) return [];
    count /= outer.members.length;
    start = i * count;
    left = left.slice(1);
  }
  if (series.each === undefined) return [{ name: series.name, first: start, rows: count, left }];
  const outer = left[0];
  if (outer?.id !== series.each) return `${series.each} is not its table's outermost dimension`;
  const each = count / outer.members.length;
  return outer.members.map((member, i) => ({
    name: nameOf(series, outer, member.text),
    first: start + i * each,
    rows: each,
    left: left.slice(1),
  }));
}

/** Limits and outlines look alike whichever member they are of, and are named once. */
function nameOf({ kind, name }: ChartSpec["series"][number], { label }: Dimension, member: string): string {
  if (kind === "limit" || kind === "outline") return name;
  return label === name ? member : `${name}, ${member}`;
}

function runsOver({ table: { groups } }: ColumnSubject, dimensions: readonly Dimension[]): boolean {
  const { over } = groups[0]!;
  return (
    groups.length === 1 && over.length === dimensions.length && over.every(({ id }, i) => id === dimensions[i]!.id)
  );
}

function columnIn({ subjects }: ShapedSheet, id: string): ColumnSubject | undefined {
  const subject = subjects.get(id);
  return subject?.kind === "column" ? subject : undefined;
}

function seriesOf(spec: ChartSpec, one: ChartSpec["series"][number], layout: Layout): readonly Series[] | string {
  const find = (id: string): ColumnSubject | undefined => columnIn(layout.sheet, id);
  const xId = one.x ?? spec.x.column;
  const y = find(one.column);
  const x = find(xId);
  if (!y || !x) return `${!y ? one.column : xId} is not a table column present here`;
  if (y.table.groups.length > 1) return `${one.column} stands in a table with parts`;
  const found = runs(one, y.table.groups[0]!.over, y.table.rows);
  if (typeof found === "string") return `series ${one.name}: ${found}`;
  const out: Series[] = [];
  for (const run of found) {
    const same = x.table === y.table || runsOver(x, y.table.groups[0]!.over);
    if (!same && !runsOver(x, run.left)) return `series ${one.name}: ${xId} does not run over the same members`;
    const area = (subject: ColumnSubject, first: number): Area => ({
      row: firstOf(layout, subject.table, subject.column) + first,
      column: subject.column.at,
      rows: run.rows,
      columns: 1,
    });
    out.push({ name: asDrawn(run.name), kind: one.kind, x: area(x, same ? run.first : 0), y: area(y, run.first) });
  }
  return out;
}

/** A chart that repeats over the members of a dimension as one chart for each member present. */
function onePerMember({ members, ...spec }: ChartSpec, { dimensions }: ShapedSheet): readonly ChartSpec[] {
  if (members === undefined) return [spec];
  return (dimensions.get(members)?.members ?? []).map(({ id, text }) => ({
    ...spec,
    id: `${spec.id}-${id}`,
    title: `${spec.title}: ${text}`,
    series: spec.series.map((one) => ({ ...one, member: id })),
  }));
}

/** A chart that the sheet draws, before it is known where. */
export interface ShownChart {
  readonly spec: ChartSpec;
  /** The template's chart: one of its members has an id of its own. */
  readonly of: string;
  readonly block: ShapedBlock;
}

/** Whether a series has anything to draw: the member it is of may be left out. */
function isPresent(series: ChartSpec["series"][number], sheet: ShapedSheet): boolean {
  const y = columnIn(sheet, series.column);
  if (!y) return true;
  const found = runs(series, y.table.groups[0]!.over, y.table.rows);
  return typeof found === "string" || found.length > 0;
}

/** The charts of the blocks present. */
export function chartsOf(sheet: ShapedSheet): readonly ShownChart[] {
  return sheet.template.charts
    .filter(({ when }) => meets(when, sheet.values))
    .flatMap((spec) => onePerMember(spec, sheet).map((one) => ({ spec: one, of: spec.id })))
    .flatMap(({ spec, of }): ShownChart[] => {
      const block = sheet.blocks.find((b) => b.block.id === spec.block);
      return block && spec.series.some((one) => isPresent(one, sheet)) ? [{ spec, of, block }] : [];
    });
}

/** Charts have no subscripts: their symbols read as in the cells' plain text. */
const asDrawn = (text: string): string => typeset(markedSymbol(text)).text;

/** The charts with their cells, and what is wrong with them. */
export function plannedCharts(layout: Layout, problems: Problems): readonly PlannedChart[] {
  const { template, values } = layout.sheet;
  for (const { id, block, when } of template.charts)
    if (meets(when, values) && !template.blocks.some((b) => b.id === block))
      problems.add(`chart ${id}`, `there is no block ${block}`);
  return layout.charts.map(({ spec, at }): PlannedChart => {
    const series = spec.series.flatMap((one) => {
      const made = seriesOf(spec, one, layout);
      if (typeof made !== "string") return made;
      problems.add(`chart ${spec.id}`, made);
      return [];
    });
    return {
      id: spec.id,
      title: asDrawn(spec.title),
      x: { label: asDrawn(spec.x.label), unit: spec.x.unit, ...(spec.x.log && { log: true }) },
      y: { ...spec.y, label: asDrawn(spec.y.label) },
      series: [...series.filter(({ kind }) => kind !== "point"), ...series.filter(({ kind }) => kind === "point")],
      at,
    };
  });
}
