import type { Address, Area } from "../cells/index.ts";
import { columns, widthOver } from "./columns.ts";
import type { Links } from "./links.ts";
import type { Layout } from "./layout.ts";
import type {
  ConflictCells,
  JudgedCell,
  Meaning,
  PlannedCell,
  PlannedName,
  Role,
  Summary,
  Validation,
} from "./plan.ts";
import type { Problems } from "./problems.ts";
import { allowedWords, boundsOf, plainSymbol, type Says } from "./says.ts";
import type { ShapedSheet } from "./shape.ts";
import { markedSymbol, typeset, withUnderlines } from "./subscripts.ts";
import type { InputSpec } from "./template.ts";
import type { PlacedText } from "./textLines.ts";
import { linesIn, linesOfLow } from "./textWidth.ts";
import type { Written } from "./write.ts";

/** How high an empty row is that sets apart what stands above and below it. */
const gapLines = 0.5;

/** A formula cell with the cells it reads and the place in the template it comes from. */
export interface Dependency {
  readonly at: Address;
  readonly place: string;
  readonly reads: readonly Area[];
}

/** What is being filled into cells. */
export interface Filling {
  readonly sheet: ShapedSheet;
  readonly layout: Layout;
  readonly values: ReadonlyMap<string, readonly (string | number | null)[]>;
  readonly problems: Problems;
  readonly cells: PlanCells;
  /** To the source of a linked sheet. */
  readonly links?: Links;
}

/** The cells of a plan as they are filled, and all that is said about them. */
export class PlanCells {
  readonly all: PlannedCell[] = [];
  readonly names: PlannedName[] = [];
  readonly validations: Validation[] = [];
  readonly unlocked: Area[] = [];
  readonly spans: Area[] = [];
  readonly meanings: Meaning[] = [];
  readonly checks: Summary["checks"][number][] = [];
  readonly dependencies: Dependency[] = [];
  readonly judged: JudgedCell[] = [];
  readonly conflicts: ConflictCells[] = [];
  readonly lines = new Map<number, number>();
  overall: Address | undefined;
  hashAt: Address = { row: 0, column: 0 };

  constructor(private readonly problems: Problems) {}

  /** Makes a row at least so many lines high. */
  raise(row: number, lines: number): void {
    if (lines > (this.lines.get(row) ?? 1)) this.lines.set(row, lines);
  }

  /** Makes an empty row low. */
  lower(row: number): void {
    this.lines.set(row, gapLines);
  }

  put(row: number, column: number, role: Role, content?: string | number | boolean | null, format?: string): void {
    const of = contentOf(role, content);
    this.all.push({ row, column, role, ...of, ...formatted(format) });
    if (of.lowered) this.raise(row, linesOfLow);
  }

  formula(row: number, column: number, role: Role, written: Written, place: string, format?: string): void {
    const { formula, reads, problems } = written;
    for (const problem of problems) this.problems.add(place, problem);
    this.all.push({ row, column, role, formula, ...formatted(format) });
    this.dependencies.push({ at: { row, column }, place, reads });
  }

  /** A cell that shows one of another sheet. It is linked again where that sheet went, so it is not locked. */
  link(cell: PlannedCell): void {
    this.all.push(cell);
    this.unlocked.push(areaAt(cell));
  }

  /** A text that wraps over several columns joined. */
  sentence(row: number, role: Role, text: string, from: number, to: number): void {
    this.put(row, from, role, text);
    this.join(row, from, to);
    this.raise(row, linesIn(saying.has(role) ? markedSymbol(text) : text, widthOver(from, to)));
  }

  /** Texts placed in a row and in those below it. */
  texts(row: number, placed: readonly PlacedText[]): void {
    for (const { role, text, line, from, to } of placed)
      if (to === undefined) this.put(row + line, from, role, text);
      else this.sentence(row + line, role, text, from, to);
  }

  join(row: number, from: number, to: number): void {
    if (to > from) this.spans.push({ row, column: from, rows: 1, columns: to - from + 1 });
  }

  /** Carries a look on over empty cells. */
  carry(row: number, role: Role, from: number, to: number): void {
    for (let column = from; column <= to; column++) this.put(row, column, role);
  }

  mark(row: number): void {
    this.put(row, columns.mark, "mark");
    this.unlocked.push({ row, column: columns.mark, rows: 1, columns: 1 });
  }

  name(id: string, area: Area): void {
    this.names.push({ name: `kb_${id}`, ...area });
  }

  mean(
    says: Says,
    item: string,
    at: Area,
    told?: { readonly words: string; readonly source: string; readonly namesRows?: boolean },
  ): void {
    this.meanings.push({
      id: says.id,
      item,
      description: says.text,
      symbol: says.symbol,
      unit: says.unit,
      ...(says.quantity && { quantity: says.quantity.key }),
      at,
      ...(told?.words && { equation: withUnderlines(told.words) }),
      ...(told?.source && { source: told.source }),
      ...(told?.namesRows && { namesRows: true as const }),
    });
  }

  validate(area: Area, input: InputSpec, says: Says): void {
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
}

/** Numbers as they are, in the programs' own way, are no format of a cell. */
function formatted(format: string | undefined): Pick<PlannedCell, "format"> {
  return format === undefined || format === "General" ? {} : { format };
}

/** Roles of what is said about the calculation, in which `_` begins a subscript. */
const saying: ReadonlySet<Role> = new Set([
  "note",
  "caution",
  "description",
  "wordIn",
  "symbol",
  "equation",
  "source",
  "listed",
  "tableSymbol",
  "tableWord",
  "tableWordIn",
]);

function contentOf(
  role: Role,
  content: string | number | boolean | null | undefined,
): Pick<PlannedCell, "value" | "lowered"> {
  if (content === null || content === undefined || content === "") return {};
  if (typeof content !== "string") return { value: content };
  const { text, lowered } = typeset(saying.has(role) ? markedSymbol(content) : content);
  return { value: text, ...(lowered.length > 0 && { lowered }) };
}

export function inputRole(input: InputSpec): Role {
  if (input.freeText) return "textInput";
  return input.choices ? "choice" : "input";
}

/** One cell as an area. */
export function areaAt({ row, column }: Address): Area {
  return { row, column, rows: 1, columns: 1 };
}

/** A formula of the sheet's own that refers to given cells. */
export function own(formula: string, reads: readonly Area[]): Written {
  return { formula, reads, problems: [] };
}

/** The quantity whose everyday range an input's status asks. */
export function everydayOf({ quantity }: Says): { readonly everyday?: string } {
  return quantity?.typical ? { everyday: quantity.key } : {};
}
