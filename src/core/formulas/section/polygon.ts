import { InputError } from "../../errors.ts";
import { format } from "../../parameters.ts";

export interface Point {
  readonly x: number;
  readonly y: number;
}
export interface Moments {
  readonly A: number;
  readonly y: number;
  readonly I: number;
  readonly u: number;
}

const at = (p: Point): string => `(${format(p.x)}, ${format(p.y)})`;

function crosses(a: Point, b: Point, c: Point, d: Point): boolean {
  const side = (p: Point, r: Point, s: Point): number => Math.sign((r.x - p.x) * (s.y - p.y) - (r.y - p.y) * (s.x - p.x));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

/** Area, centroid, second moment about the centroid and perimeter of a closed polygon, whichever way round its points run. */
export function polygon(points: readonly Point[], parameter: string, name: string): Moments {
  const n = points.length;
  for (let i = 0; i < n; i++) {
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      if (crosses(points[i]!, points[i + 1]!, points[j]!, points[(j + 1) % n]!)) {
        throw new InputError(parameter, `${name} crosses itself: the edge from point ${i + 1} ${at(points[i]!)} meets the edge from point ${j + 1} ${at(points[j]!)}; points must run round the section in order`);
      }
    }
  }
  const origin = points[0]!;
  let doubled = 0;
  let first = 0;
  let second = 0;
  let u = 0;
  points.forEach((p, i) => {
    const next = points[(i + 1) % n]!;
    const y0 = p.y - origin.y;
    const y1 = next.y - origin.y;
    const cross = (p.x - origin.x) * y1 - (next.x - origin.x) * y0;
    doubled += cross;
    first += cross * (y0 + y1);
    second += cross * (y0 * y0 + y0 * y1 + y1 * y1);
    u += Math.hypot(next.x - p.x, next.y - p.y);
  });
  if (doubled === 0) throw new InputError(parameter, `${name} encloses no area; its points must not lie on one line`);
  const A = Math.abs(doubled) / 2;
  const y = first / (3 * doubled);
  return { A, y: y + origin.y, I: Math.abs(second) / 12 - A * y * y, u };
}

/** The second way: vertical strips between the points' heights would cut curves; here trapezia down to the lowest point, edge by edge. */
export function polygonByTrapezia(points: readonly Point[]): Pick<Moments, "A" | "y" | "I"> {
  const base = Math.min(...points.map((p) => p.y));
  let A = 0;
  let S = 0;
  let J = 0;
  points.forEach((p, i) => {
    const next = points[(i + 1) % points.length]!;
    const w = p.x - next.x;
    const a = p.y - base;
    const b = next.y - base;
    A += (w * (a + b)) / 2;
    S += (w * (a * a + a * b + b * b)) / 6;
    J += (w * (a ** 3 + a * a * b + a * b * b + b ** 3)) / 12;
  });
  const y = S / A;
  return { A: Math.abs(A), y: y + base, I: Math.abs(J - A * y * y) };
}
