import type { Neighbour } from "./neighbours.ts";
import type { Unit } from "./units.ts";

/** What every parameter or result says about itself. */
interface Described {
  /** The trade's symbol; `_` starts a subscript, as in `σ_p0`. */
  readonly symbol: string;
  /** Meaning and sign, one line. */
  readonly text: string;
  /** Where a choice among the other arguments decides what this is and whether it is asked for at all. */
  readonly varies?: Varies;
}

/**
 * The argument that decides, and the parameter for each of its values; none where it is not asked for. It must then be
 * blank, or `ignored` says why it need not be.
 */
export interface Varies {
  readonly argument: string;
  readonly as: Readonly<Record<string, Parameter>>;
  readonly ignored?: string;
  /** Every value of the choice asks for it. */
  readonly always?: true;
}

/** The numbers a quantity may take, in its own unit. Outside them the value is refused. */
export interface Bounds {
  readonly min?: number;
  readonly max?: number;
  /** Exclusive lower bound. */
  readonly above?: number;
  /** Exclusive upper bound. */
  readonly below?: number;
  /** Why nothing larger is taken, of an upper bound so far out that it is told only where it is passed. */
  readonly because?: string;
}

/** A number with a unit. `reads` is the unit the equation works in: the coherent one unless said otherwise. */
export interface Quantity extends Described, Bounds {
  readonly kind: "number";
  /** Unique among quantities. */
  readonly key: string;
  /** A word that tells it from quantities of the same unit that look alike: two sorts never stand in for each other. */
  readonly sort?: string;
  /** The unit of the cell. */
  readonly unit: Unit;
  readonly reads?: Unit;
  /** Everyday range; a value outside it is computed with a warning. */
  readonly typical?: readonly [number, number];
  /** Where the everyday range holds 0: the smallest everyday size of any other value. */
  readonly smallest?: number;
  /** The units in which it is easily typed by mistake, where they are not those of its unit. */
  readonly neighbours?: readonly Neighbour[];
  /** The source's own validity; a value outside it is computed with a warning that names the source. */
  readonly valid?: { readonly range: readonly [number, number]; readonly where: string };
  /** Whole numbers only. */
  readonly whole?: true;
  /** Used where the cell is blank or the argument left out. */
  readonly default?: number;
  /** What a blank cell means, where it may stay blank. */
  readonly blank?: string;
  /** Where a choice among the other arguments decides which quantity this is. The unit then names all of them. */
  readonly follows?: Follows;
}

/** The argument that decides, and the quantity for each of its values. */
interface Follows {
  readonly argument: string;
  readonly as: Readonly<Record<string, Quantity>>;
}

export type Label = string | number;

/** One of a few named values. */
export interface Choice<V extends Label = Label> extends Described {
  readonly kind: "choice";
  readonly key: string;
  readonly values: readonly { readonly value: V; readonly text: string }[];
  readonly default?: NoInfer<V>;
  /** What a blank cell means, where it may stay blank. */
  readonly blank?: string;
}

/** Free text, such as the id of a function. */
interface Text extends Described {
  readonly kind: "text";
  readonly key: string;
  /** As it can be typed into a formula. */
  readonly example?: string;
}

/** A range of cells: one row a record, one column a field. */
export interface Table<C extends Columns = Columns> extends Described {
  readonly kind: "table";
  readonly key: string;
  readonly columns: C;
  readonly minRows: number;
  /** Where the work grows faster than the rows, or more of them describe nothing; without it `mostRows`. */
  readonly maxRows?: number;
  /** An optional table that is left out counts as one without rows. */
  readonly optional?: true;
  /** Where a choice decides whether it is used: with which of its values. */
  readonly blank?: string;
  /** Where the range may be one of several tables. `columns` and `minRows` are then those of the first; `maxRows` is that of all. */
  readonly kinds?: TableKinds;
}

/** The tables a range may be, and what tells from its cells which it is; `tell` refuses a range that it cannot tell. */
interface TableKinds<T extends Readonly<Record<string, Table>> = Readonly<Record<string, Table>>> {
  readonly tables: T;
  readonly tell: (rows: readonly (readonly unknown[])[], parameter: string) => string;
}

/** Rows of a range whose work grows with their number: a year of hourly readings fits. */
const mostRows = 10_000;

/** How many rows a range may have. */
export const rowsAllowed = ({ maxRows = mostRows }: Pick<Table, "maxRows">): number => maxRows;

