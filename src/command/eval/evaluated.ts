import { namespace, worksheetFunctions } from "../../../functions/index.ts";
import { readFormula, UnreadableFormula, type Call, type CellContent } from "../../cells/index.ts";
import type { GridHost } from "../../hosts/index.ts";
import { unknownFunction } from "./nearest.ts";

/** What a formula gives, with what should be known about its calls. */
export interface Evaluated {
  readonly cells: readonly (readonly CellContent[])[];
  /** What KERN.WARNINGS says of each of our calls. */
  readonly warnings: readonly string[];
}

/** Our calls in a formula; none where it cannot be read. */
function callsIn(formula: string): readonly Call[] {
  try {
    return readFormula(formula.trimStart().startsWith("=") ? formula.trim() : `=${formula.trim()}`).calls;
  } catch (error) {
    // Said by the grid, which cannot read it either.
    if (!(error instanceof UnreadableFormula)) throw error;
    return [];
  }
}

const declared: ReadonlySet<string> = new Set(
  worksheetFunctions.filter((f) => f.formula ?? f.spill).map(({ id }) => id),
);

/** The call of WARNINGS with a call's own arguments. */
const warningsCall = ({ id, evaluate }: Call): string =>
  evaluate.replace(/^[^(]+\(/, () => `${namespace}.WARNINGS("${id}",`);

const isUnknownName = ({ error }: CellContent): boolean => error?.code === "#NAME?" && error.message === undefined;

/** Evaluates a formula as a cell of the sheet would. */
export async function evaluated(host: GridHost, sheet: string, formula: string): Promise<Evaluated> {
  const cells = await host.evaluate(formula, sheet);
  const calls = callsIn(formula);
  const unknown = calls.flatMap(({ id }) => unknownFunction(id) ?? []).join("; ");
  if (cells.flat().some(({ error }) => error))
    return {
      cells: cells.map((row) =>
        row.map((cell) =>
          unknown !== "" && isUnknownName(cell) ? { ...cell, error: { code: "#NAME?", message: unknown } } : cell,
        ),
      ),
      warnings: [],
    };
  const warnings: string[] = [];
  for (const call of calls) {
    if (!declared.has(call.id) || call.arguments.length === 0) continue;
    const told = (await host.evaluate(warningsCall(call), sheet))[0]![0]!;
    if (typeof told.value === "string" && told.value !== "") warnings.push(`${call.id}: ${told.value}`);
  }
  return { cells, warnings };
}
