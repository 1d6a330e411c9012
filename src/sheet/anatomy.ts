import { templateFormula, type Address, type Area, type TemplateReference } from "../cells/index.ts";
import { expandLoosely } from "./builder.ts";
import { columns } from "./columns.ts";
import { checkColumns } from "./frontCells.ts";
import type { Inputs } from "./inputs.ts";
import { fieldColumns, firstOf, layOut, type Layout } from "./layout.ts";
import { RefusedSheet } from "./problems.ts";
import { contexts, resolve, type Context } from "./resolve.ts";
import { rowContext, whereCell } from "./rowCells.ts";
import type { Says } from "./says.ts";
import type { ShapedBlock, ShapedItem, ShapedRow, ShapedSheet, ShapedTable } from "./shape.ts";
import type { AcrossItem, Block, Column, Item, NoteItem, Row, TableItem } from "./template.ts";
import { lastOfChoice } from "./rowTexts.ts";
import { write } from "./write.ts";

/** What of a row a cell shows. `name`, `checked`, `limit`, `checkedUnit`: of a check, in the register of checks. */
export type RowPart =
  | "text"
  | "symbol"
  | "unit"
  | "value"
  | "input"
  | "link"
  | "verdict"
  | "where"
  | "equation"
  | "source"
  | "from"
  | "to"
  | "name"
  | "checked"
  | "limit"
  | "checkedUnit";
export type ColumnPart = "heading" | "text" | "unit" | "equation" | "source" | "from" | "to" | "cell";

/** The part of its template that a cell shows. */
export type CellPart =
  | { readonly of: "template"; readonly what: "title" | "standard" | "method" }
  | { readonly of: "caution" | "convention"; readonly index: number }
  | { readonly of: "block"; readonly block: Block; readonly what: "title" | "note" }
  | { readonly of: "row"; readonly row: Row; readonly says: Says; readonly what: RowPart }
  | { readonly of: "note"; readonly note: NoteItem; readonly before: string }
  | { readonly of: "table"; readonly table: TableItem; readonly what: "title" | "note" }
  | { readonly of: "across"; readonly across: AcrossItem }
  | {
      readonly of: "column";
      readonly column: Column;
      readonly says: Says;
      readonly table: TableItem;
      readonly what: ColumnPart;
      /** Of a cell: its row in the table. */
      readonly index: number;
    };

/** The item of the template that a row of the sheet belongs to. */
export interface Owner {
  readonly block: Block;
  /** Undefined for the title, headings and note of the block itself. */
  readonly item?: Item;
  /** The first row of the item. */
  readonly first: number;
  /** Stands among the workings. */
  readonly working: boolean;
}

interface TableRow {
  readonly context: Context;
  readonly part: number;
  readonly members: string;
}

/** A sheet laid open: which part of its template every cell shows, and how formulas may refer to cells. */
export class Anatomy {
  readonly #parts = new Map<string, CellPart>();
  readonly #owners = new Map<number, Owner>();
  readonly #subjects = new Map<string, string>();
  readonly #rows = new Map<ShapedTable, readonly TableRow[]>();
  readonly #tables = new Map<TableItem, ShapedTable>();
  readonly #layout: Layout;

