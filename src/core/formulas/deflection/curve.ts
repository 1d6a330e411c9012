/** A value at a place along the member. */
interface At {
  readonly x: number;
  readonly value: number;
}
/** Places closer than this count once, mm. */
const sameStation = 0.01;
/** How the value runs between two stations. */
type Between = "PARABOLA" | "LINE";

/** From one station to the next: value = from + rise·s/h − bow·s(h − s). */
interface Stretch {
  readonly x: number;
  readonly h: number;
  readonly from: number;
  readonly rise: number;
  readonly bow: number;
  /** First and second integral up to its left end. */
  readonly area: number;
  readonly moment: number;
}

/** Half the second divided difference at each inner station. */
function bends(points: readonly At[]): readonly number[] {
  return points.slice(1, -1).map((here, i) => {
    const [left, right] = [points[i]!, points[i + 2]!];
    const before = (here.value - left.value) / (here.x - left.x);
    const after = (right.value - here.value) / (right.x - here.x);
    return (after - before) / (right.x - left.x);
  });
}

/** The smaller of two bends: a kink at one station then stays a kink. */
const gentler = (a: number, b: number): number => (Math.abs(a) < Math.abs(b) ? a : b);

/** The bend of a stretch: of its two ends; at the ends of the member of the two nearest inner stations. */
function bendOf(all: readonly number[], stretch: number): number {
  if (all.length === 0) return 0;
  if (all.length === 1) return all[0]!;
  const left = Math.min(Math.max(stretch - 1, 0), all.length - 2);
  return gentler(all[left]!, all[left + 1]!);
}

/**
 * A value known at stations and its integrals along the member. Between stations it runs straight, or along a parabola
 * through neighbouring stations; that is exact for straight, harped and parabolic tendons whose kinks are stations.
 */
export class Curve {
  readonly #stretches: readonly Stretch[];

  constructor(stations: readonly At[], between: Between) {
    const points = [...stations]
      .sort((a, b) => a.x - b.x)
      .filter(({ x }, i, all) => i === 0 || x - all[i - 1]!.x > sameStation);
    const all = between === "LINE" ? [] : bends(points);
    let [area, moment] = [0, 0];
    this.#stretches = points.slice(1).map(({ x: to, value }, i) => {
      const { x, value: from } = points[i]!;
      const stretch = { x, h: to - x, from, rise: value - from, bow: bendOf(all, i), area, moment };
      [area, moment] = [areaAt(stretch, stretch.h), momentAt(stretch, stretch.h)];
      return stretch;
    });
  }

  get from(): number {
    return this.#stretches[0]?.x ?? 0;
  }
  get to(): number {
    const last = this.#stretches.at(-1);
    return last ? last.x + last.h : 0;
  }
  /** Where one law ends and the next begins. */
  get breaks(): readonly number[] {
    return this.#stretches.map(({ x }) => x);
  }

  #at(x: number): readonly [Stretch, number] {
    let [low, high] = [0, this.#stretches.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.#stretches[middle]!.x <= x) low = middle;
      else high = middle - 1;
    }
    const stretch = this.#stretches[low]!;
    return [stretch, x - stretch.x];
  }
  value(x: number): number {
    const [{ from, rise, h, bow }, s] = this.#at(x);
    return from + (rise * s) / h - bow * s * (h - s);
  }
  /** ∫ value from the left end to x. */
  area(x: number): number {
    return areaAt(...this.#at(x));
  }
  /** ∫∫ value from the left end to x. */
  moment(x: number): number {
    return momentAt(...this.#at(x));
  }
}

const areaAt = ({ from, rise, h, bow, area }: Stretch, s: number): number =>
  area + from * s + (rise * s * s) / (2 * h) - bow * ((h * s * s) / 2 - s ** 3 / 3);

const momentAt = ({ from, rise, h, bow, area, moment }: Stretch, s: number): number =>
  moment + area * s + (from * s * s) / 2 + (rise * s ** 3) / (6 * h) - bow * ((h * s ** 3) / 6 - s ** 4 / 12);

/** Integral by Simpson's rule over each piece between breaks, which is exact for a cubic in each. */
export function bySimpsonPieces(f: (x: number) => number, breaks: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i + 1 < breaks.length; i++) {
    const [from, to] = [breaks[i]!, breaks[i + 1]!];
    const h = to - from;
    // Just inside the ends, where a step would count for both sides.
    if (h > 0) sum += (h / 6) * (f(from + 1e-12 * h) + 4 * f(from + h / 2) + f(to - 1e-12 * h));
  }
  return sum;
}
