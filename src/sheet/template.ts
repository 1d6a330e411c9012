import type { Logo } from "./logo.ts";

/**
 * The template as its JSON file says it. A template is data: blocks of rows and tables whose formulas name other rows
 * by id. The JSON Schema of the same shape stands in template.schema.json.
 *
 * In formulas `{id}` stands for an address:
 * - a row's or a shape input's id: its value cell;
 * - a table column's id: the cell of the same row from the same table; from another table, whose dimensions must hold
 * all of the column's, the cell of the matching members (from a table over tendon and station, a column of the table
 * over tendon gives that tendon's cell). Members match by dimension, `within` by its place in the whole; the rows of a
 * table match the dimension that counts them with `rowsOf`, which is the only way to match a table that has `parts`;
 * - `{id[]}`: the column's cells for the members in common, which must be its outer dimensions; all of them where none
 * is in common. Where every dimension is in common the innermost is left free (from tendon and station: all stations of
 * that tendon);
 * - `{a:b[]}`: the same for the columns from a to b; `{a:b[*]}`: whole columns;
 * - `{id[first]}`, `{id[last]}`: the first and last cell of `{id[]}`; `{id[*]}`: the whole column, parts included;
 * - `{id[-1]}`: the row above in the same table (from its first row: the heading's cell above, so ask for the first row
 * before);
 * - `{count:WORD}`: how many verdict and status cells of the sheet above say WORD (it may have spaces: `{count:OUT OF
 * RANGE}`); `{count:error}`: how many of them hold an error; `{count:warnings}`: how many warnings the sheet lists,
 * wherever it lists them;
 * - `{warningsCode}`: a short code of the warnings listed, another as soon as one comes, goes or changes;
 * - `{inputs:WORD}`: numbers and symbols of the inputs above whose status is WORD, each with a comma behind it;
 * - `{assumptions}`: how many inputs nobody has confirmed, by the words beside them in the column of marks;
 * - `{failing}`: numbers and titles of the rows and tables above of which a verdict says FAIL;
 * - `{shapeChanged}`: TRUE where a shape input differs from what the sheet was built with.
 * Index columns say a member's number (`"index": "tendon"`). Anything else is the spreadsheet's own formula language,
 * with or without a leading `=`. Addresses are not typed into formulas, nor numbers other than 0 to 5: these stand in a
 * row of their own, or in a relation, whose message says them. Verdicts say OK, FAIL, LIMIT MISSING or OPEN (OK is
 * withheld for the reason beside it). Where a sheet has a row `pass`, its word stands in place of OK in every verdict, so
 * that none says OK while an input is missing. Inputs have a status of their own: filled in, default (its value is the template's),
 * left empty, MISSING, OUT OF RANGE, CONFLICT (`relations`: what must hold between inputs), or UNUSUAL for a value
 * outside the everyday range of its quantity.
 * A template with a `source` is linked: rows and columns with `taken` hold formulas to the named cells of a sheet of the
 * source template. In its file `{ "take": "id" }` stands for such a row or column, with the source's words (links.ts); its
 * shape is the source's, and dimensions that are the source's say `ofSource`.
 * Templates share parts: wherever an array of a template's file holds `{ "use": "name" }`, the members of that shared
 * part stand instead (compose.ts).
 * Ids are names on the sheet, so two that differ only in upper and lower case are the same id. An id may stand at
 * several places whose `when` exclude each other.
 */
export interface Template {
  readonly id: string;
  readonly version: string;
  readonly title: string;
  /** One line for the list of templates. */
  readonly line: string;
  readonly standard: string;
  readonly method: string;
  /** Units and signs, scope, cautions: sentences for the head of the sheet. */
  readonly conventions: readonly string[];
  readonly cautions: readonly string[];
  /** The kind of sheet that a linked sheet takes values from. */
  readonly source?: Source;
  /** Inputs that decide which rows there are: locked on the sheet. */
  readonly shape: readonly ShapeInput[];
  readonly dimensions: Readonly<Record<string, Dimension>>;
  readonly blocks: readonly Block[];
  readonly charts: readonly ChartSpec[];
  /** What must hold between inputs. */
  readonly relations?: readonly Relation[];
  /** Of a template of an office: who answers for it. */
  readonly office?: string;
  /** On the first page of its sheets; it goes before that of the office's defaults. */
  readonly logo?: Logo;
  /** The template whose sheet it was made from. */
  readonly madeFrom?: { readonly template: string; readonly version: string };
  /** Ids of rows and columns that may not be changed on a sheet: an input among them keeps its default. */
  readonly locked?: readonly string[];
  /** An invented example: values by input id; arrays (nested by dimension) for table inputs. */
  readonly example: {
    readonly name: string;
    readonly note: string;
    readonly inputs: Readonly<Record<string, InputValue>>;
    /** Of a linked template: inputs of its source that this example needs in place of those of the source's own. */
    readonly source?: Readonly<Record<string, InputValue>>;
  };
}
export type InputValue = string | number | null | readonly InputValue[];

