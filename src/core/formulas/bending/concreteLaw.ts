import { momentsBetween } from "../section/around.ts";
import type { Point } from "../section/polygon.ts";
import { gaussNodes } from "./gauss.ts";

/**
 * Concrete in the ultimate state: a curve of stress over strain, or a block of one stress. Strains of compression
 * positive.
 */
export type ConcreteLaw = {
  /** Strain of the compressed edge at failure, and the strain about which a wholly compressed section turns. */
  readonly eps_cu: number;
  readonly eps_c: number;
  /** Stress of the plateau or of the block. */
  readonly f: number;
} & ({ readonly kind: "CURVE"; readonly n: number } | { readonly kind: "BLOCK"; readonly lambda: number });

/** Strain over the depth below the compressed edge, compression positive: zero at depth x. */
export interface UltimateStrain {
  readonly x: number;
  readonly edge: number;
}

/** Force of the concrete and its moment about the compressed edge. */
export interface ConcreteForce {
  readonly F: number;
  readonly S: number;
}

export const topOf = (points: readonly Point[]): number => points.reduce((most, { y }) => Math.max(most, y), -Infinity);
export const bottomOf = (points: readonly Point[]): number => points.reduce((low, { y }) => Math.min(low, y), Infinity);

const nodes = gaussNodes(16);

/**
 * ∮ of a stress that depends on the height alone, between the heights `from` (no strain) and `to` (end of the curve).
 */
function curved(
  points: readonly Point[],
  law: ConcreteLaw & { kind: "CURVE" },
  from: number,
  to: number,
  top: number,
): ConcreteForce {
  let [doubled, F, S] = [0, 0, 0];
  const length = to - from;
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length]!;
    doubled += p.x * q.y - q.x * p.y;
    const low = Math.max(from, Math.min(p.y, q.y));
    const high = Math.min(to, Math.max(p.y, q.y));
    if (!(high > low)) return;
    const sense = q.y > p.y ? 1 : -1;
    const slope = (q.x - p.x) / (q.y - p.y);
    for (const [at, weight] of nodes) {
      // Points crowd towards the end of the curve, where a power that is no whole number is not smooth.
      const y = high - (high - low) * at ** 3;
      const left = Math.min(1, (to - y) / length);
      const strip =
        sense * weight * 3 * at * at * (high - low) * law.f * (1 - left ** law.n) * (p.x + slope * (y - p.y));
      F += strip;
      S += strip * (top - y);
    }
  });
  return doubled < 0 ? { F: -F, S: -S } : { F, S };
}

/** What the compressed concrete gives, summed edge by edge of the outline. */
export function concreteForce(points: readonly Point[], law: ConcreteLaw, { x, edge }: UltimateStrain): ConcreteForce {
  const top = topOf(points);
  if (law.kind === "BLOCK") {
    const { A, S } = momentsBetween(points, top, top - law.lambda * x, top);
    return { F: law.f * A, S: -law.f * S };
  }
  const full = top - x * Math.max(0, 1 - law.eps_c / edge);
  const plateau = momentsBetween(points, top, full, top);
  // Where the edge stays below the end of the curve, the curve runs on above the section.
  const end = top - x * (1 - law.eps_c / edge);
  const { F, S } = curved(points, law, top - x, end, top);
  return { F: law.f * plateau.A + F, S: -law.f * plateau.S + S };
}

/** A layer counts as a band of this share of the height: so the block's end passes it without a jump. */
const band = 0.01;

/** Stress of the concrete at a depth, of which steel takes the place. */
export function concreteStressAt(law: ConcreteLaw, { x, edge }: UltimateStrain, depth: number, height: number): number {
  if (law.kind === "BLOCK") {
    const inside = (law.lambda * x - depth) / (band * height) + 0.5;
    return law.f * Math.min(1, Math.max(0, inside));
  }
  const strain = (edge * (x - depth)) / x;
  if (strain <= 0) return 0;
  return law.f * (1 - Math.max(0, 1 - strain / law.eps_c) ** law.n);
}
