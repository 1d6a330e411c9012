/** A factor of a design of trials, and the values it may take. */
export interface Factor<Value> {
  readonly id: string;
  readonly values: readonly Value[];
}

type Trial<Value> = Readonly<Record<string, Value>>;

/**
 * Few trials in which every two factors stand once in every pair of their values: what two choices do to each other shows
 * in one of them. Each trial takes, factor by factor, the value that brings most pairs not yet tried.
 */
export function pairwise<Value>(factors: readonly Factor<Value>[]): readonly Trial<Value>[] {
  const key = (a: number, i: number, b: number, j: number): string =>
    a < b ? `${a}:${i},${b}:${j}` : `${b}:${j},${a}:${i}`;
  const open = new Set<string>();
  factors.forEach((first, a) =>
    factors.slice(a + 1).forEach((second, rest) =>
      first.values.forEach((_, i) => {
        second.values.forEach((__, j) => open.add(key(a, i, a + 1 + rest, j)));
      }),
    ),
  );
  const trials: Trial<Value>[] = [];
  while (open.size > 0) {
    const chosen = new Map<number, number>();
    // The first open pair stands in the trial, so that each trial tries at least one.
    const [pair] = open;
    for (const one of pair!.split(",")) {
      const [factor, value] = one.split(":").map(Number);
      chosen.set(factor!, value!);
    }
    factors.forEach(({ values }, a) => {
      if (chosen.has(a)) return;
      const gains = values.map((_, i) => [...chosen].filter(([b, j]) => open.has(key(a, i, b, j))).length);
      chosen.set(a, gains.indexOf(Math.max(...gains)));
    });
    for (const [a, i] of chosen) for (const [b, j] of chosen) if (a < b) open.delete(key(a, i, b, j));
    trials.push(Object.fromEntries(factors.map(({ id, values }, a) => [id, values[chosen.get(a)!]!])));
  }
  return trials;
}
