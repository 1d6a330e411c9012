import type { IFunctionInfo } from "@univerjs/engine-formula";
import { parameterText, type FunctionParameter, type WorksheetFunction } from "../../../functions/index.ts";
import type { GridRuntime } from "./runtime.ts";

function exampleOf({ parameter, name }: FunctionParameter): string {
  switch (parameter.kind) {
    case "number":
      return parameter.default === undefined ? name : String(parameter.default);
    case "choice":
      return typeof parameter.values[0]?.value === "number"
        ? String(parameter.values[0].value)
        : `"${parameter.values[0]?.value ?? ""}"`;
    case "table":
      return "A1:B5";
    case "text":
      return parameter.example ?? name;
  }
}

/** What autocomplete shows while a formula is typed: the function's line and each argument's meaning, unit and range. */
export function descriptions(
  { formula: engine }: Pick<GridRuntime, "formula">,
  functions: readonly WorksheetFunction[],
): IFunctionInfo[] {
  return functions.map(({ name, summary, formula, spill, parameters }) => ({
    functionName: name,
    functionType: engine.FunctionType.User,
    description: [summary, ...((formula ?? spill)?.notes ?? [])].join(". "),
    abstract: summary,
    functionParameter: parameters.map((p) => ({
      name: p.name,
      detail: parameterText(p.parameter),
      example: exampleOf(p),
      require: p.optional || p.repeating ? 0 : 1,
      repeat: p.repeating ? 1 : 0,
    })),
  }));
}
