import type { InputValue } from "./template.ts";

/** What one cell of an input holds. */
export type Single = string | number | null;

/** What the cells of an input hold, those of a list one after another; nothing where it is not given. */
export function singlesOf(value: InputValue | undefined): readonly Single[] {
  if (value === undefined) return [];
  return Array.isArray(value) ? (value as readonly InputValue[]).flatMap(singlesOf) : [value as Single];
}
