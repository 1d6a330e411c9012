import { templateFormula } from "../cells/index.ts";
import { placeColumns, rangesIn, type PlacedColumn, type Repeated } from "./bands.ts";
import { Problems } from "./problems.ts";
import { says, type Says } from "./says.ts";
import type {
  AcrossItem,
  InputSpec,
  Block,
  Column,
  Condition,
  FrontItem,
  NoteItem,
  Part,
  Row,
  ShapeInput,
  TableItem,
  Template,
  WarningsItem,
} from "./template.ts";

/** The shape inputs' values by id. */
export type ShapeValues = Readonly<Record<string, string | number>>;

/** A dimension with its members counted. `base` and `offset` say where its members stand in the dimension it is a part of. */
export interface Dimension {
  readonly id: string;
  readonly base: string;
  readonly offset: number;
  readonly label: string;
  readonly members: readonly { readonly id: string; readonly text: string }[];
}

/** Rows of a table that run over the same dimensions. */
export interface Group {
  readonly over: readonly Dimension[];
  /** First row, counted in the table. */
  readonly first: number;
  readonly rows: number;
  readonly part?: Part;
}

export interface ShapedRow {
  readonly kind: "row";
  /** Stands among the workings. */
  readonly working: boolean;
  readonly row: Row;
  readonly says: Says;
  readonly item: string;
  readonly place: string;
}
export interface ShapedNote {
  readonly kind: "note";
  readonly working: boolean;
  readonly note: NoteItem;
  readonly place: string;
}
export interface ShapedWarnings {
  readonly kind: "warnings";
  readonly working: boolean;
  readonly warnings: WarningsItem;
  readonly place: string;
}
export interface ShapedColumn extends PlacedColumn {
  readonly column: Column;
  readonly says: Says;
  readonly place: string;
}
export interface ShapedTable {
  readonly kind: "table";
  readonly table: TableItem;
  readonly item: string;
  readonly place: string;
  readonly columns: readonly ShapedColumn[];
  /** What further bands begin with. */
  readonly repeated: readonly Repeated[];
  readonly bands: number;
  /** How many of the bands hold results, the first ones; the others stand among the workings. */
  readonly results: number;
  readonly groups: readonly Group[];
  readonly rows: number;
  /** The dimension that counts this table's rows. */
  readonly countedBy?: Dimension;
}
/** Whether a table holds nothing of the calculation: only what people write down when they issue or check the sheet. */
export function isRecord({ columns }: ShapedTable): boolean {
  return columns.every(({ column }) => column.record);
}

export interface ShapedFront {
  readonly kind: "front";
  readonly front: FrontItem;
  readonly place: string;
}
export interface ShapedAcross {
  readonly kind: "across";
  readonly working: false;
  readonly across: AcrossItem;
  readonly item: string;
  readonly place: string;
}
/** Whether a block holds only such tables. */
export function isRecordBlock({ items }: Block): boolean {
  return items.every((item) => "table" in item && item.columns.every(({ record }) => record));
}

/** The numbers run as the blocks are printed: what people write by hand stands behind the configuration, a block too. */
function numberOf(block: Block, shown: readonly Block[]): number {
  const numbered = shown.filter(({ front }) => !front);
  const printed = numbered.filter((other) => !isRecordBlock(other));
  const written = numbered.filter(isRecordBlock);
  return isRecordBlock(block) ? printed.length + 2 + written.indexOf(block) : printed.indexOf(block) + 1;
}

export type ShapedItem = ShapedRow | ShapedNote | ShapedTable | ShapedWarnings | ShapedFront | ShapedAcross;
export interface ShapedBlock {
  readonly block: Block;
  /** Counted from 1; the first page has none. */
  readonly number: number;
  readonly items: readonly ShapedItem[];
}

/** What an id means. */
export type Subject =
  | { readonly kind: "shape"; readonly says: Says; readonly input: ShapeInput }
  | { readonly kind: "row"; readonly says: Says; readonly row: ShapedRow }
  | { readonly kind: "column"; readonly says: Says; readonly column: ShapedColumn; readonly table: ShapedTable };

