import type { Quantity } from "../parameters.ts";

/** Gives each quantity its key, so that a name is written once. */
export function quantities<const T extends Readonly<Record<string, Omit<Quantity, "kind" | "key">>>>(
  entries: T,
): { readonly [K in keyof T]: Quantity } {
  return Object.fromEntries(
    Object.entries(entries).map(([key, entry]) => [key, { kind: "number", key, ...entry }]),
  ) as { [K in keyof T]: Quantity };
}

type Group = Readonly<Record<string, Quantity>>;
type Together<G extends readonly Group[]> = G extends readonly [
  infer First extends Group,
  ...infer Rest extends readonly Group[],
]
  ? First & Together<Rest>
  : unknown;

/** The quantities of several files as one. Two of the same key would silently become one of them, so that is refused. */
export function merged<const G extends readonly Group[]>(...groups: G): Together<G> {
  const all = new Map<string, Quantity>();
  for (const [key, quantity] of groups.flatMap((group) => Object.entries(group))) {
    if (all.has(key)) throw new Error(`two quantities have the key ${key}; each needs a key of its own`);
    all.set(key, quantity);
  }
  return Object.fromEntries(all) as Together<G>;
}
