import {
  a1,
  areaA1,
  cellAt,
  columnLetters,
  functionsIn,
  quotedSheet,
  textNode,
  writeNode,
  type Area,
  type CellContent,
  type Place,
  type Snapshot,
} from "../../cells/index.ts";
import { cautions, version } from "../../core/index.ts";
import type { Looks } from "../../hosts/index.ts";
import { withLogo, type Highlight, type Logo, type Plan, type PlannedCell } from "../../sheet/index.ts";
import type { PlannedChart, Role } from "../../sheet/index.ts";
import { areaNow, lookOf, plainRole, type Look } from "../handOut/look.ts";
import { computingCopy } from "../recognise/head.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { SheetWriter } from "../writer.ts";
import { copiedFormula, stayingFormula, type CopiedFormula, type WhyStaying } from "./cells.ts";
import type { EquationReader } from "./equation.ts";
import { fitting, longestFormula, partialSums } from "./fitting.ts";
import { outOfDate, PortableFunctions } from "./functions.ts";
import { numbersIn, Staleness, type Standing } from "./staleness.ts";

/** Rows above the copied ones. */
export const portableHeadRows = 7;

/** A sheet to be copied, with its present content. */
export interface SheetToCopy {
  readonly snapshot: Snapshot;
  readonly looks: Looks;
  readonly recognised: Recognised | undefined;
  readonly logo?: Logo;
  /** Why the copy goes without the logo of its original; empty where it does not. */
  readonly without?: string;
}

export interface PortableFacts {
  /** Date and time, as a person reads it. */
  readonly when: string;
  readonly host: string;
}

/** What became of the formulas of a copy. */
export interface PortableCounts {
  readonly computing: number;
  readonly staying: number;
  /** Of the staying ones those that are warnings and marks. */
  readonly warnings: number;
  /** Of the staying ones, how many for which reason. */
  readonly why: Readonly<Record<WhyStaying, number>>;
  /** Ids of the functions that compute, and of those that stay. */
  readonly functions: readonly string[];
  readonly values: readonly string[];
}

/** Why cells of a copy stay values, a sentence for each reason there is. */
export function whyStaying({ why, values }: Pick<PortableCounts, "why" | "values">): string {
  const cells = (count: number, one: string, more: string): readonly string[] =>
    count === 0 ? [] : [count === 1 ? `1 cell ${one}.` : `${count} cells ${more}.`];
  const by = `search or read tables, by ${values.join(", ")}`;
  return [
    ...cells(why.functions, `has to integrate, ${by}`, `integrate, ${by}`),
    ...cells(
      why.elsewhere,
      "shows values of sheets that were not copied",
      "show values of sheets that were not copied",
    ),
    ...cells(
      why.arguments,
      "calls a function with more arguments than it takes",
      "call functions with more arguments than they take",
    ),
    ...cells(why.long, "holds a formula longer than programs take", "hold formulas longer than programs take"),
  ].join(" ");
}

export interface PortableCopy {
  readonly plan: Plan;
  readonly counts: PortableCounts;
}

const rows = portableHeadRows;
const down = <T extends Area>(area: T): T => ({ ...area, row: area.row + rows });
const placeKey = ({ sheet, row, column }: Place): string => `${sheet.toLowerCase()} ${row} ${column}`;
const verdicts: ReadonlySet<Role> = new Set(["verdict", "overall"]);

/** Functions that give a value where what they read is an error. */
const hiding: ReadonlySet<string> = new Set([
  ...["IFERROR", "IFNA", "IFS", "SWITCH", "CHOOSE", "TYPE", "INDEX", "AGGREGATE"],
  ...["SUMIF", "SUMIFS", "AVERAGEIF", "AVERAGEIFS", "MAXIFS", "MINIFS"],
  ...["MATCH", "XMATCH", "LOOKUP", "XLOOKUP", "VLOOKUP", "HLOOKUP"],
]);
const hides = (name: string): boolean => {
  const own = name.toUpperCase();
  return hiding.has(own) || own.startsWith("IS") || own.startsWith("COUNT");
};
const hidesErrors = (formula: string): boolean => functionsIn(formula).some(hides);

/** Beside the overall verdict where it cannot be told. */
const behindVerdict = "Inputs were changed on which values depend that do not follow here: compute the original.";

