import { a1, areaA1, templateFormula, textConstant, type Address, type Area } from "../cells/index.ts";
import { fnv1a64, stale, version } from "../core/index.ts";
import { allowedWords, boundsOf, formatOf, plainSymbol, type Says } from "./says.ts";
import { columns, furtherWidth, headings, headingsRow, titleRow, widths } from "./columns.ts";
import { plannedCharts } from "./charts.ts";
import { equationAsRead, marksExplained, sourceText } from "./formulaText.ts";
import { inputValues, nested, shapeValues, type Inputs } from "./inputs.ts";
import { layOut, warnedRows, type HeaderRow, type Layout, type PlacedTable } from "./layout.ts";
import {
  inputRoles,
  type ConflictCells,
  type Highlight,
  type Meaning,
  type Plan,
  type PlannedCell,
  type PlannedName,
  type Role,
  type Summary,
  type Validation,
} from "./plan.ts";
import { Problems } from "./problems.ts";
import { contexts, type Context, type TableContext } from "./resolve.ts";
import { conflict, doubtsOf, firstMessage, judgement, judgements, type Judgement } from "./relations.ts";
import { isRecord, shapeSheet, type ShapedColumn, type ShapedRow, type ShapedSheet } from "./shape.ts";
import { inputWarningsCall, statusFormula, type StatusOf } from "./status.ts";
import type { InputSpec, InputValue, Template } from "./template.ts";
import { builtCell, spanned, warningAreas, write, writePart, type Written } from "./write.ts";

/** A formula cell with the cells it reads and the place in the template it comes from. */
export interface Dependency {
  readonly at: Address;
  readonly place: string;
  readonly reads: readonly Area[];
}

export interface Expansion {
  readonly plan: Plan;
  readonly dependencies: readonly Dependency[];
  readonly problems: readonly string[];
}

/** The worksheet function that says the version of the functions loaded. */
const versionCall = "KERN.VERSION()";

const one: Context = { kind: "row" };

/** Puts everything a shaped sheet holds into cells. */
class Builder {
  private readonly cells: PlannedCell[] = [];
  private readonly names: PlannedName[] = [];
  private readonly validations: Validation[] = [];
  private readonly unlocked: Area[] = [];
  private readonly spans: Area[] = [];
  private readonly meanings: Meaning[] = [];
  private readonly checks: Summary["checks"][number][] = [];
  private readonly dependencies: Dependency[] = [];
  private readonly conflicts: ConflictCells[] = [];
  private readonly lineCounts = new Map<number, number>();
  private overall: Address | undefined;
  private hashCell: Address = { row: 0, column: 0 };
  private readonly width: number;

  constructor(
    private readonly sheet: ShapedSheet,
    private readonly layout: Layout,
    private readonly values: ReadonlyMap<string, readonly (string | number | null)[]>,
    private readonly problems: Problems,
  ) {
    this.width = Math.max(
      headings.length,
      ...[...layout.tables.keys()].flatMap(({ columns: all }) => all.map(({ at }) => at + 1)),
    );
  }

  private widthOf(column: number): number {
    return widths[column] ?? furtherWidth;
  }

  private wrap(row: number, text: string, width: number): void {
    const lines = Math.ceil(text.length / (width - 1));
    if (lines > (this.lineCounts.get(row) ?? 1)) this.lineCounts.set(row, lines);
  }

  private put(
    row: number,
    column: number,
    role: Role,
    content: string | number | boolean | null | undefined,
    format?: string,
  ): void {
    const of = content === null || content === undefined || content === "" ? {} : { value: content };
    this.cells.push({ row, column, role, ...of, ...(format !== undefined && { format }) });
    if (typeof content === "string" && role !== "textInput") this.wrap(row, content, this.widthOf(column));
  }

