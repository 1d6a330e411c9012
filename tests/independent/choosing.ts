/**
 * The invented choice for the roof beam at Alder Quay straight from the equations, without the core: N, mm, MPa, days. The
 * feasible domain is searched over every pair of its straight limits.
 */
import { concrete, creepCoefficient, iSection, shrinkage } from "./en1992.ts";

export interface Limits {
  readonly fc: number;
  readonly ft: number;
}

/** Least force, N, and its eccentricity: each pair of limits over u = 1/P and e is solved and tried on all the others. */
export function leastForce(
  section: { readonly A: number; readonly I: number; readonly yb: number; readonly h: number; readonly low: number },
  stages: readonly (Limits & { readonly M: number; readonly r: number })[],
): { readonly P: number; readonly e: number } {
  const { A, I, yb, h, low } = section;
  // a u + b e ≤ c
  const lines = stages.flatMap(({ M, r, fc, ft }) =>
    [yb, yb - h].flatMap((y) => [
      [-(M * y) / I - fc, (r * y) / I, -r / A] as const,
      [(M * y) / I + ft, -(r * y) / I, r / A] as const,
    ]),
  );
  const all = [...lines, [0, 1, yb - low] as const, [0, -1, h - yb - low] as const];
  let best = { u: -Infinity, e: NaN };
  all.forEach(([a1, b1, c1], i) =>
    all.slice(i + 1).forEach(([a2, b2, c2]) => {
      const det = a1 * b2 - a2 * b1;
      const [u, e] = [(c1 * b2 - c2 * b1) / det, (a1 * c2 - a2 * c1) / det];
      if (!(u > 0) || !Number.isFinite(u)) return;
      const keeps = all.every(
        ([a, b, c]) => a * u + b * e - c <= 1e-9 * (Math.abs(a * u) + Math.abs(b * e) + Math.abs(c)),
      );
      if (keeps && u > best.u) best = { u, e };
    }),
  );
  return { P: 1 / best.u, e: best.e };
}

export interface Stage extends Limits {
  readonly M: number;
  readonly r: readonly [number, number];
  /** Force of the strands, N, before the factors. */
  readonly P: number;
}

/** Stresses of both fibres by the strands, compression positive, with the worse factor, and what they use of the limits. */
export function held(section: { A: number; I: number; yb: number; h: number }, e: number, stages: readonly Stage[]) {
  const { A, I, yb, h } = section;
  return stages.map(({ M, r, P, fc, ft }) => {
    const fibres = [yb, yb - h].map((y) => ({ prestress: P / A + (P * e * y) / I, loads: (-M * y) / I }));
    const all = fibres.flatMap(({ prestress, loads }) => r.map((factor) => factor * prestress + loads));
    const [most, least] = [Math.max(...all), Math.min(...all)];
    // Tension: what pulls over what holds, each with its worse factor.
    const pulled = fibres.map(({ prestress, loads }) => {
      const parts = [Math.min(r[0] * prestress, r[1] * prestress), loads];
      const sum = (sign: number): number => parts.reduce((all, one) => all + Math.max(sign * one, 0), 0);
      return sum(-1) / (sum(1) - ft);
    });
    return { most, least, u: Math.max(most / fc, ...pulled) };
  });
}

/**
 * Loss at midspan by a draw-in of 6 mm, with the fall of stress by friction uniform: the triangle between the stresses
 * before and after it, mirrored on its level, has the area of draw-in and modulus; where it passes the far end, or the middle
 * with jacks at both ends, what is left over spreads evenly.
 */
export function drawInAtMidspan(friction: number, L: number, Ep: number, ends: 1 | 2 = 1): number {
  const length = L / ends;
  const fall = friction / (L / 2);
  const area = 6 * Ep;
  const reach = Math.sqrt(area / fall);
  const level = reach <= length ? fall * reach : fall * length + (area - fall * length ** 2) / length / 2;
  return Math.max(2 * (level - friction), 0);
}

const L = 15_000;
const [gs, q, psi2] = [10, 8, 0.2];
const section = iSection({ h: 750, btop: 400, ttop: 150, bw: 140, bbot: 450, tbot: 180 });
const perimeter = 2 * 750 + 400 + 450 + (400 - 140) + (450 - 140);

type Climate = Parameters<typeof creepCoefficient>[0];

interface Method {
  readonly fck: number;
  readonly share: number;
  readonly t0: number;
  readonly As: number;
  /** The product's load over its area. */
  readonly fpk: number;
  readonly low: number;
  readonly immediate: number;
  readonly late: number;
  readonly r: readonly [number, number];
  readonly climate: Climate;
  /** With chlorides: the factor of the frequent load, under which no fibre may be pulled. */
  readonly psi1?: number;
  readonly ends?: 1 | 2;
}

