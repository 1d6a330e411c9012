import { a1, areaA1, quotedSheet, type Address, type Area } from "../cells/index.ts";
import { columns } from "./columns.ts";
import { firstOf, layOut, type Layout } from "./layout.ts";
import type { PlannedName, PlannedSource } from "./plan.ts";
import { areaAt, own, type Filling } from "./planCells.ts";
import type { ShapedColumn, ShapedRow, ShapedSheet, ShapedTable, Subject } from "./shape.ts";
import type { Inputs } from "./inputs.ts";
import type { InputSpec, Template } from "./template.ts";

/** A sheet of the source template as it stands in a workbook: its name, and the cells of its names. */
export interface SourceSheet {
  readonly sheet: string;
  readonly names: readonly PlannedName[];
}

/** What the status of a linked value says where the source has none: its cell shows an error, or is gone. */
export const noValue = "NO VALUE";
/** Of a linked value that is there. */
export const linked = "linked";

/** What the source is called in plans that belong to no workbook. */
const unnamedSource = "source";

/** The input of a linked sheet that says which sheet it is linked to. */
export const sourceSheetId = "sourceSheet";

/** The name that a row, column or configuration value has on its sheet. */
export const nameOf = (id: string): string => `kb_${id}`;

/** The cells of the source that a linked sheet refers to. */
export class Links {
  readonly #areas: ReadonlyMap<string, Area>;
  readonly #used = new Map<string, PlannedName>();

  constructor(readonly source: SourceSheet) {
    this.#areas = new Map(source.names.map(({ name, ...area }) => [name.toLowerCase(), area]));
  }

  /** The cell with that number under the source's id; undefined where the sheet has no such name or so few cells. */
  cell(id: string, index: number, of: number): Address | undefined {
    const name = nameOf(id);
    const area = this.#areas.get(name.toLowerCase());
    if (area?.rows !== of) return undefined;
    this.#used.set(name, { name, ...area });
    return { row: area.row + index, column: area.column };
  }

