import { widthAt } from "../section/around.ts";
import type { Point } from "../section/polygon.ts";
import { topOf, type ConcreteForce, type ConcreteLaw, type UltimateStrain } from "./concreteLaw.ts";

/** ∫ of u^k from a to b. */
const power = (k: number, a: number, b: number): number => (b ** (k + 1) - a ** (k + 1)) / (k + 1);

/** Heights of corners, with others between them. */
function cuts(points: readonly Point[], others: readonly number[]): readonly number[] {
  const corners = points.map(({ y }) => y);
  const [low, high] = [Math.min(...corners), Math.max(...corners)];
  const inside = others.filter((y) => y > low && y < high);
  return [...new Set([...corners, ...inside])].sort((a, b) => a - b);
}

/**
 * The concrete's force once more, in another way: strips between the corners, width by width, with the integral of
 * the curve in closed form.
 */
export function concreteForceByStrips(
  points: readonly Point[],
  law: ConcreteLaw,
  { x, edge }: UltimateStrain,
): ConcreteForce {
  const top = topOf(points);
  const zero = top - (law.kind === "BLOCK" ? law.lambda * x : x);
  const end = law.kind === "BLOCK" ? zero : top - x * (1 - law.eps_c / edge);
  const levels = cuts(points, [zero, end]);
  let [F, S] = [0, 0];
  levels.slice(1).forEach((high, i) => {
    const low = levels[i]!;
    const middle = (low + high) / 2;
    if (middle < zero) return;
    // The width is straight between corners: it follows from two places inside.
    const [at, there] = [widthAt(points, low + (high - low) / 4), widthAt(points, low + (3 * (high - low)) / 4)];
    const slope = (there - at) / ((high - low) / 2);
    const width = (y: number): number => at + slope * (y - low - (high - low) / 4);
    if (law.kind === "BLOCK" || middle > end) {
      const h = high - low;
      F += law.f * h * width(middle);
      S += law.f * (h * width(middle) * (top - middle) - (slope * h ** 3) / 12);
      return;
    }
    // u runs from 0 at the end of the curve to 1 where there is no strain; width and depth are straight in u.
    const length = end - zero;
    const [a, b] = [(end - high) / length, (end - low) / length];
    const [p, q] = [width(end), -slope * length];
    const depth = top - end;
    const part = (k: number): number => power(k, a, b) - power(k + law.n, a, b);
    F += law.f * length * (p * part(0) + q * part(1));
    S += law.f * length * (p * depth * part(0) + (q * depth + p * length) * part(1) + q * length * part(2));
  });
  return { F, S };
}

/** Does the compressed zone grow narrower towards its edge? */
export function narrows(points: readonly Point[], depth: number): boolean {
  const top = topOf(points);
  const levels = cuts(points, [top - depth]).filter((y) => y >= top - depth);
  const widths = levels.slice(1).flatMap((high, i) => {
    const low = levels[i]!;
    return [1e-6, 1 - 1e-6].map((part) => widthAt(points, low + part * (high - low)));
  });
  const tolerance = 1e-4 * Math.max(...widths);
  return widths.some((width, i) => i > 0 && width < widths[i - 1]! - tolerance);
}
