import type { Area } from "../cells/index.ts";
import type { Layout } from "./layout.ts";
import type { PlannedChart, Series } from "./plan.ts";
import type { Problems } from "./problems.ts";
import { meets, type Dimension, type Subject } from "./shape.ts";
import type { ChartSpec } from "./template.ts";

type ColumnSubject = Extract<Subject, { kind: "column" }>;

const height = 20;
const width = 8;

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
    name: outer.label === series.name ? member.text : `${series.name}, ${member.text}`,
    first: start + i * each,
    rows: each,
    left: left.slice(1),
  }));
}

function runsOver({ table: { groups } }: ColumnSubject, dimensions: readonly Dimension[]): boolean {
  const { over } = groups[0]!;
  return (
    groups.length === 1 && over.length === dimensions.length && over.every(({ id }, i) => id === dimensions[i]!.id)
  );
}

function seriesOf(spec: ChartSpec, one: ChartSpec["series"][number], layout: Layout): readonly Series[] | string {
  const find = (id: string): ColumnSubject | undefined => {
    const subject = layout.sheet.subjects.get(id);
    return subject?.kind === "column" ? subject : undefined;
  };
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
      row: layout.tables.get(subject.table)!.first + first,
      column: subject.column.at,
      rows: run.rows,
      columns: 1,
    });
    out.push({ name: run.name, kind: one.kind, x: area(x, same ? run.first : 0), y: area(y, run.first) });
  }
  return out;
}

/** A chart that repeats over the members of a dimension as one chart for each member present. */
function onePerMember({ members, ...spec }: ChartSpec, { sheet }: Layout): readonly ChartSpec[] {
  if (members === undefined) return [spec];
  return (sheet.dimensions.get(members)?.members ?? []).map(({ id, text }) => ({
    ...spec,
    id: `${spec.id}-${id}`,
    title: `${spec.title}: ${text}`,
    series: spec.series.map((one) => ({ ...one, member: id })),
  }));
}

/** The charts of the blocks present, placed right of the sheet's columns. */
export function plannedCharts(layout: Layout, column: number, problems: Problems): readonly PlannedChart[] {
  const { template, values, blocks } = layout.sheet;
  let next = 0;
  return template.charts
    .flatMap((spec) => onePerMember(spec, layout))
    .flatMap((spec): PlannedChart[] => {
      const place = `chart ${spec.id}`;
      if (!meets(spec.when, values)) return [];
      const block = blocks.find((b) => b.block.id === spec.block);
      if (!block) {
        if (!template.blocks.some(({ id }) => id === spec.block))
          problems.add(place, `there is no block ${spec.block}`);
        return [];
      }
      const series = spec.series.flatMap((one) => {
        const made = seriesOf(spec, one, layout);
        if (typeof made !== "string") return made;
        problems.add(place, made);
        return [];
      });
      if (series.length === 0) return [];
      const row = Math.max(next, layout.blockRows.get(block)!.title);
      next = row + height + 1;
      return [
        {
          id: spec.id,
          title: spec.title,
          x: { label: spec.x.label, unit: spec.x.unit, ...(spec.x.log && { log: true }) },
          y: spec.y,
          series: [...series.filter(({ kind }) => kind !== "point"), ...series.filter(({ kind }) => kind === "point")],
          at: { row, column, rows: height, columns: width },
        },
      ];
    });
}