  /** Which names the sheet relies on. */
  planned(template: string): PlannedSource {
    return { template, sheet: this.source.sheet, names: [...this.#used.values()] };
  }
}

/** The cell or cells of a row, column or configuration value. */
function areaOf(subject: Subject, layout: Layout): Area {
  if (subject.kind === "shape") return areaAt({ row: layout.about.shape.get(subject.says.id)!, column: columns.value });
  if (subject.kind === "row") return areaAt(layout.values.get(subject.row)!);
  const { column, table } = subject;
  return { row: firstOf(layout, table, column), column: column.at, rows: table.rows, columns: 1 };
}

const sourcesKept = new WeakMap<ShapedSheet, SourceSheet>();

/** The source as its template places its cells, before rows are inserted there. */
export function plannedSource(source: ShapedSheet): SourceSheet {
  const kept = sourcesKept.get(source) ?? placedSource(source);
  sourcesKept.set(source, kept);
  return kept;
}

function placedSource(source: ShapedSheet): SourceSheet {
  const layout = layOut(source);
  const names = [...source.subjects].map(([id, subject]) => ({ name: nameOf(id), ...areaOf(subject, layout) }));
  return { sheet: unnamedSource, names };
}

/** Inputs of a linked sheet: its own, in the configuration of the source's inputs. */
export function inputsFrom({ source }: Template, ofSource: Inputs, own: Inputs): Inputs {
  const shape = (source?.template.shape ?? []).map(({ id, default: usual }) => [id, ofSource[id] ?? usual] as const);
  return { ...own, ...Object.fromEntries(shape) };
}

/** What a linked row or column takes, as the source has it in this shape. */
export function takenFrom({ source }: ShapedSheet, id: string): Subject | undefined {
  return source?.subjects.get(id);
}

function inputOf(subject: Subject | undefined): InputSpec | undefined {
  if (subject?.kind === "row") return subject.row.row.input;
  return subject?.kind === "column" ? subject.column.column.input : undefined;
}

/** "stress check, row 4.12": where a linked value comes from. */
export function whereFrom(sheet: ShapedSheet, id: string): string {
  const subject = takenFrom(sheet, id);
  const { name } = sheet.template.source!;
  if (subject?.kind === "column") return `${name}, table ${subject.table.item}`;
  const item = subject?.kind === "row" ? subject.row.item : "";
  return item === "" ? `${name}, first page` : `${name}, row ${item}`;
}

/** The formula of a linked cell: that of the source, an empty one left empty where an input can be. */
export function putLink(
  { cells, links, sheet, problems }: Filling,
  at: Address,
  id: string,
  index: number,
  of: number,
  place: string,
  format?: string,
  inWords = false,
): void {
  const cell = links?.cell(id, index, of);
  if (!links || !cell) {
    const rows = of === 1 ? "" : ` with ${of} rows`;
    problems.add(place, `the source sheet has no ${nameOf(id)}${rows}`);
    return;
  }
  const reference = `${quotedSheet(links.source.sheet)}!${of === 1 ? areaA1(areaAt(cell)) : `$${a1(cell)}`}`;
  const shown = inputOf(takenFrom(sheet, id)) ? `IF(${reference}="","",${reference})` : reference;
  // On the first page no status stands beside it: the word does instead.
  const formula = inWords ? `=IFERROR(${shown},"${noValue}")` : `=${shown}`;
  const says = takenFrom(sheet, id)?.says;
  // Words run on beside their cell; they would be drawn too small to be read in it.
  const role = says?.symbol === "–" && says.unit === "–" ? "linkedText" : "linked";
  cells.link({ ...at, role, formula, link: { name: nameOf(id), index }, ...(format && { format }) });
}

/** The status of linked cells: of one, or of a row of a table. An empty one is missing unless the source may leave it empty. */
export function statusOfLinks(
  { cells, sheet }: Filling,
  row: number,
  taken: readonly { readonly id: string; readonly at: Address }[],
  place: string,
): void {
  const errors = runs(taken.map(({ at }) => at)).map((area) => `SUMPRODUCT(ISERROR(${areaA1(area)})*1)`);
  const needed = taken.filter(({ id }) => {
    const input = inputOf(takenFrom(sheet, id));
    return input && !input.mayBeEmpty && !input.freeText;
  });
  const blank = needed.map(({ at }) => `${a1(at, true)}=""`);
  const there = blank.length === 0 ? `"${linked}"` : `IF(OR(${blank.join(",")}),"MISSING","${linked}")`;
  const formula = `=IF(${errors.join("+")}>0,"${noValue}",${there})`;
  const reads = taken.map(({ at }) => areaAt(at));
  const status = { row, column: columns.verdict };
  cells.formula(status.row, status.column, "verdict", own(formula, reads), place);
  for (const { id, at } of needed)
    cells.judged.push({ id, index: 0, where: `linked, ${whereFrom(sheet, id)}`, at, status, words: true });
}

/** Cells side by side as areas. */
function runs(cells: readonly Address[]): readonly Area[] {
  const out: Area[] = [];
  for (const { row, column } of cells) {
    const last = out.at(-1);
    if (last?.row === row && last.column + last.columns === column)
      out[out.length - 1] = { ...last, columns: last.columns + 1 };
    else out.push({ row, column, rows: 1, columns: 1 });
  }
  return out;
}

/** What does not fit between linked rows and columns and what they take, in this shape. */
export function linkProblems(sheet: ShapedSheet): readonly (readonly [place: string, problem: string])[] {
  return sheet.blocks
    .flatMap(({ items }) => items)
    .flatMap((item) => {
      if (item.kind === "row" && item.row.taken !== undefined) return problemsOf(sheet, item, item.row.taken);
      if (item.kind !== "table") return [];
      const taken = item.columns.filter(({ column }) => column.taken !== undefined);
      const beside = item.columns.some(({ column }) => column.input ?? column.verdict);
      return [
        ...(taken.length > 0 && beside
          ? ([[item.place, "has inputs or verdicts where the status of its linked columns stands"]] as const)
          : []),
        ...taken.flatMap((column) => problemsOf(sheet, column, column.column.taken!, item)),
      ];
    });
}

function problemsOf(
  sheet: ShapedSheet,
  { says, place }: ShapedRow | ShapedColumn,
  id: string,
  table?: ShapedTable,
): readonly (readonly [string, string])[] {
  const template = sheet.template.source?.template.id;
  if (template === undefined) return [[place, `takes ${id}, but the template names no source`]];
  const from = takenFrom(sheet, id);
  if (!from) return [[place, `takes ${id}, which ${template} does not have in this configuration`]];
  const out: string[] = [];
  if (from.says.unit !== says.unit) out.push(`takes ${id}, which is in ${from.says.unit} there, in ${says.unit}`);
  if (from.says.quantity !== says.quantity)
    out.push(
      `takes ${id}, which is ${from.says.quantity?.key ?? "no quantity"} there, as ${says.quantity?.key ?? "no quantity"}`,
    );
  if (table && from.kind !== "column") out.push(`takes ${id}, which is a single value there, not a column`);
  if (!table && from.kind === "column") out.push(`takes ${id}, which is a column there; a table is needed`);
  if (table && from.kind === "column" && !runsOver(sheet, table, from.table))
    out.push(`takes ${id}, which runs over other dimensions there`);
  return out.map((problem) => [place, problem] as const);
}

/** Whether the rows of a linked table are those of the source's. */
function runsOver({ template, source }: ShapedSheet, { table, rows }: ShapedTable, from: ShapedTable): boolean {
  if (rows !== from.rows) return false;
  const over = table.over.map((id) => {
    const spec = template.dimensions[id];
    return spec && "ofSource" in spec ? spec.ofSource : id;
  });
  const [only] = over;
  if (over.length === 1 && from.countedBy === source?.dimensions.get(only!)) return true;
  return from.groups.length === 1 && over.join() === from.table.over.join();
}
