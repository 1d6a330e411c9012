import type { FunctionParameter } from "../../functions/index.ts";
import type { DesignFunction } from "./search.ts";

/** The call with its arguments as written; those left out at the end are dropped, those left out before others stay empty. */
export function callText(
  of: Pick<DesignFunction, "name" | "parameters">,
  written: (parameter: FunctionParameter) => string | undefined,
): string {
  const all = of.parameters.map(written);
  while (all.length > 0 && all.at(-1) === undefined) all.pop();
  return `=${of.name}(${all.map((text) => text ?? "").join(",")})`;
}
