import { a1, normalNow, normalPlanned, textConstant, type Address } from "../../cells/index.ts";
import { format as numberText } from "../../core/index.ts";
import { compare, type Comparison, type Finding, type FindingKind, type Recognised } from "../../checker/index.ts";
import { logoToTake, type Host } from "../../hosts/index.ts";
import {
  Anatomy,
  boundsOf,
  columns,
  expand,
  lintWithPauses,
  peoplesRoles,
  RefusedSheet,
  says as saysOf,
  rootId,
  withoutLocked,
  type Block,
  type CellPart,
  type Column,
  type Item,
  type PlannedCell,
  type Row,
  type TableItem,
  type Template,
  logoName,
  logoOf,
  type Logo,
} from "../../sheet/index.ts";
import { TemplateCopy, type Draft } from "./copyOf.ts";
import { idsInFormulas, type Special, type Standing } from "./idsInFormula.ts";
import { inputsToKeep, withInputs, type InputToKeep } from "./inputsToKeep.ts";
import { contentAt, rowsByHand, textAt, type AddedRow, type Behind, type RowsByHand } from "./rowsByHand.ts";
import { textFault } from "./texts.ts";
import type { Refusal, Understood } from "./understood.ts";

/** What whoever keeps a template says of it. */
export interface About {
  readonly id: string;
  readonly name: string;
  readonly version: string;
  /** Who answers for it. */
  readonly office: string;
  /** Inputs of which the value on the sheet becomes the default. */
  readonly defaults?: ReadonlySet<string>;
  /** The logo on the sheet: it becomes the template's. */
  readonly logo?: Logo | undefined;
  /** Why the sheet's logo cannot become the template's, which keeps its own then. */
  readonly without?: string;
  /** Rows and columns that may not be changed on sheets of this template; where it is not said, those of the one before. */
  readonly locked?: readonly string[];
}

/** What was understood of a sheet, and the template that comes of it. */
export interface KeptSheet {
  readonly rows: readonly Understood[];
  /** Inputs that have other values than the template's defaults. */
  readonly inputs: readonly InputToKeep[];
  /** Why there is no template; empty where there is one. */
  readonly refused: readonly Refusal[];
  /** Undefined where it is refused. It was checked in the configuration of the sheet. */
  readonly template?: Template;
  /** Where on the sheet a fault of the template comes from, as far as it can be told. */
  readonly placeOf: (problem: string) => Address | undefined;
}

/** Shows how far a long check is, and lets a page answer. */
export type Pause = (done: number, of: number) => Promise<void>;

/** "Alder beam, 2026" as an id. */
export function idOfName(name: string): string {
  return (
    name
      .normalize("NFKD")
      .replace(/\p{M}/gu, "")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-+|-+$/g, "") || "template"
  );
}

/** Makes a template of a sheet that was built and changed by hand. `formats`: the number formats of the sheet's cells. */
export function keepTemplate(
  comparison: Comparison,
  about: About,
  formats: readonly (readonly string[])[] = [],
): KeptSheet {
  const draft = draftTemplate(comparison, about, formats);
  return draft.template ? refusedFor(draft, problemsHere(draft.template)) : draft;
}

/** The same, checked in no configuration: whoever asks checks it before it is kept. */
export function draftTemplate(
  comparison: Comparison,
  about: About,
  formats: readonly (readonly string[])[] = [],
): KeptSheet {
  return new Keeping(comparison, formats).keep(about);
}

/** The same with what was found wrong with the template; it stays what it was where nothing was. */
export function refusedFor(kept: KeptSheet, problems: readonly string[]): KeptSheet {
  if (problems.length === 0) return kept;
  const { template: _template, ...rest } = kept;
  const refused = problems.map((what): Refusal => {
    const at = kept.placeOf(what);
    return { what, ...(at && { at }) };
  });
  return { ...rest, refused };
}

/** The same, checked in all kinds of configurations. */
export async function keepChecked(
  comparison: Comparison,
  about: About,
  formats: readonly (readonly string[])[],
  pause: Pause = () => Promise.resolve(),
): Promise<KeptSheet> {
  const kept = keepTemplate(comparison, about, formats);
  if (!kept.template) return kept;
  return refusedFor(kept, await lintWithPauses(kept.template, pause));
}

/** The same of a sheet of a workbook; undefined where no template known here built it. */
export async function keepSheet(host: Host, sheet: string, about: About): Promise<KeptSheet | undefined> {
  const comparison = await compare(host, sheet);
  if (!comparison) return undefined;
  const { rows, columns: width } = comparison.recognised.snapshot;
  const { formats } = await host.looks(sheet, { row: 0, column: 0, rows, columns: width });
  return keepChecked(comparison, { ...(await logoToTake(host, sheet)), ...about }, formats);
}

class Keeping {
  readonly #recognised: Recognised;
  readonly #anatomy: Anatomy;
  readonly #copy: TemplateCopy;
  readonly #hand: RowsByHand;
  readonly #rows: Understood[] = [];
  readonly #refused: Refusal[] = [];
  readonly #standing: Standing;
  /** Where the formula of a part stands now, to tell what lint finds by its cell. */
  readonly #cellOf = new Map<object, Address>();
  readonly #changed = new Set<object>();

