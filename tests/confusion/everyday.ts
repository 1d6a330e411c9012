import { outside, type Quantity } from "../../src/core/index.ts";

/** Numbers from 0 to 1, the same in every run. */
export function sequence(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

interface Sizes {
  readonly sign: 1 | -1;
  readonly from: number;
  readonly to: number;
}

/** The sizes of everyday values that are not 0, on either side of it. An everyday range is cut to what is allowed. */
function sizesOf(q: Quantity): readonly Sizes[] {
  const low = Math.max(q.typical?.[0] ?? -Infinity, q.min ?? q.above ?? -Infinity);
  const high = Math.min(q.typical?.[1] ?? Infinity, q.max ?? q.below ?? Infinity);
  const from = q.smallest ?? 0;
  const sides: readonly Sizes[] = [
    { sign: 1, from: Math.max(low, from), to: high },
    { sign: -1, from: Math.max(-high, from), to: -low },
  ];
  return sides.filter((side) => side.to > side.from || (side.to === side.from && side.to > 0));
}

/** Why no everyday value can be drawn; undefined where it can. */
export function undrawable(q: Quantity): string | undefined {
  const sizes = sizesOf(q);
  if (sizes.some(({ to }) => !Number.isFinite(to))) return "has no everyday range and no bound";
  if (sizes.length === 0) return "has no everyday value but 0";
  if (sizes.some(({ from }) => from <= 0)) return "has an everyday range that holds 0, but no smallest everyday value";
  return undefined;
}

/** Everyday values other than 0: the ends of the range, and as many between them, evenly over their powers of ten. */
export function everydayValues(q: Quantity, count: number, random: () => number): readonly number[] {
  return sizesOf(q)
    .flatMap(({ sign, from, to }) => [
      sign * from,
      sign * to,
      ...Array.from({ length: count }, () => sign * from * (to / from) ** random()),
    ])
    .map((value) => (q.whole ? Math.round(value) : value))
    .filter((value) => outside(q, value) === undefined);
}