  private putFormula(
    row: number,
    column: number,
    role: Role,
    { formula, reads, problems }: Written,
    place: string,
    format?: string,
  ): void {
    for (const problem of problems) this.problems.add(place, problem);
    this.cells.push({ row, column, role, formula, ...(format !== undefined && { format }) });
    this.dependencies.push({ at: { row, column }, place, reads });
  }

  /** A sentence over several columns. */
  private sentence(
    row: number,
    role: Role,
    text: string,
    from: number = columns.description,
    to: number = role === "note" || role === "caution" ? columns.source - 1 : columns.to,
  ): void {
    this.cells.push({ row, column: from, role, value: text });
    this.spans.push({ row, column: from, rows: 1, columns: to - from + 1 });
    let width = 0;
    for (let c = from; c <= to; c++) width += this.widthOf(c);
    this.wrap(row, text, width);
  }

  /** The title of a block or table with room for a mark of the whole of it, the look carried on beyond. */
  private markedTitle(row: number, role: Role, text: string): void {
    this.sentence(row, role, text, columns.description, columns.mark - 1);
    this.markCell(row);
    for (let column = columns.mark + 1; column <= columns.to; column++) this.put(row, column, role, undefined);
  }

  private markCell(row: number): void {
    this.put(row, columns.mark, "mark", undefined);
    this.unlocked.push({ row, column: columns.mark, rows: 1, columns: 1 });
  }

  /** Equation and source of a row: text over the narrow columns they take. */
  private equationAndSource(row: number, equation: string, source?: string): void {
    if (equation) this.sentence(row, "equation", equation, columns.equation, columns.source - 1);
    if (source) this.sentence(row, "source", source, columns.source, columns.verdict - 1);
  }

  private name(id: string, area: Area): void {
    this.names.push({ name: `kb_${id}`, ...area });
  }

  private mean(says: Says, item: string, at: Area): void {
    this.meanings.push({
      id: says.id,
      item,
      description: says.text,
      symbol: says.symbol,
      unit: says.unit,
      ...(says.quantity && { quantity: says.quantity.key }),
      at,
    });
  }

  private head(): void {
    const { template } = this.sheet;
    this.sentence(titleRow, "title", template.title, 0);
    headings.forEach((heading, column) => this.put(headingsRow, column, "heading", heading));
    for (const { line, row } of this.layout.head) {
      if (typeof line === "object") {
        if ("caution" in line) this.sentence(row, "caution", line.caution);
        else this.sentence(row, "note", line.convention);
        continue;
      }
      this.put(
        row,
        columns.description,
        "label",
        {
          template: "template and version",
          hash: "content hash",
          functions: "version of the worksheet functions",
          standard: "standard",
          method: "method",
        }[line],
      );
      if (line === "hash") this.hashCell = { row, column: columns.value };
      else if (line === "functions") this.functionsVersion(row);
      else
        this.sentence(
          row,
          "label",
          { template: `${template.id} ${template.version}`, standard: template.standard, method: template.method }[
            line
          ],
          columns.value,
          columns.to,
        );
    }
    this.sentence(this.layout.marks, "note", marksExplained);
  }

  /** The version computing now beside the one the sheet was built with. */
  private functionsVersion(row: number): void {
    const now: Area = { row, column: columns.value, rows: 1, columns: 1 };
    const built = builtCell(row);
    this.putFormula(row, now.column, "label", { formula: `=${versionCall}`, reads: [], problems: [] }, "head");
    this.equationAndSource(
      row,
      "verdict SAME, or CHANGED where other functions compute than the sheet was built with: check again then",
    );
    this.put(built.row, built.column, "bound", version);
    this.put(row, columns.to, "label", "as built");
    const at = (cell: Address): string => a1(cell, true);
    this.putFormula(
      row,
      columns.verdict,
      "verdict",
      {
        formula: `=IF(${at(now)}=${at(built)},"SAME","CHANGED")`,
        reads: [now, { ...built, rows: 1, columns: 1 }],
        problems: [],
      },
      "head",
    );
    this.name("functionsVersion", now);
  }

