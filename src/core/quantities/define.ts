import type { Quantity } from "../parameters.ts";

/** Gives each quantity its key, so that a name is written once. */
export function quantities<const T extends Readonly<Record<string, Omit<Quantity, "kind" | "key">>>>(
  entries: T,
): { readonly [K in keyof T]: Quantity } {
  return Object.fromEntries(
    Object.entries(entries).map(([key, entry]) => [key, { kind: "number", key, ...entry }]),
  ) as { [K in keyof T]: Quantity };
}