export type Columns = Readonly<Record<string, Quantity | Choice>>;
export type Parameter = Quantity | Choice | Text | Table;
export type Parameters = Readonly<Record<string, Parameter>>;

type ScalarOf<P> = P extends Choice<infer V> ? V : P extends Quantity ? number : string;
type BlankOf<P> = P extends { readonly blank: string } ? undefined : never;
type RowsOf<C> = readonly { readonly [K in keyof C]: ScalarOf<C[K]> }[];
/** The rows of a range together with the table it is. */
type ToldOf<T> = { [K in keyof T]: T[K] extends Table<infer C> ? { readonly is: K; readonly rows: RowsOf<C> } : never };
/** The value of a parameter as `compute` sees it. */
export type ValueOf<P> = P extends { readonly kinds: TableKinds<infer T> }
  ? ToldOf<T>[keyof T]
  : P extends Table<infer C>
    ? RowsOf<C>
    : ScalarOf<P> | BlankOf<P>;
/** The arguments of `compute`, by name. */
export type Values<P extends Parameters> = { readonly [K in keyof P]: ValueOf<P[K]> };
/** The arguments of a call whatever its parameters are. */
export type AnyValues = Values<Parameters>;

/**
 * The same quantity under another symbol, text, default or range, as one formula needs it. A new bound takes the place
 * of the old one on its side.
 */
export function as(quantity: Quantity, changes: Partial<Omit<Quantity, "kind" | "key" | "unit">>): Quantity {
  const { min, above, max, below, because, ...rest } = quantity;
  const low =
    changes.min === undefined && changes.above === undefined
      ? { ...(min !== undefined && { min }), ...(above !== undefined && { above }) }
      : {};
  const high =
    changes.max === undefined && changes.below === undefined
      ? {
          ...(max !== undefined && { max }),
          ...(below !== undefined && { below }),
          ...(because !== undefined && { because }),
        }
      : {};
  return { ...rest, ...low, ...high, ...changes };
}

export function choice<const V extends Label>(spec: Omit<Choice<V>, "kind">): Choice<V> {
  return { kind: "choice", ...spec };
}

export function table<const C extends Columns>(spec: Omit<Table<C>, "kind">): Table<C> {
  return { kind: "table", ...spec };
}

/** A range that may be any of several tables. */
export function oneOf<const T extends Readonly<Record<string, Table>>>(spec: {
  readonly key: string;
  readonly symbol: string;
  readonly text: string;
  readonly tables: T;
  readonly tell: (rows: readonly (readonly unknown[])[], parameter: string) => keyof T & string;
}): Omit<Table, "kinds"> & { readonly kinds: TableKinds<T> } {
  const { tables, tell, ...rest } = spec;
  const first = Object.values(tables)[0]!;
  const most = Math.max(...Object.values(tables).map(rowsAllowed));
  const { columns, minRows } = first;
  return { kind: "table", ...rest, columns, minRows, maxRows: most, kinds: { tables, tell } };
}

/** A quantity or choice whose cell may stay blank; `blank` says what that means. */
export function orBlank<const P extends Quantity | Choice>(
  parameter: P,
  blank: string,
): P & { readonly blank: string } {
  return { ...parameter, blank };
}

export function text(spec: Omit<Text, "kind">): Text {
  return { kind: "text", ...spec };
}

/** What a blank cell means, or when the argument is used at all; empty where it may not stay blank. */
export function blankText(parameter: Parameter, says = "blank: "): string {
  const blank = "blank" in parameter ? parameter.blank : undefined;
  if (blank === undefined) return "";
  return parameter.varies && !parameter.varies.always ? blank : `${says}${blank}`;
}

/** May the argument be left out? */
export function isOptional(parameter: Parameter): boolean {
  if (parameter.kind === "table") return parameter.optional === true;
  return parameter.kind !== "text" && (parameter.default !== undefined || parameter.blank !== undefined);
}

/** Does the choice among these values leave the argument out? */
export function isUnused({ varies }: Parameter, values: Readonly<Record<string, unknown>>): boolean {
  return varies !== undefined && !varies.as[String(values[varies.argument])];
}

/** The quantity that a parameter or column is where its argument's neighbours have these values: its own unit and bounds. */
function quantityFor(q: Quantity, values: Readonly<Record<string, unknown>>): Quantity {
  const as = q.follows?.as[String(values[q.follows.argument])];
  return as ? { ...as, ...(q.blank !== undefined && { blank: q.blank }) } : q;
}

