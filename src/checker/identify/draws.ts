import type { Quantity } from "../../core/index.ts";

/** Numbers between 0 and 1 that look like chance and are the same every time. */
export function drawing(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** From where to where everyday values of a quantity lie, in its own unit. */
export function everydayRange(q: Quantity): readonly [number, number] {
  const [low, high] = q.typical ?? [q.min ?? q.above ?? 0.1, q.max ?? q.below ?? 100];
  return [Math.max(low, q.min ?? -Infinity), Math.min(high, q.max ?? Infinity)];
}

/** An everyday value of a quantity; over several powers of ten each of them gets its share. Never 0. */
export function drawnValue(q: Quantity, chance: () => number): number {
  const [from, to] = everydayRange(q);
  const low = from === 0 ? (q.smallest ?? to * 0.02) : from;
  const value = low > 0 && to > 4 * low ? low * (to / low) ** chance() : low + (to - low) * chance();
  return q.whole ? Math.max(Math.round(value), q.min ?? 1) : value;
}