  private shapeInputs(): void {
    if (this.layout.shapeTitle === undefined) return;
    this.put(this.layout.shapeTitle, columns.item, "block", "0");
    this.markedTitle(this.layout.shapeTitle, "block", "Inputs that shape this sheet");
    this.sheet.template.shape.forEach((input, i) => {
      const row = this.layout.shapeRows.get(input.id)!;
      const value = this.sheet.values[input.id]!;
      const item = `0.${i + 1}`;
      const allowed = input.choices
        ? input.choices.map((choice) => `${choice.value}: ${choice.text}`).join("; ")
        : `${input.min ?? ""} to ${input.max ?? ""}`;
      this.put(row, columns.item, "item", item);
      this.put(row, columns.description, "description", input.text);
      this.put(row, columns.symbol, "symbol", plainSymbol(input.symbol));
      this.put(row, columns.value, "shape", value);
      this.put(row, columns.unit, "unit", "–");
      this.equationAndSource(row, allowed, "rebuild to change");
      const built = builtCell(row);
      this.put(built.row, built.column, "bound", value);
      this.put(row, columns.to, "label", "as built");
      const area = { row, column: columns.value, rows: 1, columns: 1 };
      this.name(input.id, area);
      this.mean({ id: input.id, text: input.text, symbol: input.symbol, unit: "–" }, item, area);
    });
  }

  private validate(area: Area, input: InputSpec, says: Says): void {
    if (input.freeText) return;
    const allowed = allowedWords(input, says);
    const title = (says.symbol === "–" ? says.text : `${plainSymbol(says.symbol)} in ${says.unit}`)
      .replace(/ in –$/, "")
      .slice(0, 32);
    const message = `${says.text}${allowed ? `. Allowed: ${allowed}` : ""}`.slice(0, 255);
    const { whole, because: _because, ...bounds } = boundsOf(input, says.quantity);
    const rule: Validation["rule"] = input.choices
      ? { kind: "list", values: input.choices.map(({ value }) => String(value)) }
      : { kind: "number", ...bounds, ...(whole && { whole }) };
    this.validations.push({ ...area, rule, title, message, ...(input.mayBeEmpty && { allowBlank: true as const }) });
  }

  private inputRole(input: InputSpec): Role {
    return input.freeText ? "textInput" : input.choices ? "choice" : "input";
  }

  /** The conditions of an input's relations as the status cell of a row asks them. */
  private broken(judged: readonly Judgement[], context: Context, at: Address): readonly string[] {
    return judged.map((one) => write(one.broken, context, at, this.layout).formula.slice(1));
  }

  /** Beside a status that says CONFLICT: why. */
  private conflictMessage(
    { row, column }: Address,
    judged: readonly Judgement[],
    context: Context,
    otherwise: string,
    place: string,
    of: ConflictCells["of"],
  ): void {
    const status = { row, column: columns.verdict };
    const last = judged.at(-1)!.message;
    const message = `IF(${a1(status, true)}="${conflict}",${firstMessage(judged.slice(0, -1), last)},${otherwise})`;
    this.putFormula(
      row,
      column,
      "equation",
      write(message, context, { row, column }, this.layout),
      `${place}, relations`,
    );
    const where = context.kind === "row" ? [] : context.group.over.map((d, i) => d.members[context.members[i]!]!.text);
    this.conflicts.push({ of, where: where.join(", "), status, message: { row, column } });
  }

  /** What an input may be, which gives way to what it contradicts. */
  private allowedAndSource(row: number, input: InputSpec, { says, place }: ShapedRow): void {
    const allowed = says.equation ?? allowedWords(input, says);
    const judged = judgements(this.sheet, says.id);
    if (judged.length === 0) return this.equationAndSource(row, allowed, says.source);
    const at = { row, column: columns.equation };
    this.conflictMessage(at, judged, one, textConstant(allowed), place, [{ id: says.id, index: 0 }]);
    this.spans.push({ ...at, rows: 1, columns: columns.source - columns.equation });
    // Room for a message of two lines.
    this.lineCounts.set(row, Math.max(this.lineCounts.get(row) ?? 1, 2));
    this.equationAndSource(row, "", says.source);
  }

