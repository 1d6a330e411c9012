import { InputError } from "./errors.ts";
import type { Declaration, Formula } from "./formula.ts";
import {
  allowedText,
  beyondText,
  format,
  inForce,
  isOptional,
  isUnused,
  outside,
  rowsAllowed,
  type AnyValues,
  type Choice,
  type Parameter,
  type Quantity,
  type Table,
} from "./parameters.ts";
import { neighbourHint } from "./neighbours.ts";
import { coherentUnit, unitFactor } from "./units.ts";

/** What a cell can hold. */
export type Cell = number | string | boolean | null | undefined;
/** What an argument can be: a cell or a range of rows. */
export type Argument = Cell | readonly (readonly Cell[])[];

/** A parameter made ready for repeated reading. */
export interface Reader {
  readonly name: string;
  readonly parameter: Parameter;
  readonly factor: number;
  /** What it takes follows from another argument, which is read first. */
  readonly waits: boolean;
  /**
   * A plain number strictly between these is within bounds; whatever else there is to say is left to `readArgument`.
   * NaN where no number will do.
   */
  readonly low: number;
  readonly high: number;
}

/** The factor from the cell's unit to the unit the equation reads. */
export function readFactor(quantity: Pick<Quantity, "unit" | "reads">): number {
  return unitFactor(quantity.unit, quantity.reads ?? coherentUnit(quantity.unit));
}

/** Does what the parameter takes follow from another argument? */
function waits(parameter: Parameter): boolean {
  if (parameter.varies) return true;
  if (parameter.kind === "number") return parameter.follows !== undefined;
  if (parameter.kind !== "table") return false;
  return [parameter, ...Object.values(parameter.kinds?.tables ?? {})].some(({ columns }) =>
    Object.values(columns).some((column) => column.kind === "number" && column.follows !== undefined),
  );
}

export function readers(f: Declaration): readonly Reader[] {
  return Object.entries(f.params).map(([name, parameter]) => {
    const later = waits(parameter);
    if (parameter.kind !== "number") return { name, parameter, factor: 1, waits: later, low: NaN, high: NaN };
    const plain = !parameter.whole && !later;
    return {
      name,
      parameter,
      factor: readFactor(parameter),
      waits: later,
      low: plain ? Math.max(parameter.min ?? -Infinity, parameter.above ?? -Infinity) : NaN,
      high: Math.min(parameter.max ?? Infinity, parameter.below ?? Infinity),
    };
  });
}

/** "μ (friction coefficient)": how a message names an input. */
export function nameOf(p: { readonly symbol: string; readonly text: string }): string {
  return `${p.symbol.replace(/_/g, "")} (${p.text})`;
}

function inUnit(value: number, q: Quantity): string {
  return q.unit === "–" ? format(value) : `${format(value)} ${q.unit}`;
}

/** The message with the unit the value was probably typed in, where there is room for it. */
function hinted(message: string, q: Quantity, value: number): string {
  const hint = neighbourHint(q, value);
  const whole = `${message}. ${hint}`;
  return hint === "" || whole.length > shownCharacters ? message : whole;
}

/** A number within the quantity's bounds, or an InputError; `where` names the row of a range. */
function readNumber(cell: Cell, q: Quantity, parameter: string, where = ""): number {
  if (typeof cell === "number") {
    if (!Number.isFinite(cell))
      throw new InputError(
        parameter,
        `${nameOf(q)}${where} is not a finite number; a number${q.unit === "–" ? "" : ` in ${q.unit}`} is needed`,
      );
    const side = outside(q, cell);
    if (side === "below")
      throw new InputError(
        parameter,
        hinted(
          `${nameOf(q)}${where} = ${inUnit(cell, q)} is ${cell === q.above ? "not above" : "below"} ` +
            `${inUnit(q.min ?? q.above!, q)}; allowed: ${allowedText(q)}`,
          q,
          cell,
        ),
      );
    if (side === "above")
      throw new InputError(
        parameter,
        hinted(
          `${nameOf(q)}${where} = ${inUnit(cell, q)} is ${cell === q.below ? "not below" : "above"} ` +
            `${inUnit(q.max ?? q.below!, q)}${beyondText(q)}`,
          q,
          cell,
        ),
      );
    if (q.whole && !Number.isInteger(cell))
      throw new InputError(
        parameter,
        `${nameOf(q)}${where} = ${inUnit(cell, q)} is not a whole number; allowed: whole numbers, ${allowedText(q)}`,
      );
    return cell;
  }
  if (cell === null || cell === undefined || cell === "") {
    if (q.default !== undefined) return q.default;
    const allowed = allowedText(q);
    throw new InputError(
      parameter,
      `${nameOf(q)}${where} is missing; a number${q.unit === "–" ? "" : ` in ${q.unit}`} is needed${allowed && ` (allowed: ${allowed})`}`,
    );
  }
  const shown = typeof cell === "boolean" ? String(cell).toUpperCase() : `the text ${quoted(cell)}`;
  throw new InputError(
    parameter,
    `${nameOf(q)}${where} is ${shown}; a number${q.unit === "–" ? "" : ` in ${q.unit}`} is needed`,
  );
}