  constructor(
    private readonly comparison: Comparison,
    private readonly formats: readonly (readonly string[])[],
  ) {
    const recognised = (this.#recognised = comparison.recognised);
    const { template, plan, snapshot } = recognised;
    const shape = Object.fromEntries(template.shape.map(({ id }) => [id, plan.inputs[id]!]));
    this.#anatomy = Anatomy.of(template, shape);
    this.#copy = new TemplateCopy(template);
    this.#hand = rowsByHand(recognised, this.#anatomy);
    const value = recognised.columnNow(columns.value);
    this.#standing = {
      sheet: snapshot.sheet,
      anatomy: this.#anatomy,
      rowPlanned: this.#hand.rowPlanned,
      columnPlanned: recognised.columnPlanned,
      addedAt: ({ row, column }) =>
        column === value ? this.#hand.added.find((one) => one.now === row && one.content === "row")?.id : undefined,
      named: (name) => snapshot.names.get(name),
    };
  }

  keep(about: About): KeptSheet {
    const { template, head } = this.#recognised;
    if (head.templateVersion !== template.version)
      this.#refuse(
        undefined,
        `the sheet is of version ${head.templateVersion} of its template, which is ${template.version} today: ` +
          "bring it up to date first (Build, “Change configuration or standard”)",
      );
    this.#cells();
    this.#columns();
    this.#formats();
    this.#goneRows();
    this.#movedRows();
    this.#addedRows();
    this.#otherFindings();
    const inputs = inputsToKeep(this.#recognised);
    const { file } = this.#copy;
    file.id = about.id;
    file.version = about.version;
    file.title = file.title === template.title ? about.name : file.title;
    file.office = about.office;
    file.madeFrom = { template: rootId(template), version: template.madeFrom?.version ?? template.version };
    const locked = about.locked ?? template.locked ?? [];
    if (locked.length > 0) file.locked = locked;
    else delete file.locked;
    this.#logo(about);
    for (const { id, value, was } of inputs)
      if (was !== undefined && locked.includes(id) && !about.defaults?.has(id))
        this.#refuse(
          this.#inputNow(id),
          `${id} is locked and would keep the default ${shown(was)}, while the sheet has ${shown(value)}: make the ` +
            "value of the sheet the default, type the default on the sheet, or do not lock it",
        );
    withInputs(this.#copy, this.#recognised, about.defaults ?? new Set(), this.comparison.sheet);
    for (const { id, text, value } of inputs)
      if (about.defaults?.has(id))
        this.#say("changed", undefined, `${text} (${id})`, "the value on the sheet is the default now", {
          id,
          after: shown(value),
        });
    this.#keptRows();
    const made = file as unknown as Template;
    return {
      placeOf: this.#places(made),
      rows: this.#rows,
      inputs,
      refused: this.#refused,
      ...(this.#refused.length === 0 && { template: made }),
    };
  }

  /** Where the input of an id stands now. */
  #inputNow(id: string): Address | undefined {
    const at = this.#recognised.plan.meanings.find((one) => one.id === id)?.at;
    const row = at && this.#hand.rowNow(at.row);
    const column = at && this.#recognised.columnNow(at.column);
    return row === undefined || column === undefined ? undefined : { row, column };
  }

  /** The sheet's own, so that a template's is left out where its sheet has none any more; a source's is not copied. */
  #logo({ logo, without }: Pick<About, "logo" | "without">): void {
    const { file, template } = this.#copy;
    const before = logoOf(template);
    if (without) {
      this.#say(
        "not understood",
        undefined,
        logoName,
        `${without} ${before ? "The template keeps its own." : ""}`.trim(),
      );
      return;
    }
    const same = logo?.image === before?.image && logo?.width === before?.width;
    if (same && (logo?.text ?? logoName) === (before?.text ?? logoName)) return;
    if (logo) file.logo = logo;
    else delete file.logo;
    const kind = !logo ? "left out" : before ? "changed" : "added";
    const inherited = template.source?.template.logo;
    const none = inherited ? "the sheet has none; sheets of the template have their source's" : "the sheet has none";
    this.#say(kind, undefined, logoName, logo ? `${logo.width} mm wide: it goes with the template` : none);
  }

  #say(
    kind: Understood["kind"],
    at: Address | undefined,
    label: string,
    what: string,
    more: Pick<Understood, "id" | "before" | "after"> = {},
  ): void {
    this.#rows.push({ kind, label, what, ...(at && { at }), ...more });
  }

  #refuse(at: Address | undefined, what: string): void {
    if (this.#refused.some((known) => known.what === what && known.at?.row === at?.row)) return;
    this.#refused.push({ what, ...(at && { at }) });
  }

  /** A formula that cannot be told by ids: listed, and no template is made. */
  #unresolved(at: Address, label: string, fault: string): void {
    this.#say("not understood", at, label, fault);
    this.#refuse(at, `${label}: ${fault}`);
  }

  #now({ row, column }: Address): Address | undefined {
    const r = this.#hand.rowNow(row);
    const c = this.#recognised.columnNow(column);
    return r === undefined || c === undefined ? undefined : { row: r, column: c };
  }

  /** Whether a formula is another; one that has lost a cell is, where the template has to say it otherwise. */
  #isFormulaChanged({ formula }: PlannedCell, at: Address, isTemplates: boolean): boolean {
    const { snapshot } = this.#recognised;
    const now = snapshot.cells[at.row]?.[at.column];
    if (now?.formula === undefined) return true;
    const moves = { row: this.#hand.rowNow, column: this.#recognised.columnNow };
    const expected = normalPlanned(formula!, moves);
    return normalNow(now.formula, snapshot.sheet) !== expected || (isTemplates && expected.includes("#REF!"));
  }

  #specials(formula: string, planned: Address): readonly Special[] {
    const moves = { row: this.#hand.rowNow, column: this.#recognised.columnNow };
    return this.#anatomy
      .specialsIn(formula, planned)
      .map(({ text, written }) => ({ text, written: normalPlanned(written, moves).replace(/^=/, "") }));
  }

  /** Cells that show a part of the template, but for formulas and inputs of tables. */
  #cells(): void {
    const { plan, snapshot, head } = this.#recognised;
    for (const cell of plan.cells) {
      const at = this.#now(cell);
      if (!at || peoplesRoles.has(cell.role) || cell.link) continue;
      if (cell.role === "shape") {
        const now = snapshot.cells[at.row]?.[at.column];
        if (now?.value !== cell.value)
          this.#refuse(at, "the configuration was changed and the sheet not built again: build it again first");
        continue;
      }
      const part = this.#anatomy.partAt(cell);
      if (part?.of === "column" && part.what === "cell") continue;
      if (part?.of === "row" && part.what === "input") continue;
      const now = snapshot.cells[at.row]?.[at.column];
      if (cell.formula !== undefined) {
        if (this.#isFormulaChanged(cell, at, part?.of === "row")) this.#formula(part, cell, at);
        continue;
      }
      const found = now?.formula ?? now?.value ?? null;
      const planned = cell.value ?? null;
      if (found === planned || (planned === null && found === "") || String(found) === String(planned)) continue;
      if (cell.value === plan.hash || cell.value === `${plan.template.id} ${plan.template.version}`) continue;
      if (cell.value === head.functionsVersion) continue;
      // What stands in a cell that was planned empty is told by Compare, but for a limit that was none before.
      if (planned === null && !isBound(part)) continue;
      this.#text(part, cell, at, found);
    }
  }

  /** A formula of one cell. */
  #formula(part: CellPart | undefined, cell: PlannedCell, at: Address): void {
    const label = this.#labelOf(cell);
    if (part?.of !== "row") {
      this.#say("not understood", at, label, "this formula is the program's own: it is written anew on every sheet");
      return;
    }
    const { row, what } = part;
    const draft = this.#copy.of(row);
    const summary = draft.summary as Draft | undefined;
    const put: Readonly<Record<string, readonly [Draft | undefined, string]>> = {
      value: [draft, "formula"],
      verdict: [draft, "verdict"],
      where: [summary, "where"],
      checked: [summary, "value"],
      limit: [summary, "limit"],
    };
    const [into, key] = put[what] ?? [];
    if (!into || key === undefined) {
      this.#say("not understood", at, label, "this formula is the program's own: it is written anew on every sheet");
      return;
    }
    const before = String(into[key]);
    const text = this.#withIds(before, [{ at, planned: cell }], what === "verdict", label);
    if (text === undefined || sameText(text, before)) return;
    into[key] = text;
    this.#cellOf.set(row, at);
    this.#changed.add(row);
    const stale = [
      ...(row.equation !== undefined && draft.equation === row.equation ? ["formula in words"] : []),
      ...(row.source !== undefined && draft.source === row.source ? ["source"] : []),
    ].join(" and ");
    const remark = stale === "" || what !== "value" ? "" : `; its ${stale} are still the template's: check them`;
    this.#say("changed", at, label, `${words[what] ?? "formula"}${remark}`, { id: row.id, before, after: text });
  }

  /** The formula that several cells have in common, by ids; undefined where it is refused. */
  #withIds(
    before: string,
    cells: readonly {
      readonly at: Address;
      readonly planned: Address;
      readonly context?: Parameters<Anatomy["referencesTo"]>[1];
    }[],
    isVerdict: boolean,
    label: string,
  ): string | undefined {
    const { snapshot } = this.#recognised;
    const contents = cells.map(({ at }) => snapshot.cells[at.row]?.[at.column]);
    if (contents.some((content) => content?.formula === undefined)) {
      const values = contents.map((content) => content?.formula ?? content?.value ?? null);
      const [first] = values;
      if (values.some((value) => value !== first) || first === null || first === "" || typeof first === "boolean") {
        const i = contents.findIndex((content) => content?.formula === undefined);
        const gone = contents[i]?.value === null || contents[i]?.value === "" || contents[i] === undefined;
        this.#unresolved(
          cells[i]!.at,
          label,
          gone
            ? "the formula was deleted: delete the whole row, or put a formula there"
            : "a value was typed over the formula in some rows only: change all of them alike",
        );
        return undefined;
      }
      return typeof first === "number" ? `=${first}` : `=${textConstant(String(first))}`;
    }
    const found = cells.map(({ at, context }, i) => ({
      formula: contents[i]!.formula!,
      at,
      ...(context && { context }),
    }));
    const read = idsInFormulas(found, this.#standing, this.#specials(before, cells[0]!.planned), before);
    if ("fault" in read) {
      this.#unresolved(read.at, label, read.fault);
      return undefined;
    }
    // Verdicts take the word of the row `pass` in place of OK.
    return `=${isVerdict ? read.text.replaceAll("{pass}", '"OK"') : read.text}`;
  }

  /** Columns of tables whose formulas or fixed cells were changed. */
  #columns(): void {
    const ofColumn = new Map<Column, { table: TableItem; cells: { cell: PlannedCell; index: number }[] }>();
    for (const cell of this.#recognised.plan.cells) {
      const part = this.#anatomy.partAt(cell);
      if (part?.of !== "column" || part.what !== "cell" || cell.link || peoplesRoles.has(cell.role)) continue;
      if (part.column.input) continue;
      const known = ofColumn.get(part.column) ?? { table: part.table, cells: [] };
      known.cells.push({ cell, index: part.index });
      ofColumn.set(part.column, known);
    }
    for (const [column, { table, cells }] of ofColumn) {
      const standing = cells.flatMap(({ cell, index }) => {
        const at = this.#now(cell);
        return at ? [{ cell, index, at }] : [];
      });
      const changed = standing.filter(({ cell, at }) => {
        if (cell.formula !== undefined) return this.#isFormulaChanged(cell, at, true);
        const now = this.#recognised.snapshot.cells[at.row]?.[at.column];
        return now?.formula !== undefined || String(now?.value ?? "") !== String(cell.value ?? "");
      });
      if (changed.length === 0) continue;
      this.#column(column, table, standing, changed);
    }
  }

  #column(
    column: Column,
    table: TableItem,
    standing: readonly { cell: PlannedCell; index: number; at: Address }[],
    changed: readonly { cell: PlannedCell; index: number; at: Address }[],
  ): void {
    const label = this.#labelOf(changed[0]!.cell);
    const { at } = changed[0]!;
    const draft = this.#copy.of(column);
    const rows = this.#anatomy.rowsOf(table);
    const one = ({ cell, index, at: now }: (typeof standing)[number]) => ({
      at: now,
      planned: cell,
      context: rows[index]!.context,
    });
    if (column.index !== undefined || column.memberText !== undefined) {
      this.#say("not understood", at, label, "numbers and names of members are the program's: they are written anew");
      return;
    }
    if (column.cells) {
      const into = draft.cells as Record<string, number | string>;
      for (const entry of changed) {
        const { members } = rows[entry.index]!;
        const before = String(column.cells[members]);
        const value = this.#recognised.snapshot.cells[entry.at.row]?.[entry.at.column];
        const typed = value?.formula === undefined ? value?.value : undefined;
        const text =
          typeof typed === "number" || (typeof typed === "string" && typed !== "" && !before.startsWith("="))
            ? typed
            : this.#withIds(before.startsWith("=") ? before : "", [one(entry)], false, label);
        if (text === undefined) continue;
        into[members] = text;
        this.#cellOf.set(column, entry.at);
        this.#say("changed", entry.at, label, "cell of the table", { id: column.id, before, after: String(text) });
      }
      return;
    }
    const parts = this.#anatomy.partsOf(table);
    parts.forEach((part, number) => {
      const here = standing.filter(({ index }) => rows[index]!.part === number);
      if (!here.some((entry) => changed.includes(entry))) return;
      const own = part?.formulas[column.id];
      const before = own ?? column.formula;
      if (before === undefined) return;
      const text = this.#withIds(before, here.map(one), column.verdict === true, label);
      if (text === undefined || sameText(text, before)) return;
      if (own === undefined && part !== undefined && draft.formula !== text) {
        this.#unresolved(at, label, "the further rows of this table have the formula of its first ones: change all");
        return;
      }
      if (own === undefined) draft.formula = text;
      else (this.#copy.of(part!).formulas as Draft)[column.id] = text;
      this.#cellOf.set(column, at);
      this.#changed.add(column);
      this.#say("changed", at, label, column.verdict ? "verdict" : "formula of the column", {
        id: column.id,
        before,
        after: text,
      });
    });
  }

  /** A text, a unit or a bound that was changed. */
  #text(part: CellPart | undefined, cell: PlannedCell, at: Address, found: string | number | boolean | null): void {
    const label = this.#labelOf(cell);
    const before = shown(cell.value ?? null);
    const not = (why: string): void => this.#say("not understood", at, label, why, { before, after: shown(found) });
    if (!part) return not("the program writes this cell anew on every sheet");
    if (part.of === "caution") return not("cautions of the program stay as they are; add a note of your own");
    if (typeof found === "string" && found.startsWith("=")) {
      not("a formula stands in place of a text");
      this.#refuse(at, `${label}: a formula stands in place of a text of the template`);
      return;
    }
    const text = typeof found === "string" ? found.trim() : found;
    const fault = typeof text === "string" ? textFault(text) : undefined;
    if (fault !== undefined) {
      not(fault);
      this.#refuse(at, `${label}: ${fault}`);
      return;
    }
    const why = this.#putText(part, text === "" ? null : text);
    if (why !== undefined) return not(why);
    this.#say("changed", at, label, `${partWords(part)}`, {
      ...("row" in part && { id: part.row.id }),
      ...(part.of === "column" && { id: part.column.id }),
      before,
      after: shown(found),
    });
    if ("row" in part) this.#changed.add(part.row);
    if (part.of === "column") this.#changed.add(part.column);
  }

  /** Puts what was found where the template says it; gives the reason where it cannot. */
  #putText(part: CellPart, found: string | number | boolean | null): string | undefined {
    const { file } = this.#copy;
    const said = found === null ? "" : String(found);
    const needed = said === "" ? "it was emptied, and the template needs it: it stays" : undefined;
    switch (part.of) {
      case "template":
        if (needed === undefined) file[part.what] = said;
        return needed;
      case "convention": {
        const list = file.conventions as string[];
        if (needed === undefined) list[part.index] = said;
        return needed;
      }
      case "block":
        if (needed === undefined) this.#copy.of(part.block)[part.what] = said;
        else if (part.what === "note") {
          delete this.#copy.of(part.block).note;
          return undefined;
        }
        return needed;
      case "note":
        if (needed === undefined) this.#copy.of(part.note).note = part.before + said;
        return needed;
      case "table":
        if (needed === undefined) this.#copy.of(part.table)[part.what] = said;
        return needed;
      case "across":
        if (needed === undefined) this.#copy.of(part.across).title = said;
        return needed;
      case "row":
        return this.#putSaying(this.#copy.of(part.row), part.row, part.what, found);
      case "column":
        return this.#putSaying(this.#copy.of(part.column), part.column, part.what, found);
      default:
        return "the program writes this cell anew on every sheet";
    }
  }

  #putSaying(
    draft: Draft,
    spec: Row | Column,
    what: string,
    found: string | number | boolean | null,
  ): string | undefined {
    const said = found === null ? "" : String(found);
    if (what === "from" || what === "to") return this.#putBound(draft, spec, what, found);
    if (what === "heading") {
      const { symbol } = saysOf(spec);
      const isWord = symbol === "–" || symbol === "no.";
      return this.#putSaying(draft, spec, isWord ? "text" : "symbol", found);
    }
    if (what === "name" || what === "checkedUnit") {
      if (said === "") return "it was emptied, and the template needs it: it stays";
      const summary = draft.summary as Draft;
      summary[what === "name" ? "name" : "unit"] = said;
      return undefined;
    }
    if (what === "unit") {
      if (said === "") return "a unit was emptied: write “–” where there is none";
      if (spec.quantity !== undefined) this.#withoutQuantity(draft, spec);
      draft.unit = said;
      return undefined;
    }
    if (what === "symbol") {
      draft.symbol = said === "" ? "–" : said;
      return undefined;
    }
    if (what === "text" || what === "equation" || what === "source") {
      if (said !== "") draft[what] = said;
      else if (what !== "text" && spec[what] !== undefined) delete draft[what];
      else return "it was emptied, and the program writes it anew: it stays";
      return undefined;
    }
    return "the program writes this cell anew on every sheet";
  }

  /** A value in another unit is no longer the quantity of the program: what the quantity lent stands with the row. */
  #withoutQuantity(draft: Draft, spec: Row | Column): void {
    const { text, symbol, quantity } = saysOf(spec);
    delete draft.quantity;
    draft.text ??= text;
    draft.symbol ??= symbol;
    if (!spec.input || spec.input.choices || spec.input.freeText) return;
    const { because: _because, whole: _whole, ...bounds } = boundsOf(spec.input, quantity);
    draft.input = { ...bounds, ...(draft.input as Draft) };
  }

  #putBound(draft: Draft, spec: Row | Column, what: "from" | "to", found: string | number | boolean | null) {
    if (typeof found !== "number") return "a limit of what may be typed is a number: it stays";
    const { quantity } = saysOf(spec);
    const own = boundsOf(spec.input!, quantity);
    const input = draft.input as Draft;
    const [closed, open] = what === "from" ? (["min", "above"] as const) : (["max", "below"] as const);
    const limit = quantity?.[closed] ?? quantity?.[open];
    if (limit !== undefined && draft.quantity !== undefined && (what === "from" ? found < limit : found > limit))
      return `the worksheet functions take no value ${what === "from" ? "below" : "above"} ${numberText(limit)}: it stays`;
    const key = own[open] === undefined ? closed : open;
    delete input[closed];
    delete input[open];
    input[key] = found;
    return undefined;
  }

  /** Number formats, which only the host knows. */
  #formats(): void {
    for (const finding of this.comparison.findings) {
      if (finding.kind !== "format changed" || !finding.at || finding.found === undefined) continue;
      const planned = this.#planned(finding.at);
      const part = planned && this.#anatomy.partAt(planned);
      const label = finding.label ?? "";
      const isRow = part?.of === "row" && (part.what === "value" || part.what === "input");
      const ofColumn = part?.of === "column" && part.what === "cell" ? part : undefined;
      if (isRow) this.#copy.of(part.row).format = finding.found;
      else if (ofColumn && (finding.rows ?? 1) === this.#anatomy.rowsOf(ofColumn.table).length)
        this.#copy.of(ofColumn.column).format = finding.found;
      else {
        this.#say("not understood", finding.at, label, "the number format of some cells of a column alone", {
          before: finding.expected ?? "",
          after: finding.found,
        });
        continue;
      }
      this.#say("changed", finding.at, label, "number format", {
        before: finding.expected ?? "",
        after: finding.found,
      });
    }
  }

  #planned({ row, column }: Address): Address | undefined {
    const r = this.#hand.rowPlanned(row);
    const c = this.#recognised.columnPlanned(column);
    return r === undefined || c === undefined ? undefined : { row: r, column: c };
  }

  #goneRows(): void {
    const goneIds = new Set<string>();
    const forget = (item: Item): void => {
      if ("id" in item) goneIds.add(item.id);
      if (!("table" in item)) return;
      goneIds.add(item.table);
      for (const { id } of item.columns) goneIds.add(id);
    };
    const stands = (block: Block): boolean => block.items.some((item) => this.#stands(item));
    for (const { item, block } of this.#hand.gone) {
      if (this.#hand.goneBlocks.includes(block) && !stands(block)) continue;
      const items = this.#copy.list(block.items);
      items.splice(items.indexOf(this.#copy.of(item)), 1);
      forget(item);
      this.#say("left out", undefined, nameOfItem(item), "its rows were deleted", "id" in item ? { id: item.id } : {});
    }
    const blocks = this.#copy.list(this.#recognised.template.blocks);
    for (const block of this.#hand.goneBlocks) {
      if (stands(block)) {
        this.#say(
          "not understood",
          undefined,
          block.title,
          "the title of a block was deleted, its rows stand: it stays",
        );
        continue;
      }
      blocks.splice(blocks.indexOf(this.#copy.of(block)), 1);
      block.items.forEach(forget);
      this.#say(
        "left out",
        undefined,
        block.title,
        "the whole block was deleted, with its rows of other configurations",
      );
    }
    this.#goneLines();
    for (const { item, rows } of this.#hand.halfGone)
      this.#say(
        "not understood",
        undefined,
        nameOfItem(item),
        "table" in item
          ? `${rows.length} rows of the table were deleted: how many it has follows from the configuration`
          : "a line that belongs to the row was deleted: the program writes it anew",
      );
    // A block without items is no block.
    for (const block of [...blocks] as Draft[])
      if ((block.items as unknown[]).length === 0) {
        blocks.splice(blocks.indexOf(block), 1);
        this.#say("left out", undefined, String(block.title), "nothing of the block is left");
      }
    if (goneIds.size > 0) this.#withoutIds(goneIds);
  }

  /** Deleted rows that are no items: notes of blocks and tables go, whatever else the program writes comes back. */
  #goneLines(): void {
    const { plan } = this.#recognised;
    const filled = new Set(
      plan.cells.flatMap(({ row, value, formula }) => ((value ?? formula) !== undefined ? [row] : [])),
    );
    for (const row of filled) {
      if (this.#hand.rowNow(row) !== undefined) continue;
      const part = [0, columns.description].map((column) => this.#anatomy.partAt({ row, column })).find(Boolean);
      const owner = this.#anatomy.ownerAt(row);
      const noteOf = part?.of === "block" ? part.block : part?.of === "table" ? part.table : undefined;
      const isNote = noteOf && part && "what" in part && part.what === "note";
      const isWhole = owner?.item
        ? this.#hand.gone.some(({ item }) => item === owner.item)
        : owner !== undefined && this.#hand.goneBlocks.includes(owner.block);
      if (isNote && !isWhole) {
        delete this.#copy.of(noteOf).note;
        this.#say("left out", undefined, noteOf.note!, `the note of “${noteOf.title}” was deleted`);
      } else if (!isWhole && !owner?.item)
        this.#say(
          "not understood",
          undefined,
          this.#labelOf({ row, column: 0 }),
          "this row is the program's: it comes back",
        );
    }
  }

  /** Whether a row of the item stands on the sheet. */
  #stands(item: Item): boolean {
    for (let row = 0; row < this.#recognised.plan.rows; row++)
      if (this.#anatomy.ownerAt(row)?.item === item && this.#hand.rowNow(row) !== undefined) return true;
    return false;
  }

  /** What else names rows that were deleted: results, relations between inputs, charts. */
  #withoutIds(gone: ReadonlySet<string>): void {
    const { file } = this.#copy;
    const left = new Set<string>();
    for (const block of file.blocks as Draft[])
      for (const item of block.items as Draft[]) {
        if (typeof item.id === "string") left.add(item.id);
        if (typeof item.table === "string") left.add(item.table);
        for (const column of (item.columns as Draft[] | undefined) ?? []) left.add(String(column.id));
      }
    const lost = (id: string): boolean => gone.has(id) && !left.has(id);
    for (const block of file.blocks as Draft[])
      if (block.results) block.results = (block.results as string[]).filter((id) => !lost(id));
    const names = (text: string): boolean =>
      [...text.matchAll(/\{(\w+)(?::(\w+))?[^}]*\}/g)].some(([, a, b]) => lost(a!) || (b !== undefined && lost(b)));
    file.relations = ((file.relations as Draft[] | undefined) ?? []).filter((relation) => {
      const goes = lost(String(relation.of)) || names(String(relation.holds)) || names(String(relation.message));
      if (goes)
        this.#say("left out", undefined, `relation of ${String(relation.of)}`, "it names a row that was deleted", {
          before: String(relation.message),
        });
      return !goes;
    });
    file.charts = (file.charts as Draft[]).filter((chart) => {
      const goes =
        lost(String((chart.x as Draft).column)) ||
        (chart.series as readonly { readonly column: string; readonly x?: string }[]).some(
          ({ column, x }) => lost(column) || (x !== undefined && lost(x)),
        );
      if (goes) this.#say("left out", undefined, `chart ${String(chart.title)}`, "it shows a column that was deleted");
      return !goes;
    });
    const shownCharts = new Set((file.charts as Draft[]).map(({ id }) => String(id)));
    for (const block of file.blocks as Draft[])
      for (const item of block.items as Draft[])
        if (item.charts) item.charts = (item.charts as string[]).filter((id) => shownCharts.has(id));
    const example = file.example as { inputs: Record<string, unknown> };
    example.inputs = Object.fromEntries(Object.entries(example.inputs).filter(([id]) => !lost(id)));
  }

  /** The list of items that holds one. */
  #listWith(item: object): unknown[] | undefined {
    return (this.#copy.file.blocks as Draft[])
      .map(({ items }) => items as unknown[])
      .find((items) => items.includes(item));
  }

  #insert(made: object, behind: Behind, ofRow: Map<string, object>): void {
    const before = behind.added === undefined ? undefined : ofRow.get(behind.added);
    const anchor = before ?? (behind.item && this.#copy.of(behind.item));
    const items = (anchor && this.#listWith(anchor)) ?? this.#copy.list(behind.block.items);
    items.splice(anchor && items.includes(anchor) ? items.indexOf(anchor) + 1 : 0, 0, made);
    const block = (this.#copy.file.blocks as Draft[]).find((one) => one.items === items);
    const { id, input } = made as Draft;
    if (block?.results && typeof id === "string" && input === undefined && !behind.working)
      block.results = [...new Set([...(block.results as string[]), id])];
  }

  #movedRows(): void {
    for (const { item, now, to } of [...this.#hand.moved].sort((a, b) => a.now - b.now)) {
      const made = this.#copy.of(item);
      const from = this.#listWith(made)!;
      from.splice(from.indexOf(made), 1);
      const was = (this.#copy.file.blocks as Draft[]).find((block) => block.items === from);
      if (was?.results) was.results = (was.results as string[]).filter((id) => id !== item.id);
      this.#insert(made, to, new Map());
      const at = { row: now, column: columns.description };
      this.#say("moved", at, `${saysOf(item).text} (${item.id})`, "its row stands elsewhere now", { id: item.id });
    }
  }

  #addedRows(): void {
    const made = new Map<string, object>();
    for (const one of this.#hand.added) {
      const at = { row: one.now, column: this.#recognised.columnNow(columns.description) ?? columns.description };
      const label = textAt(this.#recognised, one.now, columns.description) || `row ${one.now + 1}`;
      if (one.fault !== undefined || !one.behind) {
        this.#say("not understood", at, label, one.fault ?? "it stands nowhere");
        continue;
      }
      const fault = textFault(label);
      if (fault !== undefined) {
        this.#unresolved(at, label, fault);
        continue;
      }
      if (one.content === "note") {
        const note = { note: label };
        this.#insert(note, one.behind, made);
        made.set(one.id, note);
        this.#say("added", at, label, "a note");
        continue;
      }
      const row = this.#addedRow(one, label);
      if (!row) continue;
      this.#insert(row, one.behind, made);
      made.set(one.id, row);
      this.#cellOf.set(row, { row: one.now, column: this.#recognised.columnNow(columns.value) ?? columns.value });
      const { formula, input } = row;
      const what = input ? "an input" : row.summary ? "a check" : "a row with a formula";
      this.#say("added", at, label, what, {
        id: one.id,
        after: typeof formula === "string" ? formula : shown((input as Draft).default),
      });
    }
  }

  #addedRow({ now, id }: AddedRow, text: string): Draft | undefined {
    const recognised = this.#recognised;
    const column = (of: number): number => recognised.columnNow(of) ?? of;
    const said = (of: number): string => textAt(recognised, now, of);
    const row: Draft = { id, text, symbol: said(columns.symbol) || "–", unit: said(columns.unit) || "–" };
    const at = { row: now, column: column(columns.value) };
    const value = contentAt(recognised, now, columns.value);
    for (const of of [columns.symbol, columns.unit, columns.source]) {
      const fault = textFault(said(of));
      if (fault === undefined) continue;
      this.#unresolved({ row: now, column: column(of) }, text, fault);
      return undefined;
    }
    const verdict = contentAt(recognised, now, columns.verdict);
    if (value.formula === undefined) {
      const [from, to] = [columns.from, columns.to].map((of) => contentAt(recognised, now, of).value);
      row.input =
        typeof value.value === "number"
          ? {
              default: value.value,
              ...(typeof from === "number" && { min: from }),
              ...(typeof to === "number" && { max: to }),
            }
          : { default: String(value.value ?? ""), freeText: true };
      if (verdict.formula !== undefined) {
        this.#unresolved({ row: now, column: column(columns.verdict) }, text, "an input has no verdict of its own");
        return undefined;
      }
    } else {
      const formula = this.#withIds("", [{ at, planned: at }], false, text);
      if (formula === undefined) return undefined;
      row.formula = formula;
      if (said(columns.equation) !== "") row.equation = said(columns.equation);
    }
    if (verdict.formula !== undefined) {
      const cell = { row: now, column: column(columns.verdict) };
      const formula = this.#withIds("", [{ at: cell, planned: cell }], true, text);
      if (formula === undefined) return undefined;
      row.verdict = formula;
      if (row.unit === "–") row.summary = {};
    } else if (verdict.value !== null && verdict.value !== "")
      this.#say("not understood", { row: now, column: column(columns.verdict) }, text, "a verdict is a formula");
    if (said(columns.source) !== "" && !row.summary) row.source = said(columns.source);
    const format = this.formats[now]?.[at.column];
    if (format !== undefined && format !== "General") row.format = format;
    return row;
  }

  /** What Compare found that a template's file has no place for: listed, never dropped. */
  #otherFindings(): void {
    for (const finding of this.comparison.findings) {
      const why = notKept[finding.kind];
      if (why === undefined) continue;
      const isElsewhere = this.#isOfAddedRow(finding) || this.#isOfBound(finding);
      if (finding.kind === "cell added" && (isElsewhere || this.#verdictAdded(finding))) continue;
      this.#say("not understood", finding.at, finding.label ?? finding.kind, `${finding.kind}: ${why}`, {
        ...(finding.expected !== undefined && { before: finding.expected }),
        ...(finding.found !== undefined && { after: finding.found }),
      });
    }
  }

  /** A verdict put beside a row that had none. */
  #verdictAdded({ at }: Finding): boolean {
    const planned = at && this.#planned(at);
    if (!at || planned?.column !== columns.verdict) return false;
    const owner = this.#anatomy.ownerAt(planned.row);
    const item = owner?.item;
    if (!item || owner.first !== planned.row || !("id" in item) || item.formula === undefined || item.verdict)
      return false;
    const label = nameOfItem(item);
    const text = this.#withIds("", [{ at, planned }], true, label);
    if (text === undefined) return true;
    this.#copy.of(item).verdict = text;
    this.#cellOf.set(item, at);
    this.#changed.add(item);
    this.#say("changed", at, label, "a verdict was put beside it", { id: item.id, after: text });
    return true;
  }

  #isOfBound({ at }: Finding): boolean {
    const planned = at && this.#planned(at);
    return planned !== undefined && isBound(this.#anatomy.partAt(planned));
  }

  #isOfAddedRow({ at }: Finding): boolean {
    return at !== undefined && this.#hand.added.some(({ now }) => now === at.row);
  }

  #keptRows(): void {
    const seen = new Set<Item>();
    const { plan } = this.#recognised;
    for (let row = 0; row < plan.rows; row++) {
      const item = this.#anatomy.ownerAt(row)?.item;
      const now = this.#hand.rowNow(row);
      if (!item || seen.has(item) || now === undefined) continue;
      seen.add(item);
      if (this.#changed.has(item) || ("table" in item && item.columns.some((column) => this.#changed.has(column))))
        continue;
      this.#say("kept", { row: now, column: columns.description }, nameOfItem(item), "as the template has it", {
        ...("id" in item && { id: item.id }),
      });
    }
  }

  #labelOf(cell: Address): string {
    const part = this.#anatomy.partAt(cell);
    if (part?.of === "row") return `${part.says.text} (${part.row.id})`;
    if (part?.of === "column") return `${part.table.title}, ${part.says.text} (${part.column.id})`;
    if (part?.of === "table") return part.table.title;
    if (part?.of === "block") return part.block.title;
    const item = this.#anatomy.ownerAt(cell.row)?.item;
    return item ? nameOfItem(item) : part ? part.of : `cell ${a1(cell)} of the template`;
  }

  /** From the faults of the new template to the cells they come from. */
  #places(made: Template): (problem: string) => Address | undefined {
    const places = new Map<string, Address>();
    made.blocks.forEach((block, b) =>
      block.items.forEach((item, i) => {
        const start = `block ${b + 1} (${block.id}), item ${i + 1} `;
        for (const [spec, at] of this.#cellOf) {
          const copy = (this.#copy.of(spec) as object | undefined) ?? spec;
          if (copy === item) places.set(start, at);
          if ("table" in item)
            for (const column of item.columns)
              if (copy === column) places.set(`${start}(table ${item.table}), column ${column.id}`, at);
        }
      }),
    );
    const longestFirst = [...places.keys()].sort((a, b) => b.length - a.length);
    return (problem) => {
      const start = longestFirst.find((one) => problem.startsWith(one));
      return start === undefined ? undefined : places.get(start);
    };
  }
}