  private row(shaped: ShapedRow): void {
    const { row: spec, says, item, place } = shaped;
    const row = this.layout.itemRows.get(shaped)!;
    const area = { row, column: columns.value, rows: 1, columns: 1 };
    const { subjects } = this.sheet;
    this.put(row, columns.item, "item", item);
    this.put(row, columns.description, "description", says.text);
    if (!spec.input?.freeText) {
      this.put(row, columns.symbol, "symbol", plainSymbol(says.symbol));
      this.put(row, columns.unit, "unit", says.unit);
    }
    if (spec.input) {
      const bounds = boundsOf(spec.input, says.quantity);
      this.put(row, columns.value, this.inputRole(spec.input), this.values.get(says.id)?.[0], says.format);
      if (spec.input.freeText) this.spans.push({ ...area, columns: columns.source - columns.value });
      else this.allowedAndSource(row, spec.input, shaped);
      if (!spec.input.choices && !spec.input.freeText) {
        this.put(row, columns.from, "bound", bounds.min ?? bounds.above);
        this.put(row, columns.to, "bound", bounds.max ?? bounds.below);
      }
      const cell = (column: number): string => a1({ row, column }, true);
      const status = statusFormula([
        {
          cell: cell(columns.value),
          input: spec.input,
          bounds,
          from: cell(columns.from),
          to: cell(columns.to),
          ...everydayOf(says),
          broken: this.broken(judgements(this.sheet, says.id), one, area),
        },
      ]);
      if (status)
        this.putFormula(row, columns.verdict, "verdict", { formula: status, reads: [area], problems: [] }, place);
      this.validate(area, spec.input, says);
      this.unlocked.push(area);
    } else if (spec.formula !== undefined) {
      this.putFormula(
        row,
        columns.value,
        spec.overall ? "overall" : "value",
        write(spec.formula, one, area, this.layout),
        place,
        formatOf(says),
      );
      const where = spec.summary?.where;
      this.equationAndSource(
        row,
        equationAsRead(says, spec.formula, subjects),
        where === undefined ? sourceText(says, spec.formula) : undefined,
      );
      if (where !== undefined) {
        this.putFormula(
          row,
          columns.source,
          "source",
          write(where, one, { row, column: columns.source }, this.layout),
          `${place}, where`,
        );
        this.spans.push({ row, column: columns.source, rows: 1, columns: columns.verdict - columns.source });
      }
      if (spec.verdict !== undefined)
        this.putFormula(
          row,
          columns.verdict,
          "verdict",
          write(spec.verdict, one, { row, column: columns.verdict }, this.layout),
          `${place}, verdict`,
        );
    }
    this.markCell(row);
    if (spec.overall) this.overall = { row, column: columns.value };
    if (spec.summary)
      this.checks.push({
        id: says.id,
        description: says.text,
        utilisation: { row, column: columns.value },
        where: { row, column: columns.source },
        verdict: { row, column: columns.verdict },
      });
    this.name(says.id, area);
    this.mean(says, item, area);
  }