/** The cells that may be typed into. */
function inputsOf({ snapshot, recognised }: SheetToCopy): (row: number, column: number) => boolean {
  if (!recognised) return (row, column) => cellAt(snapshot, row, column).value !== null;
  const keys = new Set(
    recognised.plan.unlocked
      .flatMap((area) => areaNow(recognised, area) ?? [])
      .flatMap(({ row, column, rows: high, columns: wide }) =>
        Array.from({ length: high * wide }, (_, i) => `${row + Math.floor(i / wide)} ${column + (i % wide)}`),
      ),
  );
  return (row, column) => keys.has(`${row} ${column}`);
}

/** Copies of some sheets of one workbook that compute without the add-in as far as their functions can be expressed. */
export function portableCopies(
  sheets: readonly SheetToCopy[],
  facts: PortableFacts,
  reader: EquationReader,
): readonly PortableCopy[] {
  const functions = new PortableFunctions(reader);
  const names = new Set(sheets.map(({ snapshot }) => snapshot.sheet.toLowerCase()));
  const formulas = new Map<string, CopiedFormula>();
  for (const { snapshot } of sheets)
    snapshot.cells.forEach((cells, row) =>
      cells.forEach(({ formula }, column) => {
        if (formula === undefined) return;
        const place = { sheet: snapshot.sheet, row, column };
        formulas.set(placeKey(place), copiedFormula(formula, rows, names, functions));
      }),
    );
  const inputs = new Map(sheets.map((one) => [one.snapshot.sheet, inputsOf(one)]));
  const staleness = new Staleness(
    sheets.map(({ snapshot }) => snapshot),
    ({ sheet, row, column }) => inputs.get(sheet)!(row, column),
    (place): Standing => {
      const formula = formulas.get(placeKey(place));
      if (!formula || formula.computes) return "computes";
      return formula.warns ? "warns" : "stays";
    },
  );
  const changed = new ChangedInputs(sheets, staleness);
  const copies = sheets.map((one) => new Copying(one, { formulas, staleness, changed, functions, facts }));
  // What every sheet needs of the inputs as copied is known once all of them are written.
  const written = copies.map((copying) => copying.write());
  return copies.map((copying, i) => copying.finished(written[i]!));
}

/**
 * Where the copies compare their inputs with those they were made with, and how many of a set are others. Each sheet sums
 * for itself: a source then refers to none of the sheets that are linked to it, and can be computed before them.
 */
class ChangedInputs {
  /** By sheet, the row of each set in the list of its sums. */
  readonly #sets: ReadonlyMap<string, Map<bigint, number>>;
  readonly #bySheet: ReadonlyMap<string, { readonly snapshot: Snapshot; readonly column: number }>;

  constructor(
    sheets: readonly SheetToCopy[],
    private readonly staleness: Staleness,
  ) {
    this.#bySheet = new Map(sheets.map(({ snapshot }) => [snapshot.sheet, { snapshot, column: snapshot.columns + 3 }]));
    this.#sets = new Map(sheets.map(({ snapshot }) => [snapshot.sheet, new Map()]));
  }

