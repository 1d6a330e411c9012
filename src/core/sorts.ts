import type { Quantity } from "./parameters.ts";

/**
 * Whether something of one sort stands in for a quantity that wants another, although the unit is the same: `other` is
 * a different sort, `unsaid` is something that does not say of which sort it is.
 */
export function sortsDiffer(wanted: Pick<Quantity, "sort">, given: string | undefined): "other" | "unsaid" | undefined {
  if (wanted.sort === undefined || wanted.sort === given) return undefined;
  return given === undefined ? "unsaid" : "other";
}