  private tableHeader({ shaped, header }: PlacedTable): void {
    const { table, item, columns: all } = shaped;
    const each = (
      name: HeaderRow,
      role: Role,
      content: (column: ShapedColumn) => string | number | undefined,
    ): void => {
      const row = header.get(name);
      if (row !== undefined) for (const column of all) this.put(row, column.at, role, content(column));
    };
    const title = header.get("title")!;
    this.put(title, columns.item, "item", item);
    if (isRecord(shaped)) this.sentence(title, "subtitle", table.title);
    else this.markedTitle(title, "subtitle", table.title);
    const note = header.get("note");
    if (note !== undefined) this.sentence(note, "note", table.note!);
    each("heading", "tableHeading", ({ says }) => says.text);
    each("symbol", "tableSymbol", ({ says }) => plainSymbol(says.symbol));
    each("unit", "tableUnit", ({ says }) => says.unit);
    each("equation", "equation", ({ column, says }) =>
      column.formula === undefined ? (says.equation ?? "") : equationAsRead(says, column.formula, this.sheet.subjects),
    );
    each("source", "source", ({ column, says }) => sourceText(says, column.formula));
    const bounded = ({ column, says }: ShapedColumn) =>
      column.input && !column.input.choices && !column.input.freeText ? boundsOf(column.input, says.quantity) : {};
    each(
      "from",
      "bound",
      (column) => bounded(column).min ?? bounded(column).above ?? (column.at === 0 ? "from" : undefined),
    );
    each(
      "to",
      "bound",
      (column) => bounded(column).max ?? bounded(column).below ?? (column.at === 0 ? "to" : undefined),
    );
  }

  private table(placed: PlacedTable): void {
    const { shaped, first } = placed;
    this.tableHeader(placed);
    const rows = contexts(shaped);
    for (const column of shaped.columns) {
      for (const context of rows) this.tableCell(placed, column, context);
      const area = { row: first, column: column.at, rows: shaped.rows, columns: 1 };
      this.name(column.says.id, area);
      this.mean(column.says, shaped.item, area);
      if (column.column.input) {
        const inputs = { ...area, rows: shaped.groups[0]!.rows };
        this.validate(inputs, column.column.input, column.says);
        this.unlocked.push(inputs);
      }
      if (column.column.record) this.unlocked.push(area);
    }
    // Room to write in, and for marks that say more once they are stale.
    if (isRecord(shaped)) for (let i = 0; i < shaped.rows; i++) this.lineCounts.set(first + i, 2);
    const inputs = shaped.columns.filter(({ column }) => column.input);
    if (inputs.length === 0) return;
    const judged = new Map(inputs.map(({ says }) => [says.id, judgements(this.sheet, says.id)] as const));
    const all = [...judged.values()].flat();
    const messageColumn = Math.max(columns.from, ...shaped.columns.map(({ at }) => at + 1));
    for (const context of rows) {
      if (context.group.part) continue;
      const row = first + context.row;
      const status = statusFormula(
        inputs.map(({ column, says, at }): StatusOf => {
          const bound = (name: HeaderRow): string => a1({ row: placed.header.get(name) ?? row, column: at }, true);
          return {
            cell: `$${a1({ row, column: at })}`,
            input: column.input!,
            bounds: boundsOf(column.input!, says.quantity),
            from: bound("from"),
            to: bound("to"),
            ...everydayOf(says),
            broken: this.broken(judged.get(says.id)!, context, { row, column: at }),
          };
        }),
      );
      if (status)
        this.putFormula(
          row,
          columns.verdict,
          "verdict",
          { formula: status, reads: inputs.map(({ at }) => ({ row, column: at, rows: 1, columns: 1 })), problems: [] },
          shaped.place,
        );
      if (all.length > 0) {
        const of = [...judged].flatMap(([id, its]) => (its.length > 0 ? [{ id, index: context.row }] : []));
        this.conflictMessage({ row, column: messageColumn }, all, context, '""', shaped.place, of);
      }
    }
  }