  /** The cell of this sheet that says how many of these inputs are others now; undefined for none. */
  cellFor(set: bigint, from: string): string | undefined {
    if (set === 0n) return undefined;
    const sets = this.#sets.get(from)!;
    const row = sets.get(set) ?? sets.size;
    sets.set(set, row);
    return a1({ row: rows + row, column: this.#bySheet.get(from)!.column + 3 }, true);
  }

  /** The inputs of a sheet that anything depends on, with their place in the list beside it. */
  #listed(sheet: string): readonly { readonly place: Place; readonly number: number; readonly at: number }[] {
    const all = [...this.#sets.values()].flatMap((sets) => [...sets.keys()]).reduce((sum, set) => sum | set, 0n);
    return numbersIn(all)
      .map((number) => ({ place: this.staleness.inputs[number]!, number }))
      .filter(({ place }) => place.sheet === sheet)
      .map((one, at) => ({ ...one, at }));
  }

  /** Writes the list beside a sheet: where, as copied, 1 where it is another now; and the sums of the sets. */
  write(w: SheetWriter, sheet: string): number {
    const { snapshot, column } = this.#bySheet.get(sheet)!;
    const listed = this.#listed(sheet);
    w.put(rows - 1, column, "heading", "input");
    w.put(rows - 1, column + 1, "heading", "as copied");
    w.put(rows - 1, column + 2, "heading", "changed");
    w.put(rows - 1, column + 3, "heading", "changed of a set");
    for (const { place, at } of listed) {
      const row = rows + at;
      const { value } = cellAt(snapshot, place.row, place.column);
      const cell = a1({ row: place.row + rows, column: place.column }, true);
      const kept = a1({ row, column: column + 1 }, true);
      // Beside the rows of the sheet, which keep their height.
      w.cells.push({ row, column, role: "label", value: a1({ row: place.row + rows, column: place.column }) });
      if (value !== null && value !== "") w.cells.push({ row, column: column + 1, role: "label", value });
      w.formula(row, column + 2, "label", `=IF(AND(${cell}=${kept},(${cell}="")=(${kept}="")),0,1)`);
    }
    return rows + Math.max(listed.length, this.#writeSums(w, sheet, column + 3));
  }

  /** How many inputs of each set are others now; below them the parts of sums that are too long for one cell. */
  #writeSums(w: SheetWriter, sheet: string, column: number): number {
    const sets = this.#sets.get(sheet)!;
    let below = sets.size;
    const put = (row: number, formula: string): void =>
      w.formula(row, column, "label", fitting(formula, { sheet, row, column }));
    for (const [set, at] of sets) {
      const sums = partialSums(this.#addresses(set, sheet));
      if (sums.length === 1) {
        put(rows + at, sums[0]!);
        continue;
      }
      const parts = { row: rows + below, column, rows: sums.length, columns: 1 };
      sums.forEach((sum, i) => put(parts.row + i, sum));
      put(rows + at, `=SUM(${areaA1(parts, true)})`);
      below += sums.length;
    }
    return below;
  }

  /** The flags of a set, ranges where they stand together. */
  #addresses(set: bigint, from: string): readonly string[] {
    return [...this.#bySheet].flatMap(([sheet, { column }]) => {
      const flags = this.#listed(sheet).filter(({ number }) => ((set >> BigInt(number)) & 1n) === 1n);
      const runs: [number, number][] = [];
      for (const { at } of flags) {
        const last = runs.at(-1);
        if (last?.[1] === at - 1) last[1] = at;
        else runs.push([at, at]);
      }
      const prefix = sheet === from ? "" : `${quotedSheet(sheet)}!`;
      return runs.map(([from, to]) => {
        const area = { row: rows + from, column: column + 2, rows: to - from + 1, columns: 1 };
        return prefix + areaA1(area, true);
      });
    });
  }
}

interface Shared {
  readonly formulas: ReadonlyMap<string, CopiedFormula>;
  readonly staleness: Staleness;
  readonly changed: ChangedInputs;
  readonly functions: PortableFunctions;
  readonly facts: PortableFacts;
}

/** One sheet on its way into a copy. */
class Copying {
  readonly #one: SheetToCopy;
  readonly #shared: Shared;
  readonly #look: Look;
  readonly #planned: ReadonlyMap<string, PlannedCell>;
  readonly #counts = { computing: 0, staying: 0, warnings: 0 };
  readonly #why = { functions: 0, elsewhere: 0, arguments: 0, long: 0 };
  readonly #values = new Set<string>();

  constructor(one: SheetToCopy, shared: Shared) {
    this.#one = one;
    this.#shared = shared;
    this.#look = lookOf(one.snapshot, one.looks, one.recognised);
    this.#planned = new Map(one.recognised?.plan.cells.map((cell) => [`${cell.row} ${cell.column}`, cell]));
  }

  #plannedAt(row: number, column: number): PlannedCell | undefined {
    const { recognised } = this.#one;
    const [r, c] = [recognised?.rowPlanned(row), recognised?.columnPlanned(column)];
    return r === undefined || c === undefined ? undefined : this.#planned.get(`${r} ${c}`);
  }

