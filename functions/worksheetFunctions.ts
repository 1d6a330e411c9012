import { formulas, InputError, isOptional, NoResult, run, type Argument, type Formula, type Parameter } from "../src/core/index.ts";
import { versionFunction } from "./versionFunction.ts";
import { warningsFunction } from "./warningsFunction.ts";

/** The add-in's namespace: what stands before the dot in a cell. */
export const namespace = "KERN";

/** One argument of a worksheet function. */
export interface FunctionParameter {
  readonly name: string;
  readonly parameter: Parameter;
  readonly isMatrix: boolean;
  readonly optional: boolean;
  /** Stands for any number of arguments; only ever the last. */
  readonly repeating: boolean;
}

export type Result =
  | { readonly value: number | string }
  | { readonly error: { readonly code: "#VALUE!" | "#NUM!"; readonly message: string } };

/** A function as cells call it. */
export interface WorksheetFunction {
  /** UPPER_SNAKE, frozen for ever: workbooks store it. */
  readonly id: string;
  /** As typed: `KERN.X`. */
  readonly name: string;
  readonly summary: string;
  /** The declaration behind it; absent for functions about the workbook itself. */
  readonly formula?: Formula;
  readonly parameters: readonly FunctionParameter[];
  readonly minimum: number;
  readonly maximum: number;
  readonly result: "number" | "string";
  /** Computed anew with every calculation, whatever its arguments. */
  readonly volatile?: true;
  /** Never throws: what goes wrong is the cell's error. Repeating arguments follow one another. */
  readonly call: (args: readonly Argument[]) => Result;
}

/** More arguments than a formula can sensibly have; the host's own limit is higher. */
const mostRepeated = 126;

function refusal(id: string, error: unknown): Result {
  if (error instanceof InputError) return { error: { code: "#VALUE!", message: error.message } };
  if (error instanceof NoResult) return { error: { code: "#NUM!", message: error.message } };
  const text = error instanceof Error ? error.message : String(error);
  return { error: { code: "#VALUE!", message: `internal error in ${id}: ${text}` } };
}

function guarded(id: string, compute: (args: readonly Argument[]) => number | string): WorksheetFunction["call"] {
  return (args) => {
    try {
      const value = compute(args);
      if (typeof value === "number" && !Number.isFinite(value)) return { error: { code: "#NUM!", message: `${id} has no finite result for these arguments` } };
      return { value };
    } catch (error) {
      return refusal(id, error);
    }
  };
}

function parametersOf(f: Pick<Formula, "params">, repeating?: string): readonly FunctionParameter[] {
  return Object.entries(f.params).map(([name, parameter]) => ({ name, parameter, isMatrix: parameter.kind === "table" || name === repeating, optional: isOptional(parameter), repeating: name === repeating }));
}

/** A formula as a worksheet function. */
export function worksheetFunction(formula: Formula): WorksheetFunction {
  const parameters = parametersOf(formula);
  return {
    id: formula.id,
    name: `${namespace}.${formula.id}`,
    summary: formula.summary,
    formula,
    parameters,
    minimum: parameters.reduce((least, { optional }, i) => (optional ? least : i + 1), 0),
    maximum: parameters.length,
    result: "number",
    call: guarded(formula.id, (args) => run(formula, args)),
  };
}

const aboutWarnings = warningsFunction(formulas, namespace);
const aboutVersion = versionFunction;

/** Every function a cell can call, in the order people meet them. */
export const worksheetFunctions: readonly WorksheetFunction[] = [
  ...formulas.map(worksheetFunction),
  { id: aboutWarnings.id, name: `${namespace}.${aboutWarnings.id}`, summary: aboutWarnings.summary, parameters: parametersOf(aboutWarnings, aboutWarnings.repeating), minimum: 1, maximum: mostRepeated, result: "string", call: guarded(aboutWarnings.id, aboutWarnings.compute) },
  { id: aboutVersion.id, name: `${namespace}.${aboutVersion.id}`, summary: aboutVersion.summary, parameters: parametersOf(aboutVersion), minimum: 0, maximum: 0, result: "string", volatile: aboutVersion.volatile, call: guarded(aboutVersion.id, aboutVersion.compute) },
];
