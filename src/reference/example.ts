import { trace, warnings, type Argument, type Cell, type Trace } from "../core/index.ts";
import type { Value, WorksheetFunction } from "../../functions/index.ts";
import { argumentsOf, countsAsPublished, type CaseRow, type PublishedCase } from "../published/index.ts";
import { typicalArguments } from "./typicalArguments.ts";

/** One call with its result, computed while the page is written, by the function that cells call. */
export interface Example {
  readonly args: readonly Argument[];
  readonly value: Value;
  /** Where the arguments come from. */
  readonly from: { readonly published: PublishedCase } | "everyday values" | "fixed";
  readonly warnings: readonly string[];
  /** Every step, where the function has steps. */
  readonly trace?: Trace;
}

/** Arguments for functions about the workbook, which no range describes. */
const fixed: Readonly<Record<string, readonly Argument[]>> = {
  WARNINGS: ["FRICTION_STRESS", 0.3, 0.9, 0.003, "1/m", 1395, 12],
  INPUT_WARNINGS: ["relativeHumidity", 0.7],
  WARNINGS_CODE: [[["input 1.9: RH", "RH = 0.75 % lies outside the everyday range 20 to 100 %"]]],
  VERSION: [],
  CHECKED: ["AB", "2026-11-26", "30bf864eb27915a7", [["mean stress", 12.5, "MPa", "OK"]]],
};

/** The row in the middle: the first is often an end of a table, where a function says little. */
const middle = (c: PublishedCase): CaseRow => c.rows[Math.floor(c.rows.length / 2)]!;

/** A published case that gives arguments; one of the result itself before one of a step. */
function publishedFor(id: string, cases: readonly PublishedCase[]): PublishedCase | undefined {
  const own = cases.filter((c) => c.function === id && countsAsPublished(c));
  return (
    own.find((c) => c.step === undefined && middle(c).then === undefined) ??
    own.find((c) => c.step === undefined) ??
    own[0]
  );
}

/** Without the tail that a change of units leaves: 25.4 mm of an inch is no longer 25.399999999999999. */
function tidy(a: Argument): Argument {
  if (typeof a === "number") return Number(a.toPrecision(12));
  return Array.isArray(a) ? (a as readonly (readonly Cell[])[]).map((row) => row.map((cell) => tidy(cell) as Cell)) : a;
}

function called(of: WorksheetFunction, args: readonly Argument[], from: Example["from"]): Example {
  const result = of.call(args);
  if ("error" in result) throw new Error(`the example of ${of.id} gives ${result.error.code}: ${result.error.message}`);
  const declaration = of.formula ?? of.spill;
  return {
    args,
    value: result.value,
    from,
    warnings: declaration ? warnings(declaration, args) : [],
    ...(of.formula && { trace: trace(of.formula, args) }),
  };
}

/** The example of a function: the arguments of a published case where there is one, everyday values otherwise. */
export function exampleOf(of: WorksheetFunction, cases: readonly PublishedCase[]): Example {
  const declaration = of.formula ?? of.spill;
  if (!declaration) {
    const args = fixed[of.id];
    if (!args) throw new Error(`${of.id} has no declaration and no example`);
    return called(of, args, "fixed");
  }
  const published = publishedFor(of.id, cases);
  if (published) return called(of, argumentsOf(middle(published), declaration).map(tidy), { published });
  return called(of, typicalArguments(of, declaration), "everyday values");
}

function cellText(cell: Cell): string {
  if (typeof cell === "number") return String(cell);
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  return cell === null || cell === undefined ? "" : `"${cell}"`;
}

/** The call as it can be typed into a cell; a range stands as an array constant. */
export function formulaText(of: WorksheetFunction, args: readonly Argument[]): string {
  const texts = args.map((a) =>
    Array.isArray(a)
      ? `{${(a as readonly (readonly Cell[])[]).map((row) => row.map(cellText).join(",")).join(";")}}`
      : cellText(a as Cell),
  );
  while (texts.at(-1) === "") texts.pop();
  return `=${of.name}(${texts.join(",")})`;
}