  private tableCell({ first }: PlacedTable, { column, says, at, place }: ShapedColumn, context: TableContext): void {
    const row = first + context.row;
    const { group } = context;
    const ofPart = group.part?.formulas[says.id];
    // A column without symbol and unit holds words.
    const role: Role = column.verdict ? "verdict" : says.symbol === "–" && says.unit === "–" ? "description" : "value";
    const formula = (text: string): void =>
      this.putFormula(
        row,
        at,
        role,
        write(text, context, { row, column: at }, this.layout),
        group.part ? `${place}, part over ${group.over.map(({ id }) => id).join(" and ")}` : place,
        column.verdict ? undefined : formatOf(says),
      );
    if (ofPart !== undefined) return formula(ofPart);
    const index = group.part?.index?.[says.id] ?? column.index;
    if (index !== undefined)
      return this.put(row, at, "item", this.memberOf(index, context, place)?.number, says.format ?? "0");
    if (column.memberText !== undefined)
      return this.put(row, at, "description", this.memberOf(column.memberText, context, place)?.text);
    if (column.formula !== undefined) return formula(column.formula);
    if (column.cells) {
      const member = group.over.at(-1)?.members[context.members.at(-1) ?? 0];
      const content = member && column.cells[member.id];
      if (content === undefined)
        return this.problems.add(place, `cells says nothing for ${member?.id ?? "a single row"}`);
      return typeof content === "string" && content.startsWith("=")
        ? formula(content)
        : this.put(row, at, "value", content, says.format);
    }
    if (column.record) return this.put(row, at, "record", undefined, says.format);
    if (column.input) {
      if (group.part)
        return this.problems.add(
          place,
          `the part over ${group.over.map(({ id }) => id).join(" and ")} says nothing for this input`,
        );
      this.put(row, at, this.inputRole(column.input), this.values.get(says.id)?.[context.row], says.format);
    }
  }

  /** The member of a dimension the row stands for; in the table that the dimension counts, the row itself. */
  private memberOf(
    id: string,
    { table, group, members, row }: TableContext,
    place: string,
  ): { readonly number: number; readonly text: string } | undefined {
    const wanted = this.sheet.dimensions.get(id);
    if (wanted && table.countedBy === wanted) return { number: row + 1, text: wanted.members[row]!.text };
    for (const [i, dimension] of group.over.entries()) {
      if (!wanted || dimension.base !== wanted.base) continue;
      const k = dimension.offset + members[i]! - wanted.offset;
      const member = wanted.members[k];
      if (member) return { number: k + 1, text: member.text };
    }
    this.problems.add(place, `${id} is not a dimension of these rows`);
    return undefined;
  }

