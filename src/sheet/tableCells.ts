import { a1 } from "../cells/index.ts";
import { headOfColumn, holdsWords, type Repeated } from "./bands.ts";
import { columns, tableColumns } from "./columns.ts";
import { brokenTexts, conflictMessage, judgeInput, neededText } from "./conflictCells.ts";
import { putLink, statusOfLinks } from "./links.ts";
import { firstOf, type HeaderRow, type PlacedTable } from "./layout.ts";
import type { Role } from "./plan.ts";
import { everydayOf, inputRole, own, type Filling } from "./planCells.ts";
import { judgements } from "./relations.ts";
import { contexts, type TableContext } from "./resolve.ts";
import { boundFormat, boundsOf, formatOf } from "./says.ts";
import { isRecord, type ShapedColumn, type ShapedTable } from "./shape.ts";
import { statusFormula, type StatusOf } from "./status.ts";
import { withheldWhileMissing } from "./pass.ts";
import { write } from "./write.ts";

/** A title with room for a mark of the whole of it. */
export function markedTitle({ cells }: Filling, row: number, role: Role, text: string, last = columns.mark - 1): void {
  cells.put(row, columns.description, role, text);
  cells.carry(row, role, columns.description + 1, last);
  if (last < columns.mark) cells.mark(row);
}

/** A table: its title, its columns defined, and its bands of heading and rows. */
export function fillTable(filling: Filling, placed: PlacedTable): void {
  const { cells } = filling;
  const { shaped } = placed;
  fillHead(filling, placed);
  const rows = contexts(shaped);
  for (const column of shaped.columns) {
    for (const context of rows) fillCell(filling, column, context);
    const area = {
      row: firstOf(filling.layout, shaped, column),
      column: column.at,
      rows: shaped.rows,
      columns: 1,
    };
    cells.name(column.says.id, area);
    cells.mean(
      column.says,
      shaped.item,
      area,
      placed.list.find((one) => one.column === column),
    );
    if (column.column.input) {
      const inputs = { ...area, rows: shaped.groups[0]!.rows };
      cells.validate(inputs, column.column.input, column.says);
      cells.unlocked.push(inputs);
    }
    if (column.column.record) {
      cells.unlocked.push(area);
      // Room to write in, and for marks that say more once they are stale.
      for (let i = 0; i < shaped.rows; i++) cells.raise(area.row + i, 2);
    }
    if (column.cells > 1 && (column.column.record || column.column.input))
      for (let i = 0; i < shaped.rows; i++) cells.join(area.row + i, column.at, column.at + column.cells - 1);
  }
  for (const one of shaped.repeated) fillRepeated(filling, placed, one);
  fillStatuses(filling, placed, rows);
  fillLinkStatuses(filling, placed);
}

function fillHead(filling: Filling, placed: PlacedTable): void {
  const { cells } = filling;
  const { shaped, title, workings, note, list, bands } = placed;
  cells.put(title, columns.item, "item", shaped.item);
  markedTitle(filling, title, "subtitle", shaped.table.title, isRecord(shaped) ? columns.mark : undefined);
  if (workings !== undefined) {
    cells.put(workings, columns.item, "item", shaped.item);
    markedTitle(filling, workings, "subtitle", `${shaped.table.title}: workings`);
  }
  if (note !== undefined) cells.sentence(note, "note", shaped.table.note!, columns.description, columns.mark);
  for (const { row, at, symbol, texts } of list) {
    cells.put(row, at, "listed", symbol);
    cells.texts(row, texts);
  }
  bands.forEach(({ header }, band) => {
    const units = header.get("unit");
    for (const column of [columns.item, ...spread(tableColumns.first, columns.verdict)]) {
      const of = shaped.columns.find((c) => c.band === band && c.at === column) ?? repeatedAt(placed, band, column);
      const head = of && !of.column.verdict ? headOfColumn(of) : undefined;
      // What the rows are counted in stands in the table's title; its words do not fit the column of numbers.
      const numbers = of?.column.index !== undefined && column === columns.item;
      cells.put(header.get("symbol")!, column, of ? roleOfHead(of, shaped) : "tableSymbol", numbers ? "no." : head);
      const unit = of && of.says.unit !== "–" ? of.says.unit : undefined;
      if (units !== undefined) cells.put(units, column, "tableUnit", unit);
    }
    for (const name of ["from", "to"] as const) fillBounds(filling, placed, band, name);
  });
}