export function readChoice(cell: Cell, c: Choice, parameter: string, where = ""): string | number {
  if (cell === null || cell === undefined || cell === "") {
    if (c.default !== undefined) return c.default;
    throw new InputError(parameter, fitting(`${nameOf(c)}${where} is missing; allowed: `, choices(c)));
  }
  const wanted = String(cell).trim().toUpperCase();
  for (const { value } of c.values) if (String(value).toUpperCase() === wanted) return value;
  throw new InputError(
    parameter,
    fitting(`${nameOf(c)}${where} = ${quoted(cell)} is not one of the choices; allowed: `, choices(c)),
  );
}

/** Spreadsheet programs show so many characters of a message at least; some cut it there. */
const shownCharacters = 255;

/** The first list of words that fits behind the head; where none does, as much of the last as there is room for. */
function fitting(head: string, lists: readonly (readonly string[])[]): string {
  for (const words of lists) {
    const whole = head + words.join(", ");
    if (whole.length <= shownCharacters) return whole;
  }
  const words = [...lists.at(-1)!];
  const cut = (): string => `${head}${words.join(", ")}, … (${lists.at(-1)!.length - words.length} more)`;
  while (words.length > 1 && cut().length > shownCharacters) words.pop();
  return cut();
}

/** What a cell holds, as a message repeats it. */
function quoted(cell: Cell): string {
  const text = String(cell);
  return `“${text.length > 40 ? `${text.slice(0, 39)}…` : text}”`;
}

function choices(c: Choice): readonly (readonly string[])[] {
  return [c.values.map(({ value, text }) => `${value} (${text})`), c.values.map(({ value }) => String(value))];
}

const isBlank = (cell: Cell): boolean => cell === null || cell === undefined || cell === "";

/** The rows of a range without the blank ones at its end. */
function rowsOf(argument: Argument): readonly (readonly Cell[])[] {
  if (!Array.isArray(argument)) return isBlank(argument as Cell) ? [] : [[argument as Cell]];
  const rows = argument as readonly (readonly Cell[])[];
  let last = rows.length;
  while (last > 0 && rows[last - 1]!.every(isBlank)) last--;
  return rows.slice(0, last);
}

/** What a range holds: its rows, and where it may be one of several tables which of them. */
function readRange(
  argument: Argument,
  t: Table,
  parameter: string,
  values: Readonly<Record<string, unknown>>,
): unknown {
  const rows = rowsOf(argument);
  if (rows.length > rowsAllowed(t)) throw tooMany(rows.length, t, parameter);
  if (!t.kinds || rows.length === 0) return readTable(rows, inForce(t, values), parameter);
  const is = t.kinds.tell(rows, parameter);
  return { is, rows: readTable(rows, inForce(t.kinds.tables[is]!, values), parameter) };
}

function tooMany(count: number, t: Table, parameter: string): InputError {
  return new InputError(parameter, `${nameOf(t)} has ${count} rows; at most ${rowsAllowed(t)} are allowed`);
}