  private warnings(first: number): void {
    let row = first;
    const warning = (formula: string, reads: readonly Area[], problems: readonly string[], place: string): void => {
      this.putFormula(row, columns.value, "warning", { formula, reads, problems }, `${place}, warnings`);
      this.spans.push({ row, column: columns.value, rows: 1, columns: columns.verdict - columns.value });
      row++;
    };
    // `contexts`: the row asked about, or the first and last of several.
    const line = (description: string, asked: readonly Context[], formula: string, place: string, own: Area): void => {
      const { calls } = templateFormula(formula);
      const call = calls[0];
      this.put(row, columns.description, "description", description);
      if (!call) return void row++;
      const at = { row, column: columns.value };
      const args = call.arguments.map((argument) =>
        spanned(asked.map((context) => writePart(argument, context, at, this.layout))),
      );
      const text = [`"${call.id}"`, ...args.map((arg) => arg.text)].join(",");
      const reads = args.flatMap((arg) => arg.reads);
      const problems = args.flatMap((arg) => arg.problems);
      const asks = `KERN.WARNINGS(${text})`;
      // A row that says in words why it computed nothing has asked no function.
      if (own.rows > 1 || /^=?KERN\.[A-Z0-9_]+\([^()]*\)$/.test(formula))
        return warning(`=${asks}`, reads, problems, place);
      warning(`=IF(ISTEXT(${areaA1(own, true)}),"",${asks})`, [...reads, own], problems, place);
    };
    for (const it of this.sheet.watched) {
      const { item, says, place } = "kind" in it ? it : { ...it.column, item: it.table.item };
      const top = "kind" in it ? this.layout.itemRows.get(it)! : this.layout.tables.get(it.table)!.first;
      const area: Area = {
        row: top,
        column: "kind" in it ? columns.value : it.column.at,
        rows: "kind" in it ? 1 : it.table.groups[0]!.rows,
        columns: 1,
      };
      this.put(row, columns.description, "description", `input ${item}: ${plainSymbol(says.symbol)}, ${says.text}`);
      const cells = areaA1(area, true);
      const call = inputWarningsCall(says.quantity!.key, cells);
      const { input } = "kind" in it ? it.row : it.column.column;
      // An empty cell reaches functions as 0 in some programs, and 0 may be unusual.
      warning(input?.mayBeEmpty ? `=IF(COUNT(${cells})=0,"",${call})` : `=${call}`, [area], [], place);
    }
    for (const it of this.sheet.warned) {
      if ("kind" in it) {
        const own: Area = { row: this.layout.itemRows.get(it)!, column: columns.value, rows: 1, columns: 1 };
        const description = `row ${it.item}: ${plainSymbol(it.says.symbol)}, ${it.says.text}`;
        line(description, [one], it.row.formula!, it.place, own);
        continue;
      }
      const { table, column } = it;
      const all = contexts(table);
      for (const rows of warnedRows(table, column.column.warnAt!)) {
        const [first, last] = [rows[0]!, rows.at(-1)!];
        const { group, members } = all[first]!;
        // Of several rows the innermost member is left out.
        const named = first === last ? group.over : group.over.slice(0, -1);
        const where = named.map((d, i) => `, ${d.members[members[i]!]!.text}`).join("");
        const top = this.layout.tables.get(table)!.first;
        line(
          `row ${table.item}: ${plainSymbol(column.says.symbol)}, ${column.says.text}${where}`,
          first === last ? [all[first]!] : [all[first]!, all[last]!],
          column.column.formula ?? "",
          column.place,
          { row: top + first, column: column.at, rows: last - first + 1, columns: 1 },
        );
      }
    }
    for (const { input, relation } of doubtsOf(this.sheet)) {
      this.put(
        row,
        columns.description,
        "description",
        `input ${input.item}: ${plainSymbol(input.says.symbol)}, ${input.says.text}`,
      );
      const { broken, message } = judgement(relation, this.sheet);
      const at = { row, column: columns.value };
      const { formula, reads, problems } = write(`IF(${broken},${message},"")`, one, at, this.layout);
      warning(formula, reads, problems, input.place);
    }
    if (row === first) this.sentence(row, "note", "No function on this sheet lists warnings.");
  }

  private highlights(): readonly Highlight[] {
    const { rows } = this.layout;
    const tones: readonly (readonly [string, Highlight["tone"]])[] = [
      ["OK", "good"],
      ["FAIL", "bad"],
      ["OUT OF RANGE", "bad"],
      [conflict, "bad"],
      ["REBUILD", "bad"],
      ["UNUSUAL", "open"],
      ["NO LIMIT", "open"],
      ["MISSING", "open"],
      ["INCOMPLETE", "open"],
      ["WARNINGS", "open"],
      ["CHANGED", "open"],
    ];
    const areas: readonly Area[] = [
      { row: headingsRow + 1, column: columns.verdict, rows: rows - headingsRow - 1, columns: 1 },
      ...(this.overall ? [{ ...this.overall, rows: 1, columns: 1 }] : []),
    ];
    const marked: readonly Area[] = [
      { row: headingsRow + 1, column: columns.mark, rows: rows - headingsRow - 1, columns: 1 },
      ...[...this.layout.tables.values()]
        .filter(({ shaped }) => isRecord(shaped))
        .map(({ shaped, first }) => ({ row: first, column: shaped.columns.at(-1)!.at, rows: shaped.rows, columns: 1 })),
    ];
    return [
      ...areas.flatMap((area) =>
        tones.map(([text, tone]) => ({
          row: area.row,
          column: area.column,
          rows: area.rows,
          columns: area.columns,
          text,
          tone,
        })),
      ),
      ...marked.map((area): Highlight => ({ ...area, text: stale, begins: true, tone: "bad" })),
    ];
  }