function spread(from: number, to: number): readonly number[] {
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}

function repeatedAt({ shaped }: PlacedTable, band: number, at: number): ShapedColumn | undefined {
  const one = shaped.repeated.find((r) => r.band === band && r.at === at);
  return one && shaped.columns[one.of];
}

/** The allowed values of a band's inputs, from and to. */
function fillBounds({ cells }: Filling, { shaped, bands }: PlacedTable, band: number, name: "from" | "to"): void {
  const row = bands[band]!.header.get(name);
  if (row === undefined) return;
  cells.put(row, columns.item, "bound", name);
  for (const { column, says, at, band: own } of shaped.columns) {
    if (own !== band || !column.input || column.input.choices || column.input.freeText) continue;
    const { min, above, max, below } = boundsOf(column.input, says.quantity);
    if (name === "from") cells.put(row, at, "bound", min ?? above, boundFormat(min, above, "from"));
    else cells.put(row, at, "bound", max ?? below, boundFormat(max, below, "to"));
  }
}

function fillRepeated({ cells, layout }: Filling, { shaped, bands }: PlacedTable, { band, at, of }: Repeated): void {
  const column = shaped.columns[of]!;
  const [from, to] = [firstOf(layout, shaped, column), bands[band]!.first];
  for (let i = 0; i < shaped.rows; i++) {
    const source = { row: from + i, column: column.at };
    const role: Role = column.column.index === undefined ? "description" : "item";
    cells.formula(
      to + i,
      at,
      role,
      own(`=$${a1(source)}`, [{ ...source, rows: 1, columns: 1 }]),
      column.place,
      column.column.index === undefined ? undefined : (column.says.format ?? "0"),
    );
  }
}

function fillStatuses(filling: Filling, placed: PlacedTable, rows: readonly TableContext[]): void {
  const { cells, layout, sheet } = filling;
  const { shaped, bands } = placed;
  const inputs = shaped.columns.filter(({ column }) => column.input);
  if (inputs.length === 0) return;
  const judged = new Map(inputs.map(({ says }) => [says.id, judgements(sheet, says.id)] as const));
  const all = [...judged.values()].flat();
  const { band } = inputs.at(-1)!;
  const first = bands[band]!.first;
  const used = shaped.columns.filter((column) => column.band === band).map(({ at, cells: width }) => at + width);
  for (const context of rows) {
    if (context.group.part) continue;
    const row = first + context.row;
    const status = statusFormula(
      inputs.map((input): StatusOf => {
        const { column, says, at } = input;
        const ownRow = firstOf(layout, shaped, input) + context.row;
        const header = bands[input.band]!.header;
        const bound = (name: HeaderRow): string => a1({ row: header.get(name) ?? ownRow, column: at }, true);
        return {
          cell: `$${a1({ row: ownRow, column: at })}`,
          input: column.input!,
          bounds: boundsOf(column.input!, says.quantity),
          from: bound("from"),
          to: bound("to"),
          ...everydayOf(says),
          broken: brokenTexts(filling, judged.get(says.id)!, context, { row: ownRow, column: at }),
          ...neededText(filling, column.input!, context, { row: ownRow, column: at }),
        };
      }),
    );
    const reads = inputs.map((input) => ({
      row: firstOf(layout, shaped, input) + context.row,
      column: input.at,
      rows: 1,
      columns: 1,
    }));
    if (status) cells.formula(row, columns.verdict, "verdict", own(status, reads), shaped.place);
    inputs.forEach(({ column, says }, i) => judgeInput(filling, says.id, column.input!, context, reads[i]!, row));
    if (all.length === 0) continue;
    const of = [...judged].flatMap(([id, its]) => (its.length > 0 ? [{ id, index: context.row }] : []));
    const free = Math.max(...used);
    // A table as wide as the page leaves only the column of marks.
    const at = { row, column: free > tableColumns.last ? columns.mark : free };
    conflictMessage(filling, at, row, all, context, '""', shaped.place, of);
  }
}

