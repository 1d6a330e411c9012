import { sources, type Choice, type Quantity } from "../src/core/index.ts";
import { parameterText } from "./parameterText.ts";
import { referenceFolder, referencePage } from "./referencePlace.ts";
import { worksheetFunctions, type FunctionParameter, type WorksheetFunction } from "./worksheetFunctions.ts";

type ValueType = "number" | "string" | "any";

export interface ParameterMetadata {
  readonly name: string;
  readonly description: string;
  readonly type: ValueType;
  readonly dimensionality: "scalar" | "matrix";
  readonly optional?: true;
  readonly repeating?: true;
  readonly customEnumId?: string;
}
export interface FunctionMetadata {
  readonly id: string;
  readonly name: string;
  readonly description: string;
  readonly helpUrl?: string;
  readonly parameters: readonly ParameterMetadata[];
  readonly result: { readonly type: "number" | "string"; readonly dimensionality: "scalar" | "matrix" };
  readonly options?: { readonly volatile: true };
}
export interface EnumMetadata {
  readonly id: string;
  readonly type: "number" | "string";
  readonly values: readonly ({ readonly name: string; readonly tooltip: string } & (
    { readonly numberValue: number } | { readonly stringValue: string }
  ))[];
}
/** What the spreadsheet program reads at start: functions.json. */
export interface Metadata {
  readonly functions: readonly FunctionMetadata[];
  readonly enums: readonly EnumMetadata[];
}

const longest = { parameter: 512, function: 1024, tooltip: 256 } as const;

function fitting(text: string, what: keyof typeof longest, where: string): string {
  if (text.length > longest[what])
    throw new Error(`the description of ${where} has ${text.length} characters; a ${what} may have ${longest[what]}`);
  return text;
}

const enumId = (c: Choice): string => `kern.${c.key}`;
const isNumeric = (c: Choice): boolean => c.values.every(({ value }) => typeof value === "number");

function enumOf(c: Choice): EnumMetadata {
  const numeric = isNumeric(c);
  return {
    id: enumId(c),
    type: numeric ? "number" : "string",
    values: c.values.map(({ value, text }) => ({
      name: String(value),
      tooltip: fitting(text, "tooltip", `${c.key} ${value}`),
      ...(numeric ? { numberValue: value as number } : { stringValue: String(value) }),
    })),
  };
}

function parameterMetadata(
  of: WorksheetFunction,
  { name, parameter, isMatrix, optional, repeating }: FunctionParameter,
): ParameterMetadata {
  return {
    name,
    description: fitting(parameterText(parameter), "parameter", `${of.id} ${name}`),
    // Numbers are declared as anything: a host refuses text for a number without saying which argument or what is allowed; the core does.
    type:
      isMatrix || parameter.kind === "number" || parameter.kind === "table"
        ? "any"
        : parameter.kind === "choice" && isNumeric(parameter)
          ? "number"
          : "string",
    dimensionality: isMatrix ? "matrix" : "scalar",
    ...(optional && { optional: true }),
    ...(repeating && { repeating: true }),
    ...(parameter.kind === "choice" && { customEnumId: enumId(parameter) }),
  };
}

const symbolAndUnit = ({ symbol, unit }: Quantity): string =>
  `${symbol.replace(/_/g, "")} (${unit === "–" ? "a plain number" : unit})`;

function description({ id, summary, formula, spill }: WorksheetFunction): string {
  const of = formula ?? spill;
  if (!of) return summary;
  const { source } = of;
  const gives = formula
    ? symbolAndUnit(formula.result)
    : `rows of ${Object.values(spill!.columns).map(symbolAndUnit).join(", ")}`;
  const from =
    source.key === "mechanics" || source.key === "practice"
      ? sources[source.key]
      : `${source.key}${source.clause ? ` ${source.clause}` : ""}.`;
  return fitting(`${summary}. Gives ${gives}. ${from}`, "function", id);
}

/**
 * The metadata of every function. `address` is where the add-in's files will stand, without a slash at the end: with it
 * each function links to its reference page.
 */
export function metadata(address?: string, functions: readonly WorksheetFunction[] = worksheetFunctions): Metadata {
  const enums = new Map<string, EnumMetadata>();
  for (const { parameters } of functions) {
    for (const { parameter } of parameters) {
      if (parameter.kind !== "choice") continue;
      const made = enumOf(parameter);
      const known = enums.get(made.id);
      if (known && JSON.stringify(known) !== JSON.stringify(made))
        throw new Error(`two choices named ${parameter.key} have different values`);
      enums.set(made.id, made);
    }
  }
  return {
    functions: functions.map((f) => ({
      id: f.id,
      name: f.id,
      description: description(f),
      ...(address !== undefined && { helpUrl: `${address}/${referenceFolder}/${referencePage(f.id)}` }),
      parameters: f.parameters.map((p) => parameterMetadata(f, p)),
      result:
        f.result === "rows"
          ? { type: "number", dimensionality: "matrix" }
          : { type: f.result, dimensionality: "scalar" },
      ...(f.volatile && { options: { volatile: true } }),
    })),
    enums: [...enums.values()],
  };
}