  private inputsAsBuilt(): Plan["inputs"] {
    const out: Record<string, InputValue> = { ...this.sheet.values };
    for (const [id, values] of this.values) {
      const subject = this.sheet.subjects.get(id)!;
      out[id] = nested(
        values,
        subject.kind === "column" ? subject.table.groups[0]!.over.map(({ members }) => members.length) : [],
      );
    }
    return out;
  }

  build(): Expansion {
    const { template } = this.sheet;
    this.head();
    this.shapeInputs();
    for (const block of this.sheet.blocks) {
      const { title, note } = this.layout.blockRows.get(block)!;
      this.put(title, columns.item, "block", String(block.number));
      if (block.items.every((item) => item.kind === "table" && isRecord(item)))
        this.sentence(title, "block", block.block.title);
      else this.markedTitle(title, "block", block.block.title);
      if (note !== undefined) this.sentence(note, "note", block.block.note!);
      for (const item of block.items) {
        if (item.kind === "row") this.row(item);
        else if (item.kind === "note")
          this.sentence(this.layout.itemRows.get(item)!, item.note.caution ? "caution" : "note", item.note.note);
        else if (item.kind === "table") this.table(this.layout.tables.get(item)!);
        else this.warnings(this.layout.itemRows.get(item)!);
      }
    }
    const { rows } = this.layout;
    const inputs = this.inputsAsBuilt();
    const charts = plannedCharts(this.layout, this.width + 1, this.problems);
    const said = {
      template: { id: template.id, version: template.version, title: template.title },
      cells: this.cells,
      names: this.names,
      validations: this.validations,
      unlocked: this.unlocked,
      spans: this.spans,
      charts,
    };
    // What is typed into inputs later must not part the sheet from its hash, so their values stay out.
    const cells = this.cells.map(({ value, ...cell }) =>
      value === undefined || inputRoles.has(cell.role) ? cell : { ...cell, value },
    );
    const hash = fnv1a64(JSON.stringify({ ...said, shape: this.sheet.values, cells }));
    this.cells.push({ ...this.hashCell, role: "label", value: hash });
    this.spans.push({ ...this.hashCell, rows: 1, columns: 3 });
    const lists = warningAreas(this.layout);
    const plan: Plan = {
      ...said,
      inputs,
      hash,
      rows,
      columns: this.width,
      widths: Array.from({ length: this.width }, (_, column) => this.widthOf(column)),
      lines: Object.fromEntries(this.lineCounts),
      highlights: this.highlights(),
      // Not the headings: over tables, which use the same columns for other things, they would say what is not so.
      freeze: { rows: titleRow + 1, columns: 0 },
      print: {
        area: { row: 0, column: 0, rows, columns: this.width },
        titleRows: [titleRow, headingsRow],
        orientation: "landscape",
        footer: `${template.id} ${template.version} · ${hash} · page {page} of {pages}`,
      },
      meanings: this.meanings,
      conflicts: this.conflicts,
      summary: {
        overall: this.overall ?? { row: 0, column: 0 },
        checks: this.checks,
        warnings: lists[0] ?? { row: 0, column: columns.value, rows: 0, columns: 1 },
      },
    };
    return { plan, dependencies: this.dependencies, problems: this.problems.list };
  }
}

/** The quantity whose everyday range an input's status asks. */
function everydayOf({ quantity }: Says): { readonly everyday?: string } {
  return quantity?.typical ? { everyday: quantity.key } : {};
}

/** Template and inputs as cells, with all that is wrong with either; for lint and `expand`. */
export function expandLoosely(template: Template, inputs: Inputs): Expansion & { readonly sheet: ShapedSheet } {
  const problems = new Problems();
  const shaped = shapeSheet(template, shapeValues(template, inputs, problems));
  for (const problem of shaped.problems) problems.add("", problem);
  const values = inputValues(shaped.sheet, inputs, problems);
  return { ...new Builder(shaped.sheet, layOut(shaped.sheet), values, problems).build(), sheet: shaped.sheet };
}