/** A parameter as it is for the values of the other arguments: the quantity that a choice decides, columns alike. */
export function inForce<P extends Parameter>(parameter: P, values: Readonly<Record<string, unknown>>): P;
export function inForce(parameter: Parameter, values: Readonly<Record<string, unknown>>): Parameter {
  if (parameter.varies) {
    const own = parameter.varies.as[String(values[parameter.varies.argument])];
    return own ? inForce(own, values) : parameter;
  }
  if (parameter.kind === "number") return quantityFor(parameter, values);
  if (parameter.kind !== "table") return parameter;
  const columns = Object.entries(parameter.columns).map(([name, column]) => [name, inForce(column, values)] as const);
  return { ...parameter, columns: Object.fromEntries(columns) };
}

/** On which side a finite number leaves the bounds; undefined where it keeps to them. */
export function outside(bounds: Bounds, value: number): "below" | "above" | undefined {
  // A bound that is not there compares false.
  if (value < bounds.min! || value <= bounds.above!) return "below";
  if (value > bounds.max! || value >= bounds.below!) return "above";
  return undefined;
}

/** What follows the upper bound in the refusal of a larger value. */
export function beyondText(bounds: Bounds & { readonly unit: Unit }): string {
  if (bounds.because !== undefined) return `, ${bounds.because}; allowed: up to that`;
  return `; allowed: ${allowedText(bounds)}`;
}

/** "0 to 1 1/rad", "above 0 MPa": the allowed range of a quantity in words; empty where anything goes. */
export function allowedText(bounds: Bounds & { readonly unit: Unit }): string {
  const unit = bounds.unit === "–" ? "" : ` ${bounds.unit}`;
  const low = bounds.min ?? bounds.above;
  const high = bounds.because === undefined ? (bounds.max ?? bounds.below) : undefined;
  const from =
    bounds.above !== undefined && bounds.min === undefined
      ? `above ${format(bounds.above)}`
      : low === undefined
        ? ""
        : format(low);
  const to =
    bounds.below !== undefined && bounds.max === undefined
      ? `below ${format(bounds.below)}`
      : high === undefined
        ? ""
        : format(high);
  if (from && to)
    return bounds.above === undefined && bounds.below === undefined
      ? `${from} to ${to}${unit}`
      : `${from} and ${bounds.below === undefined ? "at most " : ""}${to}${unit}`;
  if (from) return `${bounds.above === undefined ? "at least " : ""}${from}${unit}`;
  if (to) return `${bounds.below === undefined ? "at most " : ""}${to}${unit}`;
  return "";
}

type Everyday = Pick<Quantity, "typical" | "smallest">;

/** "0.15 to 0.25 1/rad", "0 or 0.1 to 8 m": what a quantity is on most jobs; empty where none is declared. */
export function everydayText({ typical, smallest, unit }: Everyday & Pick<Quantity, "unit">): string {
  if (!typical) return "";
  const [min, max] = typical;
  if (smallest === undefined) return allowedText({ unit, min, max });
  if (min === 0) return `0 or ${allowedText({ unit, min: smallest, max })}`;
  return `${allowedText({ unit, min, max })}, and 0 or at least ${format(smallest)} in size`;
}

/** So much smaller than the smallest everyday value that it is 0, with what adding up left of it. */
const nothing = 1e-7;

/** On which side an allowed value lies outside the everyday range, in the quantity's own unit; undefined where it does not. */
export function unusual({ typical, smallest }: Everyday, value: number): "below" | "above" | "small" | undefined {
  if (!typical) return undefined;
  if (value < typical[0]) return "below";
  if (value > typical[1]) return "above";
  const size = Math.abs(value);
  return smallest !== undefined && size < smallest && size > smallest * nothing ? "small" : undefined;
}

/** Whether an allowed value lies outside the everyday range, in the quantity's own unit. */
export function isUnusual(quantity: Everyday, value: number): boolean {
  return unusual(quantity, value) !== undefined;
}

/** A number for a message: up to six significant digits, a true minus sign, powers of ten from ten million on. */
export function format(value: number): string {
  const rounded = Number(value.toPrecision(6));
  const power = Math.floor(Math.log10(Math.abs(rounded)));
  const text = power >= 7 ? `${Number((rounded / 10 ** power).toPrecision(6))}·10^${power}` : String(rounded);
  return text.replace(/-/g, "−");
}
