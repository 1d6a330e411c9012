import {
  formulas,
  InputError,
  isOptional,
  NoResult,
  reasonOf,
  run,
  runSpill,
  spills,
  type Argument,
  type Declaration,
  type Formula,
  type Parameter,
  type Spill,
} from "../src/core/index.ts";
import { checkedFunction } from "./checkedFunction.ts";
import { inputWarningsFunction } from "./inputWarningsFunction.ts";
import { versionFunction } from "./versionFunction.ts";
import { warningsCodeFunction } from "./warningsCodeFunction.ts";
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

/** Of one cell, or rows of numbers that fill a block of cells. */
export type Value = number | string | readonly (readonly number[])[];

export type Result =
  { readonly value: Value } | { readonly error: { readonly code: "#VALUE!" | "#NUM!"; readonly message: string } };

/** A function as cells call it. */
export interface WorksheetFunction {
  /** UPPER_SNAKE, frozen for ever: workbooks store it. */
  readonly id: string;
  /** As typed: `KERN.X`. */
  readonly name: string;
  readonly summary: string;
  /** The declaration behind it, one or the other; both absent for functions about the workbook itself. */
  readonly formula?: Formula;
  readonly spill?: Spill;
  readonly parameters: readonly FunctionParameter[];
  readonly minimum: number;
  readonly maximum: number;
  readonly result: "number" | "string" | "rows";
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
  const text = reasonOf(error);
  return { error: { code: "#VALUE!", message: `internal error in ${id}: ${text}` } };
}

function guarded(id: string, compute: (args: readonly Argument[]) => Value): WorksheetFunction["call"] {
  return (args) => {
    try {
      const value = compute(args);
      if (typeof value === "number" && !Number.isFinite(value))
        return { error: { code: "#NUM!", message: `${id} has no finite result for these arguments` } };
      return { value };
    } catch (error) {
      return refusal(id, error);
    }
  };
}

function parametersOf(f: Pick<Declaration, "params">, repeating?: string): readonly FunctionParameter[] {
  const all = Object.entries(f.params);
  // What may stay blank between others still has its place: only the last ones are left out.
  const least = all.reduce((count, [, parameter], i) => (isOptional(parameter) ? count : i + 1), 0);
  return all.map(([name, parameter], i) => ({
    name,
    parameter,
    isMatrix: parameter.kind === "table" || name === repeating,
    optional: i >= least && isOptional(parameter),
    repeating: name === repeating,
  }));
}

function declared(
  f: Declaration,
): Pick<WorksheetFunction, "id" | "name" | "summary" | "parameters" | "minimum" | "maximum"> {
  const parameters = parametersOf(f);
  return {
    id: f.id,
    name: `${namespace}.${f.id}`,
    summary: f.summary,
    parameters,
    minimum: parameters.reduce((least, { optional }, i) => (optional ? least : i + 1), 0),
    maximum: parameters.length,
  };
}

/** A formula as a worksheet function. */
export function worksheetFunction(formula: Formula): WorksheetFunction {
  return { ...declared(formula), formula, result: "number", call: guarded(formula.id, (args) => run(formula, args)) };
}

/** A function of several rows as a worksheet function. */
function spillFunction(spill: Spill): WorksheetFunction {
  return { ...declared(spill), spill, result: "rows", call: guarded(spill.id, (args) => runSpill(spill, args)) };
}

const aboutWarnings = warningsFunction(formulas, spills, namespace);
const aboutInputs = inputWarningsFunction;
const aboutCode = warningsCodeFunction;
const aboutVersion = versionFunction;
const aboutMarks = checkedFunction;

/** Every function a cell can call, in the order people meet them. */
export const worksheetFunctions: readonly WorksheetFunction[] = [
  ...formulas.map(worksheetFunction),
  ...spills.map(spillFunction),
  {
    id: aboutWarnings.id,
    name: `${namespace}.${aboutWarnings.id}`,
    summary: aboutWarnings.summary,
    parameters: parametersOf(aboutWarnings, aboutWarnings.repeating),
    minimum: 1,
    maximum: mostRepeated,
    result: "string",
    call: guarded(aboutWarnings.id, aboutWarnings.compute),
  },
  {
    id: aboutInputs.id,
    name: `${namespace}.${aboutInputs.id}`,
    summary: aboutInputs.summary,
    parameters: parametersOf(aboutInputs, aboutInputs.repeating),
    minimum: 2,
    maximum: mostRepeated,
    result: "string",
    call: guarded(aboutInputs.id, aboutInputs.compute),
  },
  {
    id: aboutCode.id,
    name: `${namespace}.${aboutCode.id}`,
    summary: aboutCode.summary,
    parameters: parametersOf(aboutCode, aboutCode.repeating),
    minimum: 1,
    maximum: mostRepeated,
    result: "string",
    call: guarded(aboutCode.id, aboutCode.compute),
  },
  {
    id: aboutVersion.id,
    name: `${namespace}.${aboutVersion.id}`,
    summary: aboutVersion.summary,
    parameters: parametersOf(aboutVersion),
    minimum: 0,
    maximum: 0,
    result: "string",
    volatile: aboutVersion.volatile,
    call: guarded(aboutVersion.id, aboutVersion.compute),
  },
  {
    id: aboutMarks.id,
    name: `${namespace}.${aboutMarks.id}`,
    summary: aboutMarks.summary,
    parameters: parametersOf(aboutMarks, aboutMarks.repeating),
    minimum: 4,
    maximum: mostRepeated,
    result: "string",
    call: guarded(aboutMarks.id, aboutMarks.compute),
  },
];

/** Our worksheet functions by their id, as formulas call them. */
export const ourFunctions: ReadonlyMap<string, WorksheetFunction> = new Map(worksheetFunctions.map((f) => [f.id, f]));
