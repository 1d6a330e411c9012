import type { Point } from "./polygon.ts";

/** What lies between two neighbouring heights of corners: there the width changes evenly. */
export interface Band {
  readonly low: number;
  readonly high: number;
  /** Width just above the lower and just below the upper height. */
  readonly widths: readonly [number, number];
  /** First moment, about the height asked for, of all that lies above the band. */
  readonly above: number;
}

/** First moment about a height of a trapezium between two heights, by its widths at these. */
function trapezium(low: number, high: number, [atLow, atHigh]: readonly [number, number], about: number): number {
  return ((high - low) * ((2 * low + high - 3 * about) * atLow + (low + 2 * high - 3 * about) * atHigh)) / 6;
}

/** An outline cut at the heights of its corners, from the lowest band up, with what is needed for first moments about a height. */
export function bandsOf(points: readonly Point[], about: number): readonly Band[] {
  const levels = [...new Set(points.map(({ y }) => y))].sort((a, b) => a - b);
  const index = new Map(levels.map((y, i) => [y, i]));
  const [atLow, atHigh] = [new Float64Array(levels.length - 1), new Float64Array(levels.length - 1)];
  let doubled = 0;
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length]!;
    doubled += p.x * q.y - q.x * p.y;
    const [bottom, top, sign] = q.y > p.y ? [p, q, 1] : [q, p, -1];
    const [first, last] = [index.get(bottom.y)!, index.get(top.y)!];
    const at = (level: number): number => {
      if (level === last) return top.x;
      return bottom.x + ((top.x - bottom.x) * (levels[level]! - bottom.y)) / (top.y - bottom.y);
    };
    for (let band = first; band < last; band++) {
      atLow[band]! += sign * at(band);
      atHigh[band]! += sign * at(band + 1);
    }
  });
  const width = (x: number): number => Math.max(0, doubled < 0 ? -x : x);
  const bands: Band[] = [];
  let above = 0;
  for (let i = levels.length - 2; i >= 0; i--) {
    const [low, high] = [levels[i]!, levels[i + 1]!];
    const widths = [width(atLow[i]!), width(atHigh[i]!)] as const;
    bands.push({ low, high, widths, above });
    above += trapezium(low, high, widths, about);
  }
  return bands.reverse();
}

/** Width of a band at one of its heights. */
export function widthIn({ low, high, widths }: Band, y: number): number {
  const u = (y - low) / (high - low);
  return widths[0] * (1 - u) + widths[1] * u;
}

/** First moment, about the same height, of all that lies above a height of a band. */
export function firstMomentAbove(band: Band, y: number, about: number): number {
  return band.above + trapezium(y, band.high, [widthIn(band, y), band.widths[1]], about);
}