/** A template with its shape inputs decided: which rows there are and how many, not yet where. */
export interface ShapedSheet {
  readonly template: Template;
  readonly values: ShapeValues;
  readonly blocks: readonly ShapedBlock[];
  readonly dimensions: ReadonlyMap<string, Dimension>;
  readonly subjects: ReadonlyMap<string, Subject>;
  /** Of a linked sheet: the source in the same configuration. */
  readonly source?: ShapedSheet;
  /** Rows and columns whose function's warnings are listed. */
  /** Inputs with an everyday range, whose unusual values the sheet lists. */
  readonly watched: readonly (ShapedRow | { readonly table: ShapedTable; readonly column: ShapedColumn })[];
  readonly warned: readonly (ShapedRow | { readonly table: ShapedTable; readonly column: ShapedColumn })[];
}

export function meets(when: Condition | undefined, values: ShapeValues): boolean {
  return Object.entries(when ?? {}).every(([id, value]) => values[id] === value);
}

function presentParts(table: TableItem, values: ShapeValues): readonly Part[] {
  return (table.parts ?? []).filter(({ when }) => meets(when, values));
}

/** "block 5 (losses), item 3 (sigma)": where a message points, counted as in the template's file. */
export function placeOf(template: Template, block: number, item: number): string {
  const of = template.blocks[block]!;
  const it = of.items[item]!;
  const name = nameOf(it);
  return `block ${block + 1} (${of.id}), item ${item + 1} (${name})`;
}

function nameOf(item: Block["items"][number]): string {
  if ("table" in item) return `table ${item.table}`;
  if ("id" in item) return item.id;
  if ("front" in item) return item.front;
  if ("across" in item) return item.title;
  return "warnings" in item ? "warnings" : "note";
}

class Dimensions {
  readonly known = new Map<string, Dimension>();
  private readonly open = new Set<string>();
  constructor(
    private readonly template: Template,
    private readonly values: ShapeValues,
    private readonly problems: Problems,
    private readonly source: ShapedSheet | undefined,
  ) {}

  of(id: string): Dimension | undefined {
    const before = this.known.get(id);
    if (before) return before;
    const place = `dimension ${id}`;
    const spec = this.template.dimensions[id];
    if (!spec) return undefined;
    if (this.open.has(id)) {
      this.problems.add(place, "its number of members depends on itself");
      return undefined;
    }
    this.open.add(id);
    const made = this.make(id, spec, place);
    this.open.delete(id);
    if (!made) return undefined;
    this.known.set(id, made);
    return made;
  }

  rowsOf(table: TableItem): number {
    return [table.over, ...presentParts(table, this.values).map(({ over }) => over)].reduce(
      (sum, over) => sum + this.rowsOver(over),
      0,
    );
  }

  rowsOver(over: readonly string[]): number {
    return over.reduce((product, id) => product * (this.of(id)?.members.length ?? 0), 1);
  }

  private make(id: string, spec: Template["dimensions"][string], place: string): Dimension | undefined {
    const numbered = (count: number): Dimension["members"] =>
      Array.from({ length: Math.max(0, count) }, (_, i) => ({ id: String(i + 1), text: `${spec.label} ${i + 1}` }));
    const { label } = spec;
    if ("members" in spec)
      return {
        id,
        base: id,
        offset: 0,
        label,
        members: spec.members.filter(({ when }) => meets(when, this.values)).map((m) => ({ id: m.id, text: m.text })),
      };
    if ("ofSource" in spec) {
      const of = this.source?.dimensions.get(spec.ofSource);
      if (of) return { id, base: id, offset: 0, label, members: of.members };
      this.problems.add(place, `the source has no dimension ${spec.ofSource}`);
      return undefined;
    }
    if ("size" in spec) return { id, base: id, offset: 0, label, members: numbered(spec.size) };
    if ("count" in spec) {
      const count = this.values[spec.count];
      if (typeof count === "number")
        return { id, base: id, offset: 0, label, members: numbered(count + (spec.plus ?? 0)) };
      this.problems.add(place, `${spec.count} is not a shape input that is a number`);
      return undefined;
    }
    if ("rowsOf" in spec) {
      const table = this.template.blocks
        .filter(({ when }) => meets(when, this.values))
        .flatMap(({ items }) => items)
        .find(
          (item): item is TableItem => "table" in item && item.table === spec.rowsOf && meets(item.when, this.values),
        );
      if (table) return { id, base: id, offset: 0, label, members: numbered(this.rowsOf(table)) };
      this.problems.add(place, `there is no table ${spec.rowsOf}`);
      return undefined;
    }
    const whole = this.of(spec.within);
    if (!whole) {
      this.problems.add(place, `there is no dimension ${spec.within}`);
      return undefined;
    }
    return {
      id,
      base: whole.base,
      offset: whole.offset + spec.skipFirst,
      label,
      members: whole.members.slice(spec.skipFirst, whole.members.length - spec.skipLast),
    };
  }
}

