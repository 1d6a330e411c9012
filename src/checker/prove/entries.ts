import {
  allowedText,
  format,
  formulaIn,
  outside,
  parametersFor,
  reasonOf,
  run,
  type Argument,
  type Formula,
  type Quantity,
} from "../../core/index.ts";
import type { WorksheetFunction } from "../../../functions/index.ts";
import {
  argumentsOf,
  convert,
  halfLastDigit,
  judge,
  type CaseInput,
  type CaseRow,
  type PublishedCase,
} from "../../published/index.ts";
import { plainSymbol } from "../../typeset/index.ts";
import { basisOf, basisWords, type BasisWord } from "./words.ts";

interface Traced {
  readonly step: number | string;
  readonly result: number | string;
}

/** One row of the sheet: a value with its inputs. */
export interface Entry {
  readonly what: string;
  readonly basis: BasisWord;
  readonly args: readonly Argument[];
  /** As the source gives the arguments, where it has other units; by argument. */
  readonly asPrinted: readonly (string | undefined)[];
  /** Absent for a refusal. */
  readonly printed?: {
    readonly text: string;
    readonly number: number;
    readonly unit: string;
    readonly tolerance: number;
    readonly times: number;
    readonly plus: number;
  };
  /**
   * The step as Trace gives it, in the printed unit, and the function's own result, both as the panel computes them;
   * the error's text where there is none.
   */
  readonly traced?: Traced;
  readonly rule: "agrees" | "differs" | "by trace" | "refuses";
}

/** A published check with its rows. */
export interface Proof {
  readonly case: PublishedCase;
  readonly formula: Formula;
  readonly entries: readonly Entry[];
}

const withUnit = (input: CaseInput): string | undefined =>
  typeof input === "object" && input !== null && "unit" in input
    ? `${format(input.value)} ${input.unit || "(number)"}`
    : undefined;

function ownResult(args: readonly Argument[], f: Formula): number | string {
  try {
    return run(f, args);
  } catch (problem) {
    return reasonOf(problem);
  }
}

function entryOf(c: PublishedCase, row: CaseRow, f: Formula, traced: Traced | undefined): Entry {
  const { then } = row;
  const args = argumentsOf(row, f);
  const { steps, result } = formulaIn(f, args);
  const step = c.step === undefined ? undefined : steps[c.step];
  const own = step?.unit ?? result.unit;
  const symbol = plainSymbol(step?.symbol ?? result.symbol);
  return {
    what: [c.step === undefined ? symbol : `step ${symbol}`, ...(then ? [then.text] : [])].join("; "),
    basis: basisOf(c),
    args,
    asPrinted: row.inputs.map(withUnit),
    printed: {
      text: row.printed,
      number: Number(row.printed),
      unit: c.unit,
      tolerance: row.tolerance ?? c.tolerance ?? halfLastDigit(row.printed),
      times: convert(1, own, then?.unit ?? c.unit) * (then?.times ?? 1),
      plus: then?.plus ?? 0,
    },
    ...(traced !== undefined && { traced }),
    rule: c.mustDiffer && !row.coincides ? "differs" : c.step === undefined ? "agrees" : "by trace",
  };
}

/** A number clearly outside the declared bounds, on the side that has one. */
function beyond({ min, above, max, below }: Quantity): number | undefined {
  const low = min ?? above;
  if (low !== undefined) return low - Math.max(1, Math.abs(low));
  const high = max ?? below;
  return high === undefined ? undefined : high + Math.max(1, Math.abs(high));
}

/** The function's first call again, with one input out of its declared range. */
function refusalOf(f: Formula, first: Entry): Entry | undefined {
  const parameters = parametersFor(f, first.args);
  for (const [i, p] of parameters.entries()) {
    const value = p.kind === "number" ? beyond(p) : undefined;
    if (
      p.kind !== "number" ||
      value === undefined ||
      typeof first.args[i] !== "number" ||
      outside(p, value) === undefined
    )
      continue;
    return {
      what: `refuses ${plainSymbol(p.symbol)} = ${format(value)}; allowed: ${allowedText(p)}`,
      basis: basisWords.range,
      args: first.args.map((a, j) => (j === i ? value : a)),
      asPrinted: [],
      rule: "refuses",
    };
  }
  return undefined;
}

/**
 * Every check as rows for the sheet; a function's refusal stands with its first check. Throws where a check names a
 * function that is not there.
 */
export function proofsOf(cases: readonly PublishedCase[], functions: readonly WorksheetFunction[]): readonly Proof[] {
  const seen = new Set<string>();
  return cases.map((c) => {
    const f = functions.find(({ id }) => id === c.function)?.formula;
    if (!f) throw new Error(`the check ${c.id} is of the function ${c.function}, which is not there`);
    const steps =
      c.step === undefined
        ? undefined
        : judge(c, functions).outcomes.map(({ computed, error, row }): Traced => ({
            step: computed ?? error ?? "no value",
            result: ownResult(argumentsOf(row, f), f),
          }));
    const entries = c.rows.map((row, i) => entryOf(c, row, f, steps?.[i]));
    const refusal = seen.has(f.id) || !entries[0] ? undefined : refusalOf(f, entries[0]);
    seen.add(f.id);
    return { case: c, formula: f, entries: refusal ? [...entries, refusal] : entries };
  });
}