/** Beside each row of linked values whether all are there. */
function fillLinkStatuses(filling: Filling, { shaped, bands }: PlacedTable): void {
  const taken = shaped.columns.filter(({ column }) => column.taken !== undefined);
  const last = taken.at(-1);
  if (!last) return;
  for (let i = 0; i < shaped.rows; i++) {
    const cells = taken.map((column) => ({
      id: column.column.taken!,
      at: { row: firstOf(filling.layout, shaped, column) + i, column: column.at },
    }));
    statusOfLinks(filling, bands[last.band]!.first + i, cells, shaped.place);
  }
}

function fillCell(filling: Filling, shaped: ShapedColumn, context: TableContext): void {
  const { cells, layout, problems } = filling;
  const { column, says, at, place } = shaped;
  const { group, table } = context;
  const row = firstOf(layout, table, shaped) + context.row;
  const ofPart = group.part?.formulas[says.id];
  const over = (): string => group.over.map(({ id }) => id).join(" and ");
  const role = roleOf(shaped, table);
  const formula = (text: string): void =>
    cells.formula(
      row,
      at,
      role,
      write(text, context, { row, column: at }, layout),
      group.part ? `${place}, part over ${over()}` : place,
      column.verdict ? undefined : formatOf(says),
    );
  const judging = (text: string): string => (column.verdict ? withheldWhileMissing(text, filling.sheet) : text);
  if (ofPart !== undefined) return formula(judging(ofPart));
  const index = group.part?.index?.[says.id] ?? column.index;
  if (index !== undefined)
    return cells.put(row, at, "item", memberOf(filling, index, context, place)?.number, says.format ?? "0");
  if (column.memberText !== undefined)
    return cells.put(row, at, "description", memberOf(filling, column.memberText, context, place)?.text);
  if (column.formula !== undefined) return formula(judging(column.formula));
  if (column.cells) {
    const member = group.over.at(-1)?.members[context.members.at(-1) ?? 0];
    const content = member && column.cells[member.id];
    if (content === undefined) return problems.add(place, `cells says nothing for ${member?.id ?? "a single row"}`);
    return typeof content === "string" && content.startsWith("=")
      ? formula(content)
      : cells.put(row, at, role, content, says.format);
  }
  if (column.taken !== undefined)
    return putLink(filling, { row, column: at }, column.taken, context.row, table.rows, place, formatOf(says));
  if (column.record) return cells.put(row, at, "record", undefined, says.format);
  if (!column.input) return;
  if (group.part) return problems.add(place, `the part over ${over()} says nothing for this input`);
  cells.put(row, at, inputRole(column.input), filling.values.get(says.id)?.[context.row], says.format);
}

function roleOf(column: ShapedColumn, table: ShapedTable): Role {
  if (column.column.verdict) return "verdict";
  if (!holdsWords(column)) return "value";
  return standsBesideNumbers(column, table) ? "wordIn" : "description";
}

function roleOfHead(column: ShapedColumn, table: ShapedTable): Role {
  if (column.column.index !== undefined) return "tableWord";
  const words = column.cells > 1 || column.column.input?.choices !== undefined || holdsWords(column);
  if (!words) return "tableSymbol";
  return standsBesideNumbers(column, table) ? "tableWordIn" : "tableWord";
}

/** Numbers stand at the right edge of their column: words that follow them keep off it. */
function standsBesideNumbers({ band, at }: ShapedColumn, { columns: all }: ShapedTable): boolean {
  const left = all.find((other) => other.band === band && other.at + other.cells === at);
  return left !== undefined && left.column.index === undefined && !holdsWords(left);
}

/** The member of a dimension the row stands for; in the table that the dimension counts, the row itself. */
function memberOf(
  { sheet, problems }: Filling,
  id: string,
  { table, group, members, row }: TableContext,
  place: string,
): { readonly number: number; readonly text: string } | undefined {
  const wanted = sheet.dimensions.get(id);
  if (wanted && table.countedBy === wanted) return { number: row + 1, text: wanted.members[row]!.text };
  for (const [i, dimension] of group.over.entries()) {
    if (!wanted || dimension.base !== wanted.base) continue;
    const k = dimension.offset + members[i]! - wanted.offset;
    const member = wanted.members[k];
    if (member) return { number: k + 1, text: member.text };
  }
  problems.add(place, `${id} is not a dimension of these rows`);
  return undefined;
}