/** What is wrong with a template in the configuration of its example. */
function problemsHere(template: Template): readonly string[] {
  const { example, shape, source } = template;
  try {
    expand(template, {
      ...(source && Object.fromEntries(shape.map((one) => [one.id, one.default]))),
      ...withoutLocked(template, example.inputs),
    });
    return [];
  } catch (error) {
    if (error instanceof RefusedSheet) return error.problems;
    throw error;
  }
}

const words: Readonly<Record<string, string>> = {
  value: "formula",
  verdict: "verdict",
  where: "location where it governs",
  checked: "value checked",
  limit: "limit",
};

function partWords(part: CellPart): string {
  if (part.of === "row" || part.of === "column")
    return { from: "lower limit", to: "upper limit", equation: "formula in words" }[part.what as "from"] ?? part.what;
  return "what" in part ? part.what : part.of;
}

/** Whether two formulas of templates are the same but for blanks and the sign before them. */
const sameText = (a: string, b: string): boolean =>
  a.replace(/^=/, "").replace(/\s/g, "") === b.replace(/^=/, "").replace(/\s/g, "");

const isBound = (part: CellPart | undefined): boolean =>
  (part?.of === "row" || part?.of === "column") && (part.what === "from" || part.what === "to");

function nameOfItem(item: Item): string {
  if ("table" in item) return item.title;
  if ("id" in item) return `${saysOf(item).text} (${item.id})`;
  if ("note" in item) return item.note;
  if ("across" in item) return item.title;
  return "warnings" in item ? "warnings" : `first page: ${item.front}`;
}