function readTable(rows: readonly (readonly Cell[])[], t: Table, parameter: string): unknown {
  const names = Object.keys(t.columns);
  const titles = [names.map((n) => nameOf(t.columns[n]!)), names.map((n) => t.columns[n]!.symbol.replace(/_/g, ""))];
  const factors = names.map((n) => {
    const column = t.columns[n]!;
    return column.kind === "number" ? readFactor(column) : 1;
  });
  const out: Record<string, unknown>[] = [];
  for (const [r, row] of rows.entries()) {
    if (row.length !== names.length)
      throw new InputError(
        parameter,
        fitting(
          `${nameOf(t)} is a range of ${row.length} column${row.length === 1 ? "" : "s"}; ${names.length} ` +
            `${names.length === 1 ? "is" : "are"} needed: `,
          titles,
        ),
      );
    const where = ` in row ${r + 1} of the range`;
    const record: Record<string, unknown> = {};
    names.forEach((n, i) => {
      const column = t.columns[n]!;
      record[n] =
        column.kind === "number"
          ? readNumber(row[i], column, parameter, where) * factors[i]!
          : readChoice(row[i], column, parameter, where);
    });
    out.push(record);
  }
  if (out.length === 0 && t.optional) return out;
  if (out.length < t.minRows)
    throw new InputError(
      parameter,
      fitting(
        `${nameOf(t)} has ${out.length} row${out.length === 1 ? "" : "s"}; at least ${t.minRows} ` +
          `${t.minRows === 1 ? "is" : "are"} needed, each with `,
        titles,
      ),
    );
  return out;
}

function single(argument: Argument, parameter: string, name: string): Cell {
  if (!Array.isArray(argument)) return argument as Cell;
  const rows = argument as readonly (readonly Cell[])[];
  if (rows.length === 1 && rows[0]!.length === 1) return rows[0]![0];
  throw new InputError(
    parameter,
    `${name} is a range of ${rows.length} × ${rows[0]?.length ?? 0} cells; one cell is needed`,
  );
}

/** Blank, or 0: some programs hand a blank cell over as 0. */
function holdsNothing(argument: Argument): boolean {
  if (Array.isArray(argument))
    return (argument as readonly (readonly Argument[])[]).every((row) => row.every(holdsNothing));
  return argument === 0 || argument === null || argument === undefined || argument === "";
}

/** What an argument that is not used holds, as its refusal repeats it; nothing where it is a range or no finite number. */
function shownValue(argument: Argument, parameter: Parameter): string {
  const rows = rowsOf(argument);
  if (rows.length !== 1 || rows[0]!.length !== 1) return "";
  const cell = rows[0]![0];
  if (typeof cell === "number" && !Number.isFinite(cell)) return "";
  if (typeof cell === "number" && parameter.kind === "number") return ` = ${inUnit(cell, parameter)}`;
  if (typeof cell === "boolean") return ` = ${String(cell).toUpperCase()}`;
  return typeof cell === "number" ? ` = ${format(cell)}` : ` = ${quoted(cell)}`;
}

/** What the choice made does not ask for must be blank: a value there means another choice, or another result than given. */
function refuseUnused(
  argument: Argument,
  parameter: Parameter,
  name: string,
  values: Readonly<Record<string, unknown>>,
): void {
  const { varies } = parameter;
  if (varies!.ignored !== undefined || holdsNothing(argument)) return;
  const choice = `${varies!.argument} ${String(values[varies!.argument])}`;
  const rest = `${shownValue(argument, parameter)} is not used with ${choice}; leave it blank`;
  const whole = nameOf(parameter) + rest;
  throw new InputError(name, whole.length <= shownCharacters ? whole : `${parameter.symbol.replace(/_/g, "")}${rest}`);
}

