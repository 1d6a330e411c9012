/** How alike two things are: 0 for not at all. */
type Likeness = (planned: number, now: number) => number;

/** The longest run of pairs that rises in both, from pairs that rise in the first (patience sorting). */
function longestRise(pairs: readonly (readonly [number, number])[]): readonly (readonly [number, number])[] {
  const tails: number[] = [];
  const before: number[] = [];
  pairs.forEach(([, b], i) => {
    let low = 0;
    let high = tails.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (pairs[tails[middle]!]![1] < b) low = middle + 1;
      else high = middle;
    }
    before[i] = low > 0 ? tails[low - 1]! : -1;
    tails[low] = i;
  });
  const out: (readonly [number, number])[] = [];
  for (let i = tails.at(-1) ?? -1; i >= 0; i = before[i]!) out.unshift(pairs[i]!);
  return out;
}

/** So many pairs are compared one by one; longer stretches without a landmark are split where they can be. */
const mostPairs = 400_000;

/**
 * Pairs two sequences in order: first by keys that are equal and stand once in both, then, between these landmarks,
 * so that the sum of likenesses is
 * greatest. Gives for each planned place the one now, or -1. Equally good pairings prefer places that count on from the one before.
 */
export function align(planned: readonly string[], now: readonly string[], likeness: Likeness): Int32Array {
  const out = new Int32Array(planned.length).fill(-1);
  const stretch = (p0: number, p1: number, n0: number, n1: number): void => {
    while (p0 < p1 && n0 < n1 && planned[p0] === now[n0]) out[p0++] = n0++;
    while (p0 < p1 && n0 < n1 && planned[p1 - 1] === now[n1 - 1]) out[--p1] = --n1;
    if (p0 === p1 || n0 === n1) return;
    const marks = landmarks(p0, p1, n0, n1);
    if (marks.length === 0) return between(p0, p1, n0, n1);
    let p = p0;
    let n = n0;
    for (const [a, b] of marks) {
      stretch(p, a, n, b);
      out[a] = b;
      p = a + 1;
      n = b + 1;
    }
    stretch(p, p1, n, n1);
  };
  const landmarks = (p0: number, p1: number, n0: number, n1: number): readonly (readonly [number, number])[] => {
    const once = (keys: readonly string[], from: number, to: number): Map<string, number> => {
      const seen = new Map<string, number>();
      for (let i = from; i < to; i++) seen.set(keys[i]!, seen.has(keys[i]!) ? -1 : i);
      return seen;
    };
    const there = once(now, n0, n1);
    return longestRise(
      [...once(planned, p0, p1)].flatMap(([key, p]) => {
        const n = there.get(key) ?? -1;
        return p >= 0 && n >= 0 && key !== "" ? [[p, n] as const] : [];
      }),
    );
  };
  const between = (p0: number, p1: number, n0: number, n1: number): void => {
    const rows = p1 - p0;
    const columns = n1 - n0;
    if (rows * columns > mostPairs) {
      for (let i = 0; i < Math.min(rows, columns); i++) if (likeness(p0 + i, n0 + i) > 0) out[p0 + i] = n0 + i;
      return;
    }
    // best[i][j]: the greatest sum for what is left from (i, j) on.
    const width = columns + 1;
    const best = new Float64Array((rows + 1) * width);
    const pair = new Float64Array(rows * columns);
    // Even what is not alike is rather paired than called deleted and inserted.
    const some = 1e-3;
    for (let i = rows - 1; i >= 0; i--) {
      for (let j = columns - 1; j >= 0; j--) {
        const both = (pair[i * columns + j] = likeness(p0 + i, n0 + j) + some) + best[(i + 1) * width + j + 1]!;
        best[i * width + j] = Math.max(both, best[(i + 1) * width + j]!, best[i * width + j + 1]!);
      }
    }
    for (let i = 0, j = 0; i < rows && j < columns;) {
      if (best[i * width + j] === pair[i * columns + j]! + best[(i + 1) * width + j + 1]!) out[p0 + i++] = n0 + j++;
      else if (best[i * width + j] === best[(i + 1) * width + j]) i++;
      else j++;
    }
  };
  stretch(0, planned.length, 0, now.length);
  return out;
}