  /** A cell of the original on its copy. */
  #cell(content: CellContent, row: number, column: number): PlannedCell | undefined {
    const { snapshot } = this.#one;
    const role = this.#look.roleAt(row, column);
    const { value, error, formula } = content;
    const shown = error ? error.code : value === "" ? null : value;
    if (formula === undefined && shown === null && role === undefined) return undefined;
    const planned = this.#plannedAt(row, column);
    const format = this.#look.formatAt(row, column);
    const base = {
      row: row + rows,
      column,
      role: role ?? plainRole(snapshot, row, column),
      ...(format !== undefined && { format }),
      ...(planned?.runsOn && { runsOn: true as const }),
    };
    if (formula !== undefined) {
      const copied = this.#formula(content, { sheet: snapshot.sheet, row, column }, base.role);
      if (copied.formula !== undefined) fitting(copied.formula, { ...base, sheet: snapshot.sheet });
      return { ...base, ...copied };
    }
    const lowered = planned?.lowered && planned.value === value ? { lowered: planned.lowered } : {};
    return { ...base, ...(shown !== null && { value: shown, ...lowered }) };
  }

  #formula({ value, error }: CellContent, place: Place, role: Role): Pick<PlannedCell, "formula" | "value" | "stays"> {
    const { formulas, staleness, changed, functions } = this.#shared;
    const copied = formulas.get(placeKey(place))!;
    const stale = changed.cellFor(staleness.staleAt(place), place.sheet);
    if (!copied.computes) {
      this.#counts.staying++;
      if (copied.warns) this.#counts.warnings++;
      this.#why[copied.why]++;
      for (const id of copied.ids) this.#values.add(id);
      if (stale !== undefined) return { formula: stayingFormula(value, error?.code, stale), stays: true };
      const kept = error ? error.code : value;
      return { ...(kept !== null && kept !== "" && { value: kept }), stays: true };
    }
    this.#counts.computing++;
    const own = copied.formula.slice(1);
    if (!verdicts.has(role)) {
      // A warning repeated elsewhere follows no more than the warning itself.
      if (role === "warning" && staleness.warnedAt(place) > 0n) return { formula: copied.formula, stays: true };
      if (stale === undefined || !hidesErrors(copied.formula)) return { formula: copied.formula };
      const instead = role === "bandText" ? writeNode(textNode(behindVerdict)) : "NA()";
      return { formula: `=IF(${stale}>0,${instead},${own})` };
    }
    const warned = role === "overall" ? changed.cellFor(staleness.warnedAt(place), place.sheet) : undefined;
    // Warnings do not follow: after a change nothing is OK before somebody has looked at the original.
    const gone = writeNode(textNode(outOfDate));
    const careful = warned === undefined ? own : functions.verdict(own, warned);
    return { formula: stale === undefined ? `=${careful}` : `=IF(${stale}>0,${gone},${careful})` };
  }

  /** Why cells of a row are refused, one behind the other. */
  #messages(row: number): string | undefined {
    const { snapshot } = this.#one;
    const parts: string[] = [];
    let length = 1;
    snapshot.cells[row]?.forEach((_, column) => {
      const copied = this.#shared.formulas.get(placeKey({ sheet: snapshot.sheet, row, column }));
      if (!copied?.computes || copied.calls.length === 0) return;
      const cell = a1({ row: row + rows, column }, true);
      const calls = copied.calls.map((call) =>
        writeNode(this.#shared.functions.message(a1({ row: row + rows, column }), call)),
      );
      const part = `IF(ISERROR(${cell}),${calls.map((call) => `IFERROR(${call},"")`).join("&")},"")`;
      if (length + part.length + 1 > longestFormula - 100) return;
      length += part.length + 1;
      parts.push(part);
    });
    return parts.length === 0 ? undefined : `=${parts.join("&")}`;
  }

  /** All cells but the lists beside the sheet. */
  write(): SheetWriter {
    const { snapshot } = this.#one;
    const w = new SheetWriter([...this.#look.widths, 2, 60, 2, 8, 10, 8, 8]);
    snapshot.cells.forEach((cells, row) => {
      cells.forEach((content, column) => {
        const cell = this.#cell(content, row, column);
        if (cell) w.cells.push(cell);
      });
      w.lines(rows + row, this.#look.linesAt(row));
      const messages = this.#messages(row);
      if (messages !== undefined) w.formula(rows + row, snapshot.columns + 1, "warning", messages);
    });
    w.spans.push(...this.#look.spans.map(down));
    return w;
  }

  #head(w: SheetWriter): void {
    const { snapshot, recognised } = this.#one;
    const { facts } = this.#shared;
    const last = Math.max(Math.min(snapshot.columns, recognised?.plan.columns ?? 12) - 1, 0);
    const { computing, staying, warnings, why, functions: computes, values } = this.#counted();
    const listed = (ids: readonly string[]): string => (ids.length === 0 ? "none" : ids.join(", "));
    const [beside, flags] = [columnLetters(snapshot.columns + 1), columnLetters(snapshot.columns + 3)];
    w.sentence(0, "title", `${computingCopy} “${snapshot.sheet}”`, 0, last);
    w.sentence(
      1,
      "note",
      `Made ${facts.when} in ${facts.host}, version ${version} of the functions. This copy computes without the add-in: ` +
        "its functions are names of this workbook that hold formulas (LAMBDA). Trust the verdict of the original over " +
        "anything shown here. After a change, check with the original.",
      0,
      last,
    );
    w.sentence(
      2,
      "note",
      `${computing} formulas compute, with ${computes.length} functions: ${listed(computes)}.`,
      0,
      last,
    );
    w.sentence(
      3,
      "note",
      `${staying} cells stay as they were, slanted on grey (${warnings} of them warnings and marks). ` +
        `${whyStaying({ why, values })} Once an input that such a value depends on is changed, it is #N/A here, and ` +
        `verdicts say ${outOfDate}. Warnings do not follow: after a change the overall verdict is never OK.`,
      0,
      last,
    );
    w.sentence(
      4,
      "note",
      `Column ${beside} says why a cell shows an error. From column ${flags} on stand the inputs as copied.` +
        (recognised
          ? ` Original: ${recognised.head.templateId} ${recognised.head.templateVersion}, content hash ${recognised.head.hash}.`
          : "") +
        (this.#one.without ? ` ${this.#one.without}` : ""),
      0,
      last,
    );
    w.sentence(5, "caution", `${cautions.competence} ${cautions.stressing}`, 0, last);
    w.put(rows - 1, snapshot.columns + 1, "heading", "messages of this row");
  }

  #counted(): PortableCounts {
    const functions = this.#shared.functions.ids();
    return { ...this.#counts, why: this.#why, functions, values: [...this.#values].sort() };
  }

  finished(w: SheetWriter): PortableCopy {
    const { snapshot, recognised } = this.#one;
    const { functions, changed } = this.#shared;
    const look = this.#look;
    this.#head(w);
    const beside = changed.write(w, snapshot.sheet);
    const high = Math.max(rows + snapshot.rows, beside);
    const titleRows: readonly [number, number] = look.titleRows
      ? [rows + look.titleRows[0], rows + look.titleRows[1]]
      : [0, 0];
    const plan = recognised?.plan;
    const moved = <T extends Area>(areas: readonly T[] = []): readonly T[] =>
      areas.flatMap((area) => {
        const now = recognised && areaNow(recognised, area);
        return now ? [down({ ...area, ...now })] : [];
      });
    const overall = plan && areaNow(recognised, { ...plan.summary.overall, rows: 1, columns: 1 });
    const everywhere: Highlight = {
      row: rows,
      column: 0,
      rows: snapshot.rows,
      columns: snapshot.columns,
      text: outOfDate,
      tone: "open",
    };
    const area = plan ? (areaNow(recognised, plan.print.area) ?? plan.print.area) : undefined;
    const printed: Area = area
      ? { ...area, row: 0, column: 0, rows: area.row + area.rows + rows, columns: area.column + area.columns }
      : { row: 0, column: 0, rows: rows + snapshot.rows, columns: Math.max(1, snapshot.columns) };
    const made = w.plan(high, {
      hashAt: { row: 0, column: snapshot.columns + 1 },
      template: {
        id: "computing-copy",
        version: recognised?.head.templateVersion ?? "–",
        title: `Computing copy of ${snapshot.sheet}`,
      },
      names: [...snapshot.names].flatMap(([name, place]) =>
        place?.sheet === snapshot.sheet
          ? [{ name, row: place.row + rows, column: place.column, rows: place.rows, columns: place.columns }]
          : [],
      ),
      functions: functions.planned(),
      validations: moved(plan?.validations),
      highlights: [everywhere, ...look.highlights.map(down)],
      ...(plan?.groups && { groups: plan.groups.map((group) => ({ ...group, row: group.row + rows })) }),
      unlocked: plan
        ? moved(plan.unlocked)
        : [{ row: rows, column: 0, rows: snapshot.rows, columns: Math.max(1, snapshot.columns) }],
      freeze: { rows: 1, columns: 0 },
      print: {
        area: printed,
        titleRows,
        orientation: plan?.print.orientation ?? "portrait",
        ...(plan?.print.scale !== undefined && { scale: plan.print.scale }),
        footer: "computing copy · {hash} · {sheet} · page {page} of {pages}",
        // The head of the copy has a page of its own; the pages of the original follow unchanged.
        breaks: [rows, ...(plan?.print.breaks?.map((row) => row + rows) ?? [])],
      },
      charts: look.charts.map((chart): PlannedChart => ({
        ...chart,
        at: down(chart.at),
        series: chart.series.map((one) => ({ ...one, x: down(one.x), y: down(one.y) })),
      })),
      meanings: [],
      summary: {
        overall: overall ? { row: overall.row + rows, column: overall.column } : { row: 0, column: 0 },
        checks: [],
        warnings: { row: 0, column: 0, rows: 0, columns: 1 },
      },
    });
    return { plan: withLogo(made, this.#one.logo, rows), counts: this.#counted() };
  }
}
