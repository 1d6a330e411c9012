import { worksheetFunctions, type Result } from "../../../functions/index.ts";
import type { Argument } from "../../../src/core/index.ts";

/** Calls a worksheet function by its id. */
export function kern(id: string, ...args: readonly Argument[]): Result {
  const found = worksheetFunctions.find((f) => f.id === id);
  if (!found) throw new Error(`there is no function ${id}`);
  return found.call(args);
}
