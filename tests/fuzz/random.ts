/** A random number from 0 to 1, always the same sequence for the same seed. Source: xorshift32, G. Marsaglia 2003. */
export type Random = () => number;

export function randomFrom(seed: number): Random {
  // A state of 0 would stay 0; the multiplication parts seeds that lie close together.
  let state = Math.imul(seed + 1, 0x9e3779b1) >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state / 2 ** 32;
  };
}

export function pick<T>(random: Random, list: readonly T[]): T {
  return list[Math.floor(random() * list.length)]!;
}

export function integer(random: Random, from: number, to: number): number {
  return from + Math.floor(random() * (to - from + 1));
}
