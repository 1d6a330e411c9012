import type { Point } from "./polygon.ts";

/** Abscissae and weights of the rule of Gauss with three points on 0 to 1: exact up to the fifth power. */
const gauss = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 4 / 9],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/**
 * ∮ f dy round the outline between two heights, counted positive whichever way round the points run. By Green's theorem
 * f = x gives the area of that band, x·y its moment, x²/2 its moment about the vertical axis: the horizontal cuts add
 * nothing.
 */
export function around(
  points: readonly Point[],
  f: (x: number, y: number) => number,
  from: number,
  to: number,
): number {
  let doubled = 0;
  let sum = 0;
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length]!;
    doubled += p.x * q.y - q.x * p.y;
    if (p.y === q.y) return;
    const cut = (y: number): number => Math.min(1, Math.max(0, (y - p.y) / (q.y - p.y)));
    const [first, last] = q.y > p.y ? [cut(from), cut(to)] : [cut(to), cut(from)];
    const dy = (last - first) * (q.y - p.y);
    if (dy === 0) return;
    for (const [at, weight] of gauss) {
      const u = first + at * (last - first);
      sum += weight * dy * f(p.x + u * (q.x - p.x), p.y + u * (q.y - p.y));
    }
  });
  return doubled < 0 ? -sum : sum;
}

/** Area, first and second moment about a height of the band between two heights: three times `around` in one go. */
export function momentsBetween(
  points: readonly Point[],
  about: number,
  from: number,
  to: number,
): { readonly A: number; readonly S: number; readonly I: number } {
  let [doubled, A, S, I] = [0, 0, 0, 0];
  for (let i = 0; i < points.length; i++) {
    const p = points[i]!;
    const q = points[i + 1 === points.length ? 0 : i + 1]!;
    doubled += p.x * q.y - q.x * p.y;
    const rise = q.y - p.y;
    if (rise === 0) continue;
    const atFrom = Math.min(1, Math.max(0, (from - p.y) / rise));
    const atTo = Math.min(1, Math.max(0, (to - p.y) / rise));
    const [first, last] = rise > 0 ? [atFrom, atTo] : [atTo, atFrom];
    if (first === last) continue;
    for (const [at, weight] of gauss) {
      const u = first + at * (last - first);
      const strip = weight * (last - first) * rise * (p.x + u * (q.x - p.x));
      const a = p.y + u * rise - about;
      A += strip;
      S += strip * a;
      I += strip * a * a;
    }
  }
  return doubled < 0 ? { A: -A, S: -S, I: -I } : { A, S, I };
}

/** The part of an outline above a height, as points: the same by cutting edge after edge. */
export function partAbove(points: readonly Point[], level: number): readonly Point[] {
  return points.flatMap((p, i) => {
    const q = points[(i + 1) % points.length]!;
    const kept = p.y >= level ? [p] : [];
    if (p.y >= level === q.y >= level) return kept;
    return [...kept, { x: p.x + ((q.x - p.x) * (level - p.y)) / (q.y - p.y), y: level }];
  });
}

/** Width of an outline just below or just above a height. */
export function widthBeside(points: readonly Point[], y: number, above: boolean): number {
  let doubled = 0;
  let width = 0;
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length]!;
    doubled += p.x * q.y - q.x * p.y;
    const crossed = above ? p.y <= y !== q.y <= y : p.y < y !== q.y < y;
    if (crossed) width += Math.sign(q.y - p.y) * (p.x + ((q.x - p.x) * (y - p.y)) / (q.y - p.y));
  });
  return Math.max(0, doubled < 0 ? -width : width);
}

/** Width at a height; at a step of the outline the narrower side. */
export function widthAt(points: readonly Point[], y: number): number {
  return Math.min(widthBeside(points, y, true), widthBeside(points, y, false));
}
