/**
 * Strength of an I-section once more, apart from the core: bending by fibres, the web in slices, links and struts by
 * their equations. N, mm, MPa; sagging moments.
 */
import { byFibres } from "./bending.ts";
import type { ISection } from "./en1992.ts";

/** Steel at a height, with what it has been stressed to while prestress and self-weight act. */
export interface StrengthLayer {
  readonly A: number;
  readonly y: number;
  readonly E: number;
  readonly f_yd: number;
  readonly sigma: number;
}

export interface StrengthPlace {
  readonly layers: readonly StrengthLayer[];
  /** Self-weight, the highest and lowest design moment, and the shear force. */
  readonly Mg: number;
  readonly M: number;
  readonly low: number;
  readonly V: number;
  /** Width that ducts take off, and the spacing of the links. */
  readonly ducts: number;
  readonly s: number;
  /** Whether the compression along the member counts for the struts. */
  readonly compressed: boolean;
}

export interface StrengthMember extends ISection {
  readonly Ac: number;
  readonly yb: number;
  readonly Ic: number;
  readonly fck: number;
  readonly fctm: number;
  readonly Ecm: number;
  readonly Asw: number;
  readonly f_ywd: number;
  readonly bars: number;
}

const widthOf = (v: StrengthMember, y: number): number => {
  if (y < v.tbot) return v.bbot;
  return y < v.h - v.ttop ? v.bw : v.btop;
};

/** Bending: neutral axis, moment, depth to the resultant of the tension. */
export function bendingAt(v: StrengthMember, place: StrengthPlace) {
  const force = place.layers.reduce((sum, { A, sigma }) => sum + A * sigma, 0);
  const couple = place.layers.reduce((sum, { A, sigma, y }) => sum + A * sigma * (v.yb - y), 0) - place.Mg;
  const layers = place.layers
    .filter(({ A }) => A > 0)
    .map(({ A, y, E, f_yd, sigma }) => ({
      A,
      d: v.h - y,
      E,
      f_y: f_yd,
      f_t: f_yd,
      e_u: 1,
      e_ud: Infinity,
      // Bars are free of stress; tendons are brought back to where the concrete beside them has no strain.
      pre: sigma === 0 ? 0 : sigma / E + (force / v.Ac + (couple * (v.yb - y)) / v.Ic) / v.Ecm,
    }));
  const { x, M } = byFibres({
    height: v.h,
    width: (depth) => widthOf(v, v.h - depth),
    layers,
    f_cd: v.fck / 1.5,
    eps_c2: 0.002,
    eps_cu: 0.0035,
    n: 2,
  });
  const pulls = layers.map((layer) => {
    const strain = layer.pre + (0.0035 * (layer.d - x)) / x;
    return { F: layer.A * Math.max(0, Math.min(layer.E * strain, layer.f_y)), d: layer.d };
  });
  const d = pulls.reduce((sum, p) => sum + p.F * p.d, 0) / pulls.reduce((sum, p) => sum + p.F, 0);
  const e = force === 0 ? 0 : place.layers.reduce((sum, { A, sigma, y }) => sum + A * sigma * (v.yb - y), 0) / force;
  return { x, M, d, force, e };
}

/** Shear at which the principal tension reaches f_ctd somewhere up the height; 0 where bending cracks an edge. */
function uncracked(v: StrengthMember, place: StrengthPlace, P: number, e: number, M: number): number {
  const f = (0.7 * v.fctm) / 1.5;
  const stress = (y: number): number => P / v.Ac + ((P * e - M) * (v.yb - y)) / v.Ic;
  if (Math.min(stress(0), stress(v.h)) <= -f) return 0;
  const slices = 24_000;
  const step = v.h / slices;
  let [S, least] = [0, Infinity];
  for (let i = slices - 1; i > 0; i--) {
    S += widthOf(v, (i + 0.5) * step) * step * ((i + 0.5) * step - v.yb);
    const y = i * step;
    const b = Math.min(widthOf(v, y - 1e-6), widthOf(v, y + 1e-6)) - place.ducts;
    least = Math.min(least, ((v.Ic * b) / S) * Math.sqrt(Math.max(0, f * f + stress(y) * f)));
  }
  return least;
}

/** Shear without and with links, and where the web crushes. */
export function shearAt(v: StrengthMember, place: StrengthPlace) {
  const { d, force, e } = bendingAt(v, place);
  const b = v.bw - place.ducts;
  const f_cd = v.fck / 1.5;
  const k = Math.min(2, 1 + Math.sqrt(200 / d));
  const stress = Math.max(
    0.12 * k * Math.cbrt(100 * Math.min(0.02, v.bars / (b * d)) * v.fck),
    0.035 * k ** 1.5 * Math.sqrt(v.fck),
  );
  const cracked = (stress + 0.15 * Math.min(force / v.Ac, 0.2 * f_cd)) * b * d;
  const strut = (place.compressed ? 1 + force / v.Ac / f_cd : 1) * b * 0.6 * (1 - v.fck / 250) * f_cd;
  const tie = (v.Asw / place.s) * v.f_ywd;
  const z = 0.9 * d;
  const withLinks = (cot: number): number => Math.min(tie * z * cot, (strut * z * cot) / (1 + cot * cot));
  const cots = Array.from({ length: 15_001 }, (_, i) => 1 + i / 10_000);
  return {
    uncracked: Math.min(...[place.M, place.low].map((M) => uncracked(v, place, force, e, M))),
    cracked,
    links: Math.max(...cots.map(withLinks)),
    crushing: (strut * z) / 2,
  };
}