  constructor(readonly sheet: ShapedSheet) {
    const layout = (this.#layout = layOut(sheet));
    this.#head(layout);
    for (const block of sheet.blocks) this.#block(block);
    this.#register(layout);
    for (const [id, subject] of sheet.subjects) {
      if (subject.kind === "column") {
        const first = firstOf(layout, subject.table, subject.column);
        for (let i = 0; i < subject.table.rows; i++) this.#subjects.set(key(first + i, subject.column.at), id);
      } else {
        const at =
          subject.kind === "row"
            ? layout.values.get(subject.row)!
            : { row: layout.about.shape.get(id)!, column: columns.value };
        this.#subjects.set(key(at.row, at.column), id);
      }
    }
  }

  /** Of a template in one configuration. Throws RefusedSheet where a shape input is wrong. */
  static of(template: ShapedSheet["template"], shape: Inputs): Anatomy {
    const { sheet, problems } = expandLoosely(template, shape);
    if (problems.length > 0) throw new RefusedSheet(problems);
    return new Anatomy(sheet);
  }

  /** Undefined for cells that the program writes itself. */
  partAt({ row, column }: Address): CellPart | undefined {
    return this.#parts.get(key(row, column));
  }

  ownerAt(row: number): Owner | undefined {
    return this.#owners.get(row);
  }

  /** The contexts of a table's rows, in order; `group`: which of its parts each is in. */
  rowsOf(table: TableItem): readonly TableRow[] {
    const shaped = this.#tables.get(table)!;
    const known = this.#rows.get(shaped);
    if (known) return known;
    const rows = contexts(shaped).map((context) => ({
      context,
      part: shaped.groups.indexOf(context.group),
      members: context.group.over.at(-1)?.members[context.members.at(-1) ?? 0]?.id ?? "",
    }));
    this.#rows.set(shaped, rows);
    return rows;
  }

  /** The parts of a table present in this configuration, as its file has them; the first is the table itself. */
  partsOf(table: TableItem): readonly (NonNullable<TableItem["parts"]>[number] | undefined)[] {
    return this.#tables.get(table)!.groups.map(({ part }) => part);
  }

  /** Every way in which a formula of that context may refer to an area; empty where it is not of rows and columns. */
  referencesTo(area: Area, context: Context = rowContext): readonly string[] {
    const id = this.#subjects.get(key(area.row, area.column));
    const ids = id === undefined ? [] : [id];
    // From the first row of a table the row above is its heading.
    if (context.kind === "table")
      for (const column of context.table.columns)
        if (column.at === area.column && column.says.id !== id) ids.push(column.says.id);
    const last = area.columns > 1 ? this.#subjects.get(key(area.row, area.column + area.columns - 1)) : undefined;
    const texts = ids.flatMap((one) =>
      area.columns > 1
        ? last === undefined
          ? []
          : [`{${one}:${last}[]}`, `{${one}:${last}[*]}`]
        : [`{${one}}`, `{${one}[]}`, `{${one}[-1]}`, `{${one}[first]}`, `{${one}[last]}`, `{${one}[*]}`],
    );
    return texts.filter((text) => {
      const [reference] = references(text);
      if (reference?.kind !== "cell") return false;
      const target = resolve(reference, context, this.#layout);
      return typeof target !== "string" && sameArea(target.area, area);
    });
  }

  /** What a template's formula refers to that is no cell (`{count:FAIL}`), with what stands for it in that place. */
  specialsIn(formula: string, at: Address): readonly { readonly text: string; readonly written: string }[] {
    return references(formula).flatMap((reference) => {
      if (reference.kind === "cell") return [];
      const text = textOf(reference);
      return [{ text, written: write(text, rowContext, at, this.#layout).formula }];
    });
  }

  #put(row: number, column: number, part: CellPart): void {
    this.#parts.set(key(row, column), part);
  }

  #own(row: number | undefined, owner: Omit<Owner, "first">, first = row): void {
    if (row !== undefined) this.#owners.set(row, { ...owner, first: first! });
  }

  #head({ cautions, about }: Layout): void {
    this.#put(0, 0, { of: "template", what: "title" });
    [...cautions.values()].forEach((row, index) => this.#put(row, 0, { of: "caution", index }));
    let convention = 0;
    for (const { line, row } of about.lines) {
      if (typeof line === "object") this.#put(row, columns.description, { of: "convention", index: convention++ });
      else if (line === "standard" || line === "method") this.#put(row, columns.symbol, { of: "template", what: line });
    }
  }

  #block(shaped: ShapedBlock): void {
    const { block } = shaped;
    const rows = this.#layout.blockRows.get(shaped);
    if (rows) {
      this.#put(rows.title, columns.description, { of: "block", block, what: "title" });
      this.#own(rows.title, { block, working: false });
      this.#own(rows.headings, { block, working: false }, rows.title);
      this.#own(rows.note, { block, working: false }, rows.title);
      if (rows.note !== undefined) this.#put(rows.note, columns.description, { of: "block", block, what: "note" });
    }
    const working = this.#layout.workings?.blocks.get(shaped);
    this.#own(working?.title, { block, working: true });
    this.#own(working?.headings, { block, working: true }, working?.title);
    for (const item of shaped.items) this.#item(block, item);
  }

  #item(block: Block, shaped: ShapedItem): void {
    if (shaped.kind === "row") this.#row(block, shaped);
    else if (shaped.kind === "table") this.#table(block, shaped);
    else if (shaped.kind === "note") this.#note(block, shaped);
    else if (shaped.kind === "across") {
      const { title, parts } = this.#layout.across.get(shaped)!;
      this.#put(title, columns.description, { of: "across", across: shaped.across });
      const owner = { block, item: shaped.across, working: false };
      this.#own(title, owner);
      for (const { of, name, bands } of parts) {
        this.#own(name, owner, title);
        for (const { head, first } of bands)
          for (let row = head; row < first + of.inner.members.length; row++) this.#own(row, owner, title);
      }
    }
  }

  #note(block: Block, shaped: Extract<ShapedItem, { kind: "note" }>): void {
    const row = this.#layout.itemRows.get(shaped);
    if (row === undefined) return;
    if (block.front) {
      // Notes that follow each other are one paragraph: only one that stands alone can be told from its cell.
      const at = block.items.indexOf(shaped.note);
      const beside = [block.items[at - 1], block.items[at + 1]].some((other) => other && "note" in other);
      if (!beside) this.#put(row, 0, { of: "note", note: shaped.note, before: bullet(shaped.note.note) });
    } else this.#put(row, columns.description, { of: "note", note: shaped.note, before: "" });
    this.#own(row, { block, item: shaped.note, working: shaped.working });
  }