/** Rows that count over the sheet above them stay below what they count. */
const countsOver = /\{(count|inputs|failing|shapeChanged|warningsCode|assumptions)\b/;

function isResultRow({ results }: Block, row: Row): boolean {
  if (!results || row.input || row.verdict !== undefined || row.summary || row.overall) return true;
  return results.includes(row.id) || countsOver.test(row.formula ?? "");
}

function isResultColumn({ results }: Block, table: TableItem, column: Column): boolean {
  if (!results || results.includes(table.table) || column.input || column.record) return true;
  // The verdict goes with what it judges.
  if (column.verdict) return table.columns.some((other) => !other.verdict && results.includes(other.id));
  return results.includes(column.id);
}

function isWorking(item: ShapedItem): boolean {
  if (item.kind === "table") return item.results === 0;
  return item.kind !== "front" && item.working;
}

/** A note goes to the workings where all that follows it does, up to the next note. */
function notesPlaced(items: readonly ShapedItem[]): readonly ShapedItem[] {
  return items.map((item, i) => {
    if (item.kind !== "note") return item;
    const rest = items.slice(i + 1);
    const next = rest.findIndex(({ kind }) => kind === "note");
    const under = next < 0 ? rest : rest.slice(0, next);
    return { ...item, working: !item.note.caution && under.length > 0 && under.every(isWorking) };
  });
}

const mostSources = 100;
const sourcesKept = new WeakMap<Template, Map<string, ShapedSheet>>();

/** The source in a shape: the same for all sheets linked to it. */
function sourceIn(template: Template, values: ShapeValues): ShapedSheet {
  const kept = sourcesKept.get(template) ?? new Map<string, ShapedSheet>();
  sourcesKept.set(template, kept);
  const key = JSON.stringify(template.shape.map(({ id }) => values[id]));
  const known = kept.get(key);
  if (known) return known;
  if (kept.size >= mostSources) kept.clear();
  const { sheet } = shapeSheet(template, values);
  kept.set(key, sheet);
  return sheet;
}

/** Leaves out what the shape inputs leave out, counts members and rows and gives item numbers. */
export function shapeSheet(
  template: Template,
  values: ShapeValues,
): { readonly sheet: ShapedSheet; readonly problems: readonly string[] } {
  const problems = new Problems();
  const source = template.source && sourceIn(template.source.template, values);
  const dimensions = new Dimensions(template, values, problems, source);
  const subjects = new Map<string, Subject>();
  const lower = new Map<string, string>();
  const tables = new Set<string>();
  const ranges = rangesIn(template);
  const note = (place: string, subject: Subject): void => {
    const { id } = subject.says;
    const other = lower.get(id.toLowerCase());
    if (other === undefined) lower.set(id.toLowerCase(), id);
    else
      problems.add(
        place,
        other === id ? `the id ${id} stands twice` : `the ids ${other} and ${id} differ only in upper and lower case`,
      );
    if (!subjects.has(id)) subjects.set(id, subject);
  };
  for (const input of template.shape)
    note("shape", { kind: "shape", input, says: { id: input.id, text: input.text, symbol: input.symbol, unit: "–" } });

  const shapeTable = (block: Block, table: TableItem, item: string, place: string): ShapedTable => {
    if (tables.has(table.table)) problems.add(place, `the table ${table.table} stands twice`);
    tables.add(table.table);
    let rows = 0;
    const groups = [
      { over: table.over, part: undefined },
      ...presentParts(table, values).map((part) => ({ over: part.over, part })),
    ].map(({ over, part }): Group => {
      for (const id of over)
        if (!dimensions.of(id) && !(id in template.dimensions)) problems.add(place, `there is no dimension ${id}`);
      const first = rows;
      const count = dimensions.rowsOver(over);
      rows += count;
      return { over: over.flatMap((id) => dimensions.of(id) ?? []), first, rows: count, ...(part && { part }) };
    });
    // A part without rows is fine (no points between two); a table without rows leaves its references nowhere to point.
    if (groups[0]!.rows === 0) problems.add(place, "has no rows");
    const counting = Object.entries(template.dimensions).find(
      ([, spec]) => "rowsOf" in spec && spec.rowsOf === table.table,
    );
    const countedBy = counting && dimensions.of(counting[0]);
    const present = table.columns.filter(({ when }) => meets(when, values));
    const said = present.map(says);
    const texts = (dimension: string): readonly string[] =>
      dimensions.of(dimension)?.members.map(({ text }) => text) ?? [];
    const bands = placeColumns(present, said, ranges, texts, (column) => isResultColumn(block, table, column));
    const columns = present.map((column, i): ShapedColumn => ({
      column,
      says: said[i]!,
      ...bands.placed[i]!,
      place: `${place}, column ${column.id}`,
    }));
    const { repeated, count, results } = bands;
    return {
      kind: "table",
      table,
      item,
      place,
      columns,
      repeated,
      bands: count,
      results,
      groups,
      rows,
      ...(countedBy && { countedBy }),
    };
  };

  const shown = template.blocks.filter(({ when }) => meets(when, values));
  const blocks: ShapedBlock[] = [];
  template.blocks.forEach((block, b) => {
    if (!meets(block.when, values)) return;
    const number = block.front ? 0 : numberOf(block, shown);
    let count = 0;
    const items = block.items.flatMap((item, i): ShapedItem[] => {
      if (!meets(item.when, values)) return [];
      const place = placeOf(template, b, i);
      if ("warnings" in item)
        return [{ kind: "warnings", working: block.results !== undefined, warnings: item, place }];
      if ("table" in item) {
        const table = shapeTable(block, item, `${number}.${++count}`, place);
        for (const column of table.columns) note(column.place, { kind: "column", says: column.says, column, table });
        return [table];
      }
      if ("across" in item)
        return [{ kind: "across", working: false, across: item, item: `${number}.${++count}`, place }];
      if ("note" in item) return [{ kind: "note", working: false, note: item, place }];
      if ("front" in item) return [{ kind: "front", front: item, place }];
      const own = block.front ? "" : `${number}.${++count}`;
      const working = !isResultRow(block, item);
      const row: ShapedRow = { kind: "row", working, row: item, says: says(item), item: own, place };
      note(place, { kind: "row", says: row.says, row });
      return [row];
    });
    blocks.push({ block, number, items: notesPlaced(items) });
  });
  for (const id of Object.keys(template.dimensions)) dimensions.of(id);

  const watches = (input: InputSpec | undefined, { quantity }: Says): boolean =>
    input !== undefined && input.choices === undefined && quantity?.typical !== undefined;
  const watched = blocks
    .flatMap(({ items }) => items)
    .flatMap((item): ShapedSheet["watched"] => {
      if (item.kind === "row") return watches(item.row.input, item.says) ? [item] : [];
      return item.kind === "table"
        ? item.columns
            .filter(({ column, says: of }) => watches(column.input, of))
            .map((column) => ({ table: item, column }))
        : [];
    });
  const warned = blocks
    .flatMap(({ items }) => items)
    .flatMap((item): ShapedSheet["warned"] => {
      if (item.kind === "row")
        return item.row.formula !== undefined && templateFormula(item.row.formula).calls.length === 1 ? [item] : [];
      return item.kind === "table"
        ? item.columns.filter(({ column }) => column.warnAt !== undefined).map((column) => ({ table: item, column }))
        : [];
    });
  return {
    sheet: {
      template,
      values,
      blocks,
      dimensions: dimensions.known,
      subjects,
      watched,
      warned,
      ...(source && { source }),
    },
    problems: problems.list,
  };
}