const shown = (value: unknown): string =>
  typeof value === "number"
    ? numberText(value)
    : value === null || value === undefined
      ? "empty"
      : JSON.stringify(value);

/** Findings of Compare that are no part of a template, with the reason. */
const notKept: Partial<Readonly<Record<FindingKind, string>>> = {
  "cell added": "what stands in a cell that the template leaves empty has no row of its own",
  "own cells": "cells of your own beside or below the sheet are no part of a template",
  "column deleted": "all sheets have the same columns",
  "column inserted": "all sheets have the same columns",
  "row hidden": "rows are shown on every new sheet",
  "column hidden": "columns are shown on every new sheet",
  "value hidden by format": "a format that hides a value is not taken",
  "value hidden by colour": "colours are the program's",
  "value hidden by size": "sizes of letters are the program's",
  "entry rule missing": "what may be typed follows from the limits of the row",
  "entry rule changed": "what may be typed follows from the limits of the row: change these",
  "colour missing": "colours are the program's",
  "colour changed": "colours are the program's",
  "colour added": "colours are the program's",
  "input linked": "an input holds a formula: its value is taken, the link is not",
  "input not allowed": "the input is left empty",
  "link broken": "links to the source sheet are made anew",
  "value not recomputed": "the value shown is not what its formula gives",
};
