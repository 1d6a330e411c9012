/**
 * End zones once more, straight from equilibrium and from the standards' rules, without the core: the section in
 * strips between the levels of its corners, integrated by Gauss' rule, which is exact for what stands in them.
 */

export interface Plate {
  readonly y: number;
  readonly z: number;
  /** Height and width. */
  readonly av: number;
  readonly ah: number;
  /** kN */
  readonly P: number;
}
type Corner = readonly [z: number, y: number];

const nodes = [-0.8611363115940526, -0.3399810435848563, 0.3399810435848563, 0.8611363115940526];
const weights = [0.34785484513745385, 0.6521451548625461, 0.6521451548625461, 0.34785484513745385];

/** ∫ f(level, from, to) over the concrete's chords between two levels. */
function overStrips(
  corners: readonly Corner[],
  low: number,
  high: number,
  f: (y: number, z1: number, z2: number) => number,
): number {
  const levels = [...new Set([low, high, ...corners.map(([, y]) => y).filter((y) => y > low && y < high)])].sort(
    (a, b) => a - b,
  );
  let sum = 0;
  for (let i = 0; i + 1 < levels.length; i++) {
    const [from, to] = [levels[i]!, levels[i + 1]!];
    nodes.forEach((node, k) => {
      const y = (from + to) / 2 + (node * (to - from)) / 2;
      const crossed = corners
        .flatMap(([z1, y1], j) => {
          const [z2, y2] = corners[(j + 1) % corners.length]!;
          return y1 > y === y2 > y ? [] : [z1 + ((z2 - z1) * (y - y1)) / (y2 - y1)];
        })
        .sort((a, b) => a - b);
      for (let c = 0; c + 1 < crossed.length; c += 2)
        sum += (weights[k]! * (to - from) * f(y, crossed[c]!, crossed[c + 1]!)) / 2;
    });
  }
  return sum;
}

export interface Block {
  /** Force that crosses a plane's end, kN, and moment on it, kN·mm, of what lies below. */
  readonly V: (level: number) => number;
  readonly M: (level: number) => number;
  readonly low: number;
  readonly high: number;
  readonly breaks: readonly number[];
}

/** Horizontal planes; for vertical ones exchange both coordinates of corners and plates. */
export function endBlock(corners: readonly Corner[], plates: readonly Plate[]): Block {
  const ys = corners.map(([, y]) => y);
  const [bottom, top] = [Math.min(...ys), Math.max(...ys)];
  const whole = (f: (y: number, z1: number, z2: number) => number): number => overStrips(corners, bottom, top, f);
  const A = whole((_, z1, z2) => z2 - z1);
  const yc = whole((y, z1, z2) => y * (z2 - z1)) / A;
  const zc = whole((_, z1, z2) => (z2 ** 2 - z1 ** 2) / 2) / A;
  const Iy = whole((y, z1, z2) => (y - yc) ** 2 * (z2 - z1));
  const Iz = whole((_, z1, z2) => ((z2 - zc) ** 3 - (z1 - zc) ** 3) / 3);
  const Iyz = whole((y, z1, z2) => ((y - yc) * ((z2 - zc) ** 2 - (z1 - zc) ** 2)) / 2);
  const sum = (f: (p: Plate) => number): number => plates.reduce((total, p) => total + f(p), 0);
  const N = sum(({ P }) => P);
  const My = sum(({ P, y }) => P * (y - yc));
  const Mz = sum(({ P, z }) => P * (z - zc));
  // N/A + b (y − y_c) + c (z − z_c) has these moments.
  const det = Iy * Iz - Iyz ** 2;
  const b = (My * Iz - Mz * Iyz) / det;
  const c = (Mz * Iy - My * Iyz) / det;
  const force = (y: number, z1: number, z2: number): number =>
    (N / A + b * (y - yc)) * (z2 - z1) + (c * ((z2 - zc) ** 2 - (z1 - zc) ** 2)) / 2;
  /** The height of a plate that lies below. */
  const under = ({ y, av }: Plate, level: number): number => Math.min(Math.max(level - (y - av / 2), 0), av);
  const V = (level: number): number =>
    overStrips(corners, bottom, Math.min(Math.max(level, bottom), top), force) -
    sum((p) => (p.P * under(p, level)) / p.av);
  const M = (level: number): number =>
    overStrips(corners, bottom, Math.min(Math.max(level, bottom), top), (y, z1, z2) => (level - y) * force(y, z1, z2)) -
    sum((p) => {
      const part = under(p, level);
      return ((p.P * part) / p.av) * (level - (p.y - p.av / 2) - part / 2);
    });
  const breaks = [...ys, ...plates.flatMap(({ y, av }) => [y - av / 2, y + av / 2])].sort((p, q) => p - q);
  return { V, M, low: breaks[0]!, high: breaks.at(-1)!, breaks };
}

/** The largest (sign 1) or the lowest (−1) moment on any plane, and where: the force is nothing there. */
export function turning({ V, M, breaks, low }: Block, sign: 1 | -1): { readonly level: number; readonly M: number } {
  const parts = 40;
  const tried = breaks.slice(0, -1).flatMap((from, i) => {
    const to = breaks[i + 1]!;
    const fine = Array.from({ length: parts + 1 }, (_, k) => from + ((to - from) * k) / parts);
    return fine.slice(0, -1).flatMap((a0, k) => {
      let [a, e] = [a0, fine[k + 1]!];
      if (V(a) * V(e) >= 0) return [a];
      for (let n = 0; n < 60; n++) {
        const m = (a + e) / 2;
        if (V(a) * V(m) <= 0) e = m;
        else a = m;
      }
      return [(a + e) / 2];
    });
  });
  const level = tried.reduce((best, one) => (sign * M(one) > sign * M(best) ? one : best), low);
  return { level, M: M(level) };
}

/** IS 1343:1980, 18.6.2.2: F_bst/P_k = 0.32 − 0.3 y_po/y_o; IRC 112: table, straight between; the larger of both. */
export function burstingIs(plate: number, prism: number, P: number): number {
  const ratio = plate / prism;
  const table = [
    [0.3, 0.26],
    [0.4, 0.23],
    [0.5, 0.19],
    [0.6, 0.16],
    [0.7, 0.12],
  ] as const;
  const held = Math.min(Math.max(ratio, 0.3), 0.7);
  const k = Math.min(Math.floor((held - 0.3) / 0.1 + 1e-9), table.length - 2);
  const [[x1, f1], [x2, f2]] = [table[k]!, table[k + 1]!];
  return P * Math.max(0.32 - 0.3 * ratio, f1 + ((f2 - f1) * (held - x1)) / (x2 - x1));
}

/** IS 1343:1980, 18.6.2.1: 0.48 f_ci √(A_br/A_pun), at most 0.8 f_ci. */
export function bearingIs(Apun: number, Abr: number, fci: number): number {
  return Math.min(0.48 * fci * Math.sqrt(Abr / Apun), 0.8 * fci);
}

export interface Bars {
  readonly diameter: number;
  readonly legs: number;
  readonly layers: number;
  readonly first: number;
  readonly step: number;
}

/** Area of the layers that lie between two places. */
export function steelBetween({ diameter, legs, layers, first, step }: Bars, from: number, to: number): number {
  const at = Array.from({ length: layers }, (_, i) => first + i * step);
  return (at.filter((x) => x >= from && x <= to).length * legs * Math.PI * diameter ** 2) / 4;
}