/** The argument of one parameter in the unit the equation reads; undefined where it is blank and may be. */
export function readArgument(
  argument: Argument,
  { name, parameter: declared, factor }: Reader,
  values: Readonly<Record<string, unknown>>,
): unknown {
  if (isUnused(declared, values)) {
    refuseUnused(argument, declared, name, values);
    return declared.kind === "table" ? [] : undefined;
  }
  const parameter = inForce(declared, values);
  switch (parameter.kind) {
    case "number": {
      const cell = typeof argument === "number" ? argument : single(argument, name, nameOf(parameter));
      if (parameter.blank !== undefined && isBlank(cell)) return undefined;
      return readNumber(cell, parameter, name) * (parameter === declared ? factor : readFactor(parameter));
    }
    case "choice": {
      const cell = single(argument, name, nameOf(parameter));
      return parameter.blank !== undefined && isBlank(cell) ? undefined : readChoice(cell, parameter, name);
    }
    case "table":
      return readRange(argument, parameter, name, values);
    case "text": {
      const cell = single(argument, name, nameOf(parameter));
      if (isBlank(cell)) throw new InputError(name, `${nameOf(parameter)} is missing; a text is needed`);
      return String(cell);
    }
  }
}

/** The table that a range is by its cells; where they do not tell, the parameter as declared. */
function toldBy(argument: Argument, parameter: Parameter, name: string): Parameter {
  if (parameter.kind !== "table" || !parameter.kinds) return parameter;
  const rows = rowsOf(argument);
  if (rows.length === 0 || rows.length > rowsAllowed(parameter)) return parameter;
  try {
    return parameter.kinds.tables[parameter.kinds.tell(rows, name)]!;
  } catch (problem) {
    if (problem instanceof InputError) return parameter;
    throw problem;
  }
}

function choiceGiven(argument: Argument, parameter: Parameter): unknown {
  if (parameter.kind !== "choice") return undefined;
  const rows = Array.isArray(argument) ? (argument as readonly (readonly Cell[])[]) : [[argument as Cell]];
  if (rows.length !== 1 || rows[0]!.length !== 1) return undefined;
  const cell = rows[0]![0];
  if (isBlank(cell)) return parameter.default;
  const given = String(cell).trim().toUpperCase();
  return parameter.values.find(({ value }) => String(value).toUpperCase() === given)?.value;
}

/** The choices among the arguments of a call, by name; undefined for the others. */
export function choicesGiven(
  { params }: Pick<Declaration, "params">,
  args: readonly Argument[],
): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(params).map(([name, p], i) => [name, choiceGiven(args[i], p)]));
}

/**
 * The parameters as they are in a call with these arguments, whether or not it is refused: the quantity a choice
 * decides, the table a range is.
 */
export function parametersFor(
  { params }: Pick<Declaration, "params">,
  args: readonly Argument[],
): readonly Parameter[] {
  const all = Object.entries(params);
  const values = choicesGiven({ params }, args);
  return all.map(([name, p], i) => inForce(toldBy(args[i], p, name), values));
}

/**
 * The formula that a call with these arguments is, whether or not it is refused; without steps where the choice that
 * decides is not given.
 */
export function formulaIn(f: Formula, args: readonly Argument[]): Formula {
  if (!f.variants) return f;
  const { argument, as } = f.variants;
  return as[String(choicesGiven(f, args)[argument])] ?? f;
}

/** How many arguments a formula takes: at least, at most. */
export function argumentCount(f: Declaration): readonly [number, number] {
  const all = Object.values(f.params);
  return [all.reduce((least, p, i) => (isOptional(p) ? least : i + 1), 0), all.length];
}

/** Refuses what the other arguments forbid. */
export function checkLimits(f: Declaration, values: AnyValues): void {
  if (!f.limits) return;
  const limits = f.limits(values);
  for (const [name, limit] of Object.entries(limits)) {
    if (!limit) continue;
    const value = values[name] as number;
    const q = inForce(f.params[name] as Quantity, values);
    const factor = readFactor(q);
    const { min, max } = limit;
    const side = outside(limit, value);
    if (side) {
      const bounds = {
        unit: q.unit,
        ...(min !== undefined
          ? { min: min / factor }
          : { ...(q.min !== undefined && { min: q.min }), ...(q.above !== undefined && { above: q.above }) }),
        ...(max !== undefined
          ? { max: max / factor }
          : q.max !== undefined && q.because === undefined && { max: q.max }),
      };
      throw new InputError(
        name,
        `${nameOf(q)} = ${inUnit(value / factor, q)} is ${side} ` +
          `${inUnit((side === "below" ? min! : max!) / factor, q)}, ${limit.because}; allowed: ` +
          `${allowedText(bounds)}`,
      );
    }
  }
}
