import { readFileSync } from "node:fs";
import { worksheetFunctions, type FunctionParameter, type WorksheetFunction } from "../../functions/index.ts";
import { isOptional, type Parameter } from "../../src/core/index.ts";

export const snapshotFile = new URL("functions.snapshot.json", import.meta.url);

/** What an old workbook relies on in one argument: its place, what stands in it, and what leaving it out means. */
export interface PromisedArgument {
  readonly name: string;
  /** Unit, choices or columns. */
  readonly takes: string;
  readonly optional?: true;
  readonly default?: string | number;
  /** Stands for any number of arguments. */
  readonly repeating?: true;
}

/** What an old workbook relies on in one function. */
export interface Promised {
  readonly id: string;
  readonly arguments: readonly PromisedArgument[];
  /** Unit of the result, or that it is a text. */
  readonly result: string;
}

function takes(p: Parameter): string {
  switch (p.kind) {
    case "number":
      return p.unit;
    case "choice":
      return p.values.map(({ value }) => value).join(" | ");
    case "table":
      if (p.kinds) return Object.values(p.kinds.tables).map(takes).join(" or ");
      return `range of ${Object.entries(p.columns)
        .map(
          ([name, column]) =>
            `${name}: ${takes(column)}${column.default === undefined ? "" : ` (blank: ${column.default})`}`,
        )
        .join(", ")}`;
    case "text":
      return "text";
  }
}

function promisedArgument({ name, parameter, repeating }: FunctionParameter): PromisedArgument {
  return {
    name,
    takes: takes(parameter),
    ...(isOptional(parameter) && { optional: true }),
    ...("default" in parameter && parameter.default !== undefined && { default: parameter.default }),
    ...(repeating && { repeating: true }),
  };
}

function promisedBy({ id, parameters, formula, spill, result }: WorksheetFunction): Promised {
  return {
    id,
    arguments: parameters.map(promisedArgument),
    result: formula
      ? formula.result.unit
      : spill
        ? `rows of ${Object.entries(spill.columns)
            .map(([name, { unit }]) => `${name}: ${unit}`)
            .join(", ")}`
        : result === "string"
          ? "text"
          : result,
  };
}

export const promises = (): readonly Promised[] => worksheetFunctions.map(promisedBy);

export const kept = (): readonly Promised[] => JSON.parse(readFileSync(snapshotFile, "utf8")) as readonly Promised[];

const defaultText = ({ default: value }: PromisedArgument): string =>
  value === undefined ? "no default" : `default ${value}`;

/** What is broken in one argument that an old workbook gives, or leaves out. */
function brokenArgument(before: PromisedArgument, now: PromisedArgument | undefined): readonly string[] {
  if (!now) return [`was “${before.name}: ${before.takes}”, now gone`];
  if (before.name !== now.name || before.takes !== now.takes)
    return [`was “${before.name}: ${before.takes}”, now “${now.name}: ${now.takes}”`];
  if (before.repeating && !now.repeating) return [`“${before.name}” could be repeated, now it cannot`];
  if (before.optional && !now.optional) return [`“${before.name}” could be left out, now it cannot`];
  // Where there was no right to leave it out, no cell relies on what that means.
  if (before.optional && before.default !== now.default)
    return [`“${before.name}” had ${defaultText(before)}, now ${defaultText(now)}`];
  return [];
}

/** Promises that the present functions break. New arguments at the end break nothing if they may be left out. */
export function broken(old: readonly Promised[], now: readonly Promised[]): readonly string[] {
  return old.flatMap(({ id, arguments: before, result }) => {
    const today = now.find((f) => f.id === id);
    if (!today) return [`${id} is gone`];
    const changed = before.flatMap((argument, i) =>
      brokenArgument(argument, today.arguments[i]).map((text) => `${id}: argument ${i + 1} ${text}`),
    );
    const demanded = today.arguments
      .slice(before.length)
      .filter(({ optional, repeating }) => !optional && !repeating)
      .map(({ name }) => `${id}: “${name}” is new and cannot be left out`);
    const otherResult = result === today.result ? [] : [`${id}: the result was in ${result}, now in ${today.result}`];
    return [...changed, ...demanded, ...otherResult];
  });
}
