import {
  formulaIn,
  parametersFor,
  reasonOf,
  trace,
  type Argument,
  type Cell,
  type Formula,
  type Parameter,
} from "../core/index.ts";
import type { WorksheetFunction } from "../../functions/index.ts";
import type { CaseCell, CaseInput, CaseRow, PublishedCase } from "./case.ts";
import { convert } from "./units.ts";

export interface Outcome {
  readonly row: CaseRow;
  readonly printed: number;
  /** In the case's unit. Absent where the function gave an error. */
  readonly computed?: number;
  readonly error?: string;
  readonly tolerance: number;
  readonly agrees: boolean;
}

export interface Judgement {
  readonly case: PublishedCase;
  readonly outcomes: readonly Outcome[];
  readonly passed: boolean;
}

const decimal = /^-?\d+(?:\.(\d+))?(?:e([+-]?\d+))?$/;

/** Half a unit of the last digit printed. */
export function halfLastDigit(printed: string): number {
  const found = decimal.exec(printed);
  if (!found) throw new Error(`“${printed}” is not a number as printed`);
  return 0.5 * 10 ** (Number(found[2] ?? 0) - (found[1]?.length ?? 0));
}

function cellIn(cell: CaseCell, parameter: Parameter): Cell {
  if (typeof cell !== "object" || cell === null) return cell;
  if (parameter.kind !== "number") throw new Error(`${parameter.symbol} takes no value with a unit`);
  return convert(cell.value, cell.unit, parameter.unit);
}

function argumentIn(input: CaseInput, parameter: Parameter): Argument {
  const columns = parameter.kind === "table" ? Object.values(parameter.columns) : [];
  // One cell may stand for a range of one.
  if (!Array.isArray(input)) return cellIn(input as CaseCell, columns[0] ?? parameter);
  return (input as readonly (readonly CaseCell[])[]).map((row) =>
    row.map((cell, c) => (columns[c] ? cellIn(cell, columns[c]) : (cell as Cell))),
  );
}

const bare = (cell: CaseCell): Cell => (typeof cell === "object" && cell !== null ? cell.value : cell);

/** The row's arguments in the cells' own units, as a worksheet gives them. */
export function argumentsOf(row: CaseRow, f: Pick<Formula, "id" | "params">): readonly Argument[] {
  // With units aside: what a choice or the shape of a range decides does not hang on them.
  const plain = row.inputs.map((input): Argument => {
    if (!Array.isArray(input)) return bare(input as CaseCell);
    return (input as readonly (readonly CaseCell[])[]).map((cells) => cells.map(bare));
  });
  const parameters = parametersFor(f, plain);
  return row.inputs.map((input, i) => {
    const parameter = parameters[i];
    if (!parameter) throw new Error(`${f.id} has ${parameters.length} arguments; ${row.inputs.length} are given`);
    return argumentIn(input, parameter);
  });
}

/** The result through the same door as a worksheet, or the step as Trace shows it; in the case's unit. */
function compute(f: Formula, call: WorksheetFunction["call"], { step, unit }: PublishedCase, row: CaseRow): number {
  const args = argumentsOf(row, f);
  let value: number;
  let own: string;
  if (step === undefined) {
    const result = call(args);
    if ("error" in result) throw new Error(`${result.error.code} ${result.error.message}`);
    value = result.value as number;
    own = formulaIn(f, args).result.unit;
  } else {
    const traced = trace(f, args).steps.find(({ name }) => name === step);
    if (!traced) throw new Error(`${f.id} has no step ${step}`);
    value = traced.shown;
    own = traced.step.unit;
  }
  const { then } = row;
  return convert(value, own, then?.unit ?? unit) * (then?.times ?? 1) + (then?.plus ?? 0);
}

function judgeRow(c: PublishedCase, row: CaseRow, fn: WorksheetFunction): Outcome {
  const printed = Number(row.printed);
  const tolerance = row.tolerance ?? c.tolerance ?? halfLastDigit(row.printed);
  try {
    if (!fn.formula) throw new Error(`${fn.id} has no declaration`);
    const computed = compute(fn.formula, fn.call, c, row);
    // A value that lies on the edge of the tolerance must not fail by the last bit of the subtraction.
    return { row, printed, computed, tolerance, agrees: Math.abs(computed - printed) <= tolerance * (1 + 1e-9) };
  } catch (error) {
    return { row, printed, error: reasonOf(error), tolerance, agrees: false };
  }
}

/** Does the row agree, or differ where the source is superseded? An error is neither. */
export function asItShould({ mustDiffer }: PublishedCase, { row, error, agrees }: Outcome): boolean {
  return error === undefined && agrees === (!mustDiffer || row.coincides === true);
}

/** Compares a case with the function as cells call it. */
export function judge(c: PublishedCase, functions: readonly WorksheetFunction[]): Judgement {
  const fn = functions.find(({ id }) => id === c.function);
  const outcomes = c.rows.map((row): Outcome =>
    fn
      ? judgeRow(c, row, fn)
      : { row, printed: Number(row.printed), error: `there is no function ${c.function}`, tolerance: 0, agrees: false },
  );
  const passed = outcomes.length > 0 && outcomes.every((outcome) => asItShould(c, outcome));
  return { case: c, outcomes, passed };
}

/** Does it count as a published result that the function reproduces? */
export const countsAsPublished = (c: PublishedCase): boolean => c.basis === "published" && !c.mustDiffer;