  #row(block: Block, shaped: ShapedRow): void {
    const { row, says } = shaped;
    const first = this.#layout.itemRows.get(shaped)!;
    const value = this.#layout.values.get(shaped)!;
    const part = (what: RowPart): CellPart => ({ of: "row", row, says, what });
    const owner = { block, item: row, working: shaped.working };
    const ofValue = row.input ? "input" : row.taken === undefined ? "value" : "link";
    this.#put(value.row, value.column, part(ofValue));
    if (block.front) {
      const { label } = fieldColumns.find((field) => field.value === value.column)!;
      this.#put(value.row, label, part("text"));
      if (says.unit !== "–") this.#put(value.row, value.column + 1, part("unit"));
      this.#own(first, { ...owner, working: false });
      return;
    }
    this.#put(first, columns.description, part("text"));
    this.#put(first, columns.symbol, part("symbol"));
    const worded = row.input?.freeText === true || row.words === true;
    if (!worded && lastOfChoice(row.input) === columns.value) this.#put(first, columns.unit, part("unit"));
    const texts = this.#layout.texts.get(shaped);
    for (const { role, line, from } of row.input?.freeText ? [] : (texts?.texts ?? []))
      this.#put(first + line, from, part(role === "source" ? "source" : "equation"));
    if (row.input && !row.input.choices && !row.input.freeText) {
      this.#put(first, columns.from, part("from"));
      this.#put(first, columns.to, part("to"));
    }
    if (row.verdict !== undefined) this.#put(first, columns.verdict, part("verdict"));
    if (row.summary?.where !== undefined) {
      const where = whereCell(this.#layoutOnly(), shaped);
      this.#put(where.row, where.column, part("where"));
    }
    for (let i = 0; i <= (texts?.below ?? 0); i++) this.#own(first + i, owner, first);
  }