/** What the sheet finds for one method, forces in N. */
export function sized(m: Method, fp01k: number, pre: boolean) {
  const { Ac, yb, Ic } = section;
  const g = (25 * Ac) / 1e6;
  const [Mg, Mp] = [(g * L * L) / 8, ((gs + psi2 * q) * L * L) / 8];
  const { fctm, Ecm, fcm } = concrete(m.fck, 1);
  const fckt = m.share * m.fck;
  const stages = [
    { M: Mg, r: m.r[0], fc: 0.6 * fckt, ft: -fctm * Math.min((fckt + 8) / fcm, 1) },
    { M: ((g + gs + q) * L * L) / 8, r: m.r[1] * (1 - m.late), fc: 0.6 * m.fck, ft: -fctm },
    {
      M: ((g + gs + (m.psi1 ?? psi2) * q) * L * L) / 8,
      ...{ r: m.r[1] * (1 - m.late), fc: 0.45 * m.fck, ft: m.psi1 === undefined ? -fctm : 0 },
    },
  ];
  const { P, e } = leastForce({ A: Ac, I: Ic, yb, h: 750, low: m.low }, stages);
  const limit = Math.min(0.8 * m.fpk, 0.9 * fp01k);
  const sigj = 0.96 * limit;
  const s0 = sigj * (1 - m.immediate);
  const n = Math.ceil(P / (m.As * s0));
  const tendons = pre ? n : Math.ceil(n / 12);
  const Ap = n * m.As;
  const Ep = 195_000;
  const Ect = Ecm * ((fckt + 8) / fcm) ** 0.3;
  const stress = (force: number, M: number): number => force / Ac + ((force * e - M) * e) / Ic;
  const first = pre
    ? (6 * Ep) / 80_000
    : sigj * (1 - Math.exp(-(0.2 * ((4 * Math.max(e, 0)) / L) + (0.002 * L) / 2 / 1000)));
  const c = Ap * (1 / Ac + (e * e) / Ic);
  const elastic = pre
    ? ((Ep / Ect) * ((sigj - first) * c - (Mg * e) / Ic)) / (1 + (Ep / Ect - 1) * c)
    : ((Ep / Ect) * stress(Ap * s0, Mg) * (tendons - 1)) / (2 * tendons);
  const slip = pre ? 0 : drawInAtMidspan(first, L, Ep, m.ends);
  const after = sigj - first - slip - elastic;
  const h0 = (2 * Ac) / perimeter;
  const phi = creepCoefficient(m.climate, h0, m.t0);
  const later = creepCoefficient({ ...m.climate, t0: 60 }, h0, 60);
  const ecs = shrinkage(m.climate, h0, 20_833) - shrinkage(m.climate, h0, m.t0);
  // 3.3.2(7): pre-tensioned, only what is lost in the bed is taken off.
  const initial = pre ? sigj - first : after;
  const mu = initial / m.fpk;
  const relaxation = initial * 0.66 * 2.5 * Math.exp(9.1 * mu) * (500_000 / 1000) ** (0.75 * (1 - mu)) * 1e-5;
  const creep = phi * stress(Ap * after, Mg) + later * ((-Mp * e) / Ic);
  const top = ecs * Ep + 0.8 * relaxation + (Ep / Ecm) * creep;
  const all = top / (1 + (Ep / Ecm) * (Ap / Ac) * (1 + (Ac / Ic) * e * e) * (1 + 0.8 * phi));
  const used = held(
    { A: Ac, I: Ic, yb, h: 750 },
    e,
    stages.map((stage, i) => ({ ...stage, r: m.r, P: Ap * (i === 0 ? after : after - all) })),
  );
  return {
    used,
    slip,
    P,
    e,
    n,
    tendons,
    Ap,
    sigj,
    first,
    elastic,
    after,
    relaxation,
    all,
    part: (sigj - after + all) / sigj,
    mass: ((Ac * L) / 1e9) * 2500,
  };
}

const weather = (fck: number, t0: number, alpha: number, ads1: number, ads2: number): Climate => ({
  ...{ fck, RH: 60, t0, ts: 1, tEnd: 20_833, alpha, ads1, ads2 },
});

const pre: Method = {
  ...{ fck: 45, share: 0.67, t0: 3, As: 93, fpk: 173_000 / 93, low: 85, immediate: 0.09, late: 0.18, r: [1.05, 0.95] },
  climate: weather(45, 3, 1, 6, 0.11),
};
const post: Method = {
  ...{ fck: 40, share: 0.75, t0: 14, As: 150, fpk: 1860, low: 120, immediate: 0.1, late: 0.16, r: [1.1, 0.9] },
  climate: weather(40, 14, 0, 4, 0.12),
};

/** Both methods, as the example or otherwise; the proof stress is the product's load over its area. */
export const choiceWith = (other: Partial<Method> = {}) => ({
  pre: sized({ ...pre, ...other }, 152_000 / 93, true),
  post: sized({ ...post, ...other }, 246_000 / 150, false),
});

export const choice = choiceWith();
