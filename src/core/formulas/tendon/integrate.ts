/** Nodes and weights of Gauss–Legendre on (−1, 1) with 8 points. Source: A&S 25.4.30, Table 25.4. */
const nodes = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
] as const;

function gauss(f: (x: number) => number, a: number, b: number): number {
  const middle = (a + b) / 2;
  const half = (b - a) / 2;
  let sum = 0;
  for (const [x, w] of nodes) sum += w * (f(middle - half * x) + f(middle + half * x));
  return sum * half;
}

/** Shares of a stretch and of the whole integral below which a difference is rounding. */
const roundingOfStretch = 1e-13;
const roundingOfWhole = 1e-15;
const mostHalvings = 12;

/**
 * Halves a stretch until both halves together say what the whole says, but for rounding: its own, or where it is short
 * or hardly counts, that of the whole integral, whose size is given.
 */
function refined(
  f: (x: number) => number,
  a: number,
  b: number,
  size: number,
  whole = gauss(f, a, b),
  left = mostHalvings,
): number {
  const middle = (a + b) / 2;
  const first = gauss(f, a, middle);
  const second = gauss(f, middle, b);
  const rounding = Math.max(roundingOfStretch * (Math.abs(first) + Math.abs(second)), roundingOfWhole * size);
  if (left === 0 || Math.abs(first + second - whole) <= rounding) return first + second;
  return refined(f, a, middle, size, first, left - 1) + refined(f, middle, b, size, second, left - 1);
}

/** The stretches between stops, each as one rule gives it, and the size of the whole integral. */
function roughly(
  f: (x: number) => number,
  stops: readonly number[],
): { readonly pieces: readonly number[]; readonly size: number } {
  const pieces = stops.slice(1).map((to, i) => gauss(f, stops[i]!, to));
  return { pieces, size: pieces.reduce((sum, piece) => sum + Math.abs(piece), 0) };
}

/** Integral of a function that is smooth between the breaks. */
export function integrate(f: (x: number) => number, a: number, b: number, breaks: readonly number[]): number {
  const stops = [a, ...breaks.filter((x) => x > a && x < b), b];
  const { pieces, size } = roughly(f, stops);
  return pieces.reduce((sum, piece, i) => sum + refined(f, stops[i]!, stops[i + 1]!, size, piece), 0);
}

/**
 * ∫ from the first break to a place, made ready for many places: what lies between two breaks is summed once, when a
 * place beyond it is first asked for.
 */
export function integralFrom(f: (x: number) => number, breaks: readonly number[]): (to: number) => number {
  let rough: ReturnType<typeof roughly> | undefined;
  const sums = [0];
  return (to) => {
    const { pieces, size } = (rough ??= roughly(f, breaks));
    let low = 0;
    let high = breaks.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (breaks[middle]! <= to) low = middle;
      else high = middle - 1;
    }
    for (let i = sums.length; i <= low; i++)
      sums.push(sums[i - 1]! + refined(f, breaks[i - 1]!, breaks[i]!, size, pieces[i - 1]));
    const from = breaks[low]!;
    return to > from ? sums[low]! + refined(f, from, to, size) : sums[low]!;
  };
}

/** The same integral by Simpson's rule on many pieces: a second way. */
export function bySimpson(f: (x: number) => number, a: number, b: number, breaks: readonly number[]): number {
  const stops = [a, ...breaks.filter((x) => x > a && x < b), b];
  const n = 512;
  let sum = 0;
  for (let i = 0; i + 1 < stops.length; i++) {
    const [from, to] = [stops[i]!, stops[i + 1]!];
    const h = (to - from) / n;
    // Just inside the ends, where a kink would count for both sides.
    const at = (x: number): number => f(Math.min(Math.max(x, from + 1e-12 * (to - from)), to - 1e-12 * (to - from)));
    for (let j = 0; j < n; j += 2)
      sum += ((at(from + j * h) + 4 * at(from + (j + 1) * h) + at(from + (j + 2) * h)) * h) / 3;
  }
  return sum;
}

/** Zero of a monotonic function between a and b, by bisection down to the last bits. */
export function zero(f: (x: number) => number, a: number, b: number): number {
  const rising = f(b) > f(a);
  let [low, high] = [a, b];
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (f(middle) > 0 === rising) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
