import { NoResult } from "../../errors.ts";
import { momentsBetween } from "./around.ts";
import type { Point } from "./polygon.ts";

/** Steel at one height. Stress `free` where the concrete beside it has no strain, tension positive. */
interface Layer {
  readonly A_s: number;
  readonly y: number;
  readonly E: number;
  readonly free: number;
}
export interface CrackedSection {
  readonly points: readonly Point[];
  readonly layers: readonly Layer[];
  readonly E_c: number;
  /** Height to which the moment refers: the centroid of the concrete outline. */
  readonly y_0: number;
}
/** Plane strain, compression positive: ε = mean + bend·(y − y_0). */
export interface Strain {
  readonly mean: number;
  readonly bend: number;
}

export const strainAt = ({ mean, bend }: Strain, { y_0 }: CrackedSection, y: number): number => mean + bend * (y - y_0);

/** Heights between which the concrete is compressed. */
function compressed(strain: Strain, section: CrackedSection): readonly [number, number] {
  if (strain.bend === 0) return strain.mean > 0 ? [-Infinity, Infinity] : [0, 0];
  const zero = section.y_0 - strain.mean / strain.bend;
  return strain.bend > 0 ? [zero, Infinity] : [-Infinity, zero];
}

/** Stress of a layer, tension positive. */
export const layerStress = (strain: Strain, section: CrackedSection, layer: Layer): number =>
  layer.free - layer.E * strainAt(strain, section, layer.y);

interface Resultants {
  readonly N: number;
  readonly M: number;
}
interface Stiffness {
  readonly NN: number;
  readonly NM: number;
  readonly MM: number;
}

const nothing = { A: 0, S: 0, I: 0 } as const;

/** Internal forces and tangent stiffness. Concrete takes compression only; steel in compressed concrete takes the place of concrete. */
function state(strain: Strain, section: CrackedSection): Resultants & Stiffness {
  const { points, layers, E_c, y_0 } = section;
  const [from, to] = compressed(strain, section);
  const { A, S, I } = from === to ? nothing : momentsBetween(points, y_0, from, to);
  const sum = { N: 0, M: 0, NN: E_c * A, NM: E_c * S, MM: E_c * I };
  for (const { A_s, y, E, free } of layers) {
    const a = y - y_0;
    const stiffness = A_s * (strainAt(strain, section, y) > 0 ? E - E_c : E);
    sum.N -= A_s * free;
    sum.M -= A_s * free * a;
    sum.NN += stiffness;
    sum.NM += stiffness * a;
    sum.MM += stiffness * a * a;
  }
  return {
    ...sum,
    N: sum.N + sum.NN * strain.mean + sum.NM * strain.bend,
    M: sum.M + sum.NM * strain.mean + sum.MM * strain.bend,
  };
}

/** Size of the forces at play, by which what is left over is judged. */
function scale(section: CrackedSection, { N, M }: Resultants, depth: number): number {
  const steel = section.layers.reduce((sum, l) => sum + Math.abs(l.A_s * l.free), 0);
  return 1 + Math.abs(N) + steel + Math.abs(M) / depth;
}

/**
 * Strain in equilibrium with N and M. Concrete without tension and elastic steel have a convex energy, so steps of Newton, shortened while
 * they leave more than before, lead to the one solution.
 */
export function equilibrium(section: CrackedSection, load: Resultants): Strain {
  const heights = section.points.map(({ y }) => y);
  const depth = Math.max(...heights) - Math.min(...heights);
  const unit = scale(section, load, depth);
  const miss = (s: Strain): Stiffness & { readonly n: number; readonly m: number; readonly size: number } => {
    const { N, M, NN, NM, MM } = state(s, section);
    const [n, m] = [load.N - N, load.M - M];
    return { n, m, size: Math.hypot(n, m / depth) / unit, NN, NM, MM };
  };
  let strain: Strain = { mean: 1e-6, bend: 0 };
  let left = miss(strain);
  for (let step = 0; step < 200 && left.size > 1e-13; step++) {
    const { NN, NM, MM } = left;
    const det = NN * MM - NM * NM;
    if (!(det > 1e-12 * NN * MM)) break;
    const d = { mean: (MM * left.n - NM * left.m) / det, bend: (NN * left.m - NM * left.n) / det };
    let part = 1;
    let next = left;
    let trial = strain;
    for (; part > 1e-6; part /= 2) {
      trial = { mean: strain.mean + part * d.mean, bend: strain.bend + part * d.bend };
      next = miss(trial);
      if (next.size < left.size) break;
    }
    if (!(next.size < left.size)) break;
    strain = trial;
    left = next;
  }
  if (!(left.size < 1e-9))
    throw new NoResult("no equilibrium of the cracked section is found for the axial force N and the moment M");
  return strain;
}

/** What is left over of both conditions of equilibrium, the concrete added up in strips: apart from the closed integrals. */
export function residual(
  section: CrackedSection,
  load: Resultants,
  strain: Strain,
  widthAt: (y: number) => number,
): number {
  const levels = [...new Set(section.points.map(({ y }) => y))].sort((a, b) => a - b);
  const zero = strain.bend === 0 ? [] : [section.y_0 - strain.mean / strain.bend];
  const cuts = [...levels, ...zero.filter((y) => y > levels[0]! && y < levels.at(-1)!)].sort((a, b) => a - b);
  let [N, M] = [0, 0];
  cuts.slice(1).forEach((top, i) => {
    const bottom = cuts[i]!;
    // Width and stress are straight between cuts: four points of Gauss are exact.
    for (const [at, weight] of gauss4) {
      const y = bottom + at * (top - bottom);
      const force = weight * (top - bottom) * widthAt(y) * section.E_c * Math.max(0, strainAt(strain, section, y));
      N += force;
      M += force * (y - section.y_0);
    }
  });
  for (const layer of section.layers) {
    const displaced = section.E_c * Math.max(0, strainAt(strain, section, layer.y));
    const force = -layer.A_s * (layerStress(strain, section, layer) + displaced);
    N += force;
    M += force * (layer.y - section.y_0);
  }
  const depth = levels.at(-1)! - levels[0]!;
  return Math.hypot(N - load.N, (M - load.M) / depth) / scale(section, load, depth);
}
const gauss4 = [
  [0.5 - 0.4305681557970263, 0.1739274225687269],
  [0.5 - 0.16999052179242816, 0.3260725774312731],
  [0.5 + 0.16999052179242816, 0.3260725774312731],
  [0.5 + 0.4305681557970263, 0.1739274225687269],
] as const;