  #layoutOnly(): Parameters<typeof whereCell>[0] {
    return { layout: this.#layout } as Parameters<typeof whereCell>[0];
  }

  #register({ register }: Layout): void {
    if (!register) return;
    register.checks.forEach(({ row, says }, i) => {
      const part = (what: RowPart): CellPart => ({ of: "row", row, says, what });
      const at = register.first + i;
      if (!row.summary!.aside) this.#put(at, checkColumns.text, part("name"));
      if (row.summary!.value !== undefined) this.#put(at, checkColumns.value, part("checked"));
      if (row.summary!.limit !== undefined) this.#put(at, checkColumns.limit, part("limit"));
      if (row.summary!.unit !== undefined) this.#put(at, checkColumns.unit, part("checkedUnit"));
    });
  }

  #table(block: Block, shaped: ShapedTable): void {
    const { table } = shaped;
    this.#tables.set(table, shaped);
    const { title, workings, note, list, bands } = this.#layout.tables.get(shaped)!;
    const owner = { block, item: table };
    this.#put(title, columns.description, { of: "table", table, what: "title" });
    this.#own(title, { ...owner, working: shaped.results === 0 });
    if (note !== undefined) {
      this.#put(note, columns.description, { of: "table", table, what: "note" });
      this.#own(note, { ...owner, working: shaped.results === 0 }, title);
    }
    this.#own(workings, { ...owner, working: true });
    const partOf = (column: ShapedTable["columns"][number], what: ColumnPart, index = 0): CellPart => ({
      of: "column",
      column: column.column,
      says: column.says,
      table,
      what,
      index,
    });
    const start = (band: number): number => (band >= shaped.results ? (workings ?? title) : title);
    for (const { column, row, at, texts } of list) {
      this.#put(row, at, partOf(column, "heading"));
      for (const { role, line, from } of texts) {
        const what = role === "description" ? "text" : role === "source" ? "source" : "equation";
        this.#put(row + line, from, partOf(column, what));
        this.#own(row + line, { ...owner, working: column.band >= shaped.results }, start(column.band));
      }
      this.#own(row, { ...owner, working: column.band >= shaped.results }, start(column.band));
    }
    bands.forEach(({ header, first }, band) => {
      const working = band >= shaped.results;
      for (const row of header.values()) this.#own(row, { ...owner, working }, start(band));
      for (let i = 0; i < shaped.rows; i++) this.#own(first + i, { ...owner, working }, start(band));
    });
    for (const column of shaped.columns) {
      const { header, first } = bands[column.band]!;
      const put = (name: "symbol" | "unit" | "from" | "to", what: ColumnPart): void => {
        const row = header.get(name);
        if (row !== undefined) this.#put(row, column.at, partOf(column, what));
      };
      if (!column.column.verdict) put("symbol", "heading");
      if (column.says.unit !== "–") put("unit", "unit");
      if (column.column.input && !column.column.input.choices && !column.column.input.freeText) {
        put("from", "from");
        put("to", "to");
      }
      for (let i = 0; i < shaped.rows; i++) this.#put(first + i, column.at, partOf(column, "cell", i));
    }
  }
}

const key = (row: number, column: number): string => `${row},${column}`;

const sameArea = (a: Area, b: Area): boolean =>
  a.row === b.row && a.column === b.column && a.rows === b.rows && a.columns === b.columns;

/** What the first page leaves out before a note. */
const bullet = (note: string): string => (note.startsWith("• ") ? "• " : "");

function references(formula: string): readonly TemplateReference[] {
  return templateFormula(formula).pieces.flatMap((piece) => (piece.kind === "template" ? [piece.reference] : []));
}

function textOf(reference: Exclude<TemplateReference, { kind: "cell" }>): string {
  return "word" in reference ? `{${reference.kind}:${reference.word}}` : `{${reference.kind}}`;
}