export interface Source {
  /** What people call such a sheet: "stress check". */
  readonly name: string;
  readonly template: Template;
}

export interface ShapeInput {
  readonly id: string;
  readonly text: string;
  readonly symbol: string;
  readonly default: number | string;
  readonly min?: number;
  readonly max?: number;
  readonly choices?: readonly { readonly value: string; readonly text: string }[];
}

export type Dimension =
  /** As many members as a shape input says, plus some. */
  | { readonly count: string; readonly plus?: number; readonly label: string }
  /** A fixed number of members. */
  | { readonly size: number; readonly label: string }
  /** As many members as a table has rows. */
  | { readonly rowsOf: string; readonly label: string }
  /** The members of another dimension without the first and last few. */
  | { readonly within: string; readonly skipFirst: number; readonly skipLast: number; readonly label: string }
  /** The members of a dimension of the source template. */
  | { readonly ofSource: string; readonly label: string }
  /** Named members. */
  | {
      readonly members: readonly { readonly id: string; readonly text: string; readonly when?: Condition }[];
      readonly label: string;
    };

/** A shape input and the value it must have. */
export type Condition = Readonly<Record<string, string | number>>;

export interface Block {
  readonly id: string;
  readonly title: string;
  readonly note?: string;
  readonly when?: Condition;
  /** On the first page, without a number: its rows stand two in a line, its notes in one paragraph. */
  readonly front?: true;
  /**
   * What a reader of the document needs: ids of rows, tables (then all their columns), columns and charts. Inputs, checks
   * of the summary and rows that count over the sheet are read here too; all else of the block goes to the workings at the
   * end of the sheet, which are not printed. Without it everything is a result.
   */
  readonly results?: readonly string[];
  readonly items: readonly Item[];
}
export type Item = Row | NoteItem | TableItem | WarningsItem | FrontItem | AcrossItem;

/**
 * On the first page: the checks of the summary, failed ones first; as many of the warnings that apply as `lines` says;
 * or the charts named, two in a line.
 */
export interface FrontItem {
  readonly front: "checks" | "warnings" | "charts";
  readonly title?: string;
  readonly lines?: number;
  readonly charts?: readonly string[];
  /** Row that lists the inputs missing: while it lists any, checks without a value say so, and show no errors. */
  readonly missing?: string;
  readonly when?: Condition;
}

/**
 * Columns of a table over two dimensions, read across: one after the other, each with a line for every member of the inner
 * dimension and a column for every one of the outer, by its number. It only shows what the table holds.
 */
export interface AcrossItem {
  /** Ids of the columns; those of one item are of one table. */
  readonly across: readonly string[];
  readonly title: string;
  /** Column of a table over the inner dimension that tells the lines apart: x. */
  readonly lead: string;
  readonly when?: Condition;
}

/**
 * Here stand the warnings: of every input with an everyday range, of every row with one function call, and of the
 * columns with `warnAt`.
 */
export interface WarningsItem {
  readonly warnings: true;
  readonly when?: Condition;
}

export interface NoteItem {
  readonly note: string;
  readonly caution?: true;
  readonly when?: Condition;
}

/**
 * Inputs that belong together. Where `holds` is false the input `of` gets the status CONFLICT, with the message beside
 * it. In a table each row is judged. A relation is judged once the numbers it reads are given, and only on sheets that
 * have everything it names.
 */
export interface Relation {
  readonly of: string;
  /** A condition in the language of formulas: `{tq}>={tg}`. */
  readonly holds: string;
  /**
   * What is wrong, what is allowed, what to do. `{id}` becomes symbol, value and unit: "t_q = 5 days". It names two
   * values at least: both sides.
   */
  readonly message: string;
  /**
   * Where it does not hold the sheet only warns: the values are allowed together, but seldom meant. Of single inputs
   * alone, and one value named is enough.
   */
  readonly warns?: true;
}

export interface InputSpec {
  /** Blank and required by default: an input without default must be typed. */
  readonly default?: number | string;
  readonly min?: number;
  readonly max?: number;
  readonly above?: number;
  readonly below?: number;
  /** A count: whole numbers alone. A quantity may ask for that itself. */
  readonly whole?: true;
  readonly choices?: readonly { readonly value: string | number; readonly text: string }[];
  /** Free text such as a name or date: never judged. */
  readonly freeText?: true;
  /** May stay empty: whatever needs it then says LIMIT MISSING. */
  readonly mayBeEmpty?: true;
  /** A condition in the language of formulas: where it holds, an input that may stay empty must be given. */
  readonly neededWhere?: string;
  /** A number that is known elsewhere: the sheet warns of a value beyond `from` and `to`, and names both. */
  readonly near?: Neighbour;
}

/** What another edition, or another standard, has in place of a number that is entered. */
export interface Neighbour {
  readonly value: number | string;
  /** Beyond these the value is not refused, but is seldom meant. */
  readonly from: number;
  readonly to: number;
  /** Whose number it is: "IS 1343:1980". */
  readonly of: string;
}

/** What a row or column says about its value. `quantity` takes symbol, unit, text and bounds from the core; the rest overrides. */
export interface Saying {
  readonly id: string;
  readonly quantity?: string;
  readonly text?: string;
  readonly symbol?: string;
  readonly unit?: string;
  readonly format?: string;
  readonly source?: string;
  /** "Equation as read", where it does not follow from the formula. */
  readonly equation?: string;
}

export interface Row extends Saying {
  readonly when?: Condition;
  readonly input?: InputSpec;
  readonly formula?: string;
  /** Its value is that of this row of the source. */
  readonly taken?: string;
  /** Formula of the verdict cell: OK, FAIL or LIMIT MISSING. */
  readonly verdict?: string;
  /**
   * Puts the row into the summary: its value is a utilisation; formula of the place where it governs, which stands in
   * the source column.
   */
  readonly summary?: {
    /** What the first page calls it, where the row's text is too long for it. */
    readonly name?: string;
    readonly where?: string;
    /** What is checked and what it may be, in `unit`, where it governs; formulas. */
    readonly value?: string;
    readonly limit?: string;
    readonly unit?: string;
    /** It only gathers the verdicts of others: it is no check by itself, and is listed where it does not pass. */
    readonly aside?: true;
  };
  readonly overall?: true;
  /** Its value is a sentence: it has the room of symbol, unit and formula, which stands beneath. */
  readonly words?: true;
}

/**
 * Holds one of: formula, input, taken, index, memberText, cells, record. Columns fill the page from the left; what has no
 * room goes on below.
 */
export interface Column extends Saying {
  readonly when?: Condition;
  readonly formula?: string;
  readonly input?: InputSpec;
  /** Its values are those of this column of the source. A table of such columns has neither inputs nor verdicts. */
  readonly taken?: string;
  /** The member's number in a dimension. */
  readonly index?: string;
  /** The member's text in a dimension with named members. */
  readonly memberText?: string;
  /** A value or formula (with `=`) for each member of the last dimension, by member id (or number). */
  readonly cells?: Readonly<Record<string, number | string>>;
  /**
   * Left empty for what people write on the sheet when they issue or check it: no input of the calculation, and no
   * formula reads it. A table has such columns only, or none.
   */
  readonly record?: true;
  /** How many of the sheet's columns it takes, where words need more or fewer than usual. */
  readonly width?: number;
  /** Verdict column: stands in the sheet's verdict column. */
  readonly verdict?: true;
  /** Lists the function's warnings for these rows of each run of the innermost dimension. */
  readonly warnAt?: "first" | "last" | "both" | "each";
}

export interface TableItem {
  readonly table: string;
  readonly title: string;
  readonly over: readonly string[];
  readonly note?: string;
  readonly when?: Condition;
  readonly columns: readonly Column[];
  /** Further groups of rows below, with the same columns, over other dimensions. Columns they do not name keep their formula. */
  readonly parts?: readonly Part[];
}

export interface Part {
  readonly when?: Condition;
  readonly over: readonly string[];
  readonly formulas: Readonly<Record<string, string>>;
  readonly index?: Readonly<Record<string, string>>;
}

export type SeriesKind = "value" | "limit" | "point" | "outline" | "frame";

/**
 * `x` is a column of the same table as the series, of one over the same members, or of one over what is left when
 * `each` and `member` are chosen. Lines join their points in the order of the rows, so that an outline closes.
 */
export interface ChartSpec {
  readonly when?: Condition;
  readonly id: string;
  readonly title: string;
  /** A dimension with named members: one chart for each of them, with the member chosen in every series and its text behind the title. */
  readonly members?: string;
  readonly block: string;
  /**
   * `log`: the axis is logarithmic to base 10; there is no place on it for 0 and less, and a program that finds one in
   * the column may begin the axis at 1.
   */
  readonly x: { readonly column: string; readonly label: string; readonly unit: string; readonly log?: true };
  /** `down`: the axis grows downward, as eccentricities below the centroid are drawn. */
  readonly y: { readonly label: string; readonly unit: string; readonly down?: true };
  /**
   * A `value` is a line with marks, a `limit` a dashed line, a `point` marks without a line, in front of all lines; an
   * `outline` a plain line that needs no name; a `frame` is not drawn: it makes both axes equally long, so that a chart with
   * a square of them is to one scale both ways. `x` where it is not the chart's. One series a member of `each`; only
   * `member` of the outermost dimension left. A series whose member is left out is left out.
   */
  readonly series: readonly {
    readonly column: string;
    readonly x?: string;
    readonly name: string;
    readonly kind: SeriesKind;
    readonly each?: string;
    readonly member?: string;
  }[];
}
