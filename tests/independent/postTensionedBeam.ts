/**
 * The post-tensioned beam of the template, computed a second time straight from the equations of EN 1992-1-1:2004 and statics.
 * It imports nothing of the product. Where the product integrates in pieces and searches by bracketing, this one uses other ways:
 * a closed polynomial for the parabolas, Romberg integration and bisection.
 * Units: N, mm, MPa, rad, days throughout; the results are in the units of the sheet.
 */
import { bisect, concrete, creepCoefficient, highStressCreep, iSection, shrinkage } from "./en1992.ts";

export interface Beam {
  readonly fck: number;
  readonly s: number;
  readonly aggregate: number;
  readonly t0: number;
  readonly fckt: number;
  readonly RH: number;
  readonly ts: number;
  readonly tEnd: number;
  /** Age when all tendons are stressed again to the same stress. */
  readonly tAgain?: number;
  /** Cylinder strength proved then; without it that at transfer. */
  readonly fckAgain?: number;
  /** Ages at the superimposed load and at the start of the quasi-permanent part of the variable one. */
  readonly tg: number;
  readonly tq: number;
  readonly ads1: number;
  readonly ads2: number;
  readonly alpha: number;
  readonly As1: number;
  readonly fpk: number;
  readonly fp01k: number;
  readonly Ep: number;
  readonly rho1000: number;
  readonly tRelaxHours: number;
  readonly mu: number;
  readonly kPerM: number;
  readonly slip: number;
  readonly L: number;
  readonly gamma: number;
  readonly gs: number;
  readonly q: number;
  readonly psi1: number;
  readonly psi2: number;
  readonly liftAt: number;
  readonly liftFactor: number;
  readonly liftLow: number;
  /** Mean strength the anchorage asks for full stressing. */
  readonly fcmFull: number;
  readonly h: number;
  readonly btop: number;
  readonly ttop: number;
  readonly bw: number;
  readonly bbot: number;
  readonly tbot: number;
  readonly intervals: number;
  /** Moments in N·mm at x in mm beside those of the uniform loads, and the places where they bend, which are stations. */
  readonly further?: {
    readonly places: readonly number[];
    readonly Mg: (x: number) => number;
    readonly Ms: (x: number) => number;
    readonly Mq: (x: number) => number;
    /** While the member hangs or is stored on its lifting points. */
    readonly Ml?: (x: number) => number;
  };
  /** Never stored on its lifting points: self-weight acts on the span from the start. */
  readonly notStored?: boolean;
  /** No uniform load on a span: the further moments are all there are. */
  readonly noSpan?: boolean;
  /** Each tendon: simple parabola through (0, e0), (L/2, e1) with its lowest point there, (L, e0). */
  readonly tendons: readonly {
    readonly strands: number;
    readonly duct: number;
    readonly sigj: number;
    readonly left: boolean;
    readonly order: number;
    readonly e0: number;
    readonly e1: number;
    /** Horizontal position, the same along the span. */
    readonly z: number;
  }[];
}

function romberg(f: (x: number) => number, a: number, b: number): number {
  let row = [((b - a) * (f(a) + f(b))) / 2];
  for (let k = 1; k <= 16; k++) {
    const n = 2 ** k;
    const h = (b - a) / n;
    let middle = 0;
    for (let i = 1; i < n; i += 2) middle += f(a + i * h);
    const next = [row[0]! / 2 + h * middle];
    for (let j = 1; j <= k; j++) next.push(next[j - 1]! + (next[j - 1]! - row[j - 1]!) / (4 ** j - 1));
    const settled = k > 3 && Math.abs(next[k]! - row[k - 1]!) <= 1e-14 * Math.abs(next[k]!);
    row = next;
    if (settled) break;
  }
  return row.at(-1)!;
}

export function beam(v: Beam) {
  const km = v.kPerM / 1000;
  const L = v.L * 1000;
  const { Ac, yb, Ic, u, h0 } = iSection(v);
  const { fcm, fctm, Ecm } = concrete(v.fck, v.aggregate);
  const beta = (t: number): number => Math.exp(v.s * (1 - Math.sqrt(28 / t)));
  const fckt0 = v.t0 < 28 ? beta(v.t0) * fcm - 8 : v.fck;
  const fcmt = Math.min(beta(v.t0) * fcm, v.fckt + 8);
  const fctmt = Math.min(fctm * beta(v.t0) ** (v.t0 < 28 ? 1 : 2 / 3), (fctm * fcmt) / fcm);
  const Ecmt = Ecm * (fcmt / fcm) ** 0.3;
  const phiFrom = (age: number): number => creepCoefficient({ ...v, t0: age }, h0, age);
  const phi = phiFrom(v.t0),
    phiG = phiFrom(v.tg),
    phiQ = phiFrom(v.tq);
  const ecs = (t: number): number => shrinkage(v, h0, t);
  // What creeps and shrinks before the tendons are stressed again is made up for.
  const phiDone = v.tAgain === undefined ? 0 : creepCoefficient({ ...v, tEnd: v.tAgain }, h0, v.t0);
  const ecsEnd = ecs(v.tEnd),
    ecs0 = ecs(v.tAgain ?? v.t0);

  // Each tendon: friction by (5.45), draw-in by equal areas.
  const tendons = v.tendons.map((t) => {
    const drop = t.e1 - t.e0;
    const e = (x: number): number => t.e0 + (4 * drop * x * (L - x)) / L ** 2;
    const slope = (x: number): number => (4 * drop * (L - 2 * x)) / L ** 2;
    const theta = (x: number): number => Math.abs(Math.atan(slope(t.left ? 0 : L)) - Math.atan(slope(x)));
    const from = (x: number): number => (t.left ? x : L - x);
    const friction = (x: number): number => t.sigj * Math.exp(-v.mu * (theta(x) + km * from(x)));
    const atDistance = (d: number): number => friction(t.left ? d : L - d);
    const far = atDistance(L);
    const setOver = (reach: number): number => 2 * (romberg(atDistance, 0, reach) - reach * atDistance(reach));
    const need = v.slip * v.Ep;
    const whole = setOver(L) <= need;
    const la = whole ? L : bisect((d) => setOver(d) - need, 0, L);
    const level = whole ? far - (need - setOver(L)) / (2 * L) : atDistance(la);
    const after = (x: number): number => Math.min(friction(x), 2 * level - friction(x));
    const elongation = romberg((x) => (friction(x) / v.Ep) * Math.sqrt(1 + slope(x) ** 2), 0, L);
    // Level at midspan, where a parabola e'' x bends most.
    const radius = L ** 2 / (8 * Math.abs(drop));
    return { ...t, Ap: t.strands * v.As1, e, slope, theta, from, friction, level, la, after, elongation, radius };
  });
  const Aps = tendons.reduce((sum, t) => sum + t.Ap, 0);

  // Places and stations
  const places = [
    ...Array.from({ length: v.intervals + 1 }, (_, i) => (L * i) / v.intervals),
    ...tendons.map((t) => (t.left ? t.la : L - t.la)),
    ...tendons.map(() => L / 2),
    v.liftAt * 1000,
    L - v.liftAt * 1000,
    ...(v.further?.places ?? []),
    // Where the check of the web begins: as far from the supports as the centroid is high.
    yb,
    L - yb,
  ].sort((a, b) => a - b);
  const distinct = places.filter((x, i) => i === 0 || x > places[i - 1]! + 10);
  const stations = places.map((_, i) => distinct[Math.min(i, distinct.length - 1)]!);

  const g = Ac * v.gamma * 1e-6;
  const alphaE = v.Ep / Ecm;
  const fcTransfer = 0.6 * v.fckt,
    fcChar = 0.6 * v.fck,
    fcQP = 0.45 * v.fck;
  const rows = stations.map((x) => {
    const span = v.noSpan ? 0 : (x * (L - x)) / 2;
    const Mg = g * span + (v.further?.Mg(x) ?? 0),
      Ms = v.gs * span + (v.further?.Ms(x) ?? 0),
      Mq = v.q * span + (v.further?.Mq(x) ?? 0);
    const a = v.liftAt * 1000;
    const R = (g * L) / 2;
    const Ml =
      (x > a ? R * (x - a) : 0) + (x > L - a ? R * (x - (L - a)) : 0) - (g * x * x) / 2 + (v.further?.Ml?.(x) ?? 0);
    // Net section: the outline less the holes, about their own centroid.
    const hole = (d: number): number => (Math.PI * d * d) / 4;
    const y = tendons.map((t) => yb - t.e(x));
    const Anet = Ac - tendons.reduce((sum, t) => sum + hole(t.duct), 0);
    const ynet = (Ac * yb - tendons.reduce((sum, t, i) => sum + hole(t.duct) * y[i]!, 0)) / Anet;
    const Inet =
      Ic +
      Ac * (yb - ynet) ** 2 -
      tendons.reduce((sum, t, i) => sum + (Math.PI * t.duct ** 4) / 64 + hole(t.duct) * (y[i]! - ynet) ** 2, 0);
    const extra = tendons.map((t) => (alphaE - 1) * t.Ap);
    const Atr = Ac + extra.reduce((sum, w) => sum + w, 0);
    const ytr = (Ac * yb + extra.reduce((sum, w, i) => sum + w * y[i]!, 0)) / Atr;
    const Itr = Ic + Ac * (yb - ytr) ** 2 + extra.reduce((sum, w, i) => sum + w * (y[i]! - ytr) ** 2, 0);
    const P = tendons.map((t) => t.after(x) * t.Ap);
    const en = y.map((yi) => ynet - yi);
    const total = P.reduce((sum, p) => sum + p, 0);
    const del = tendons.map(
      (t, j) =>
        (v.Ep / Ecmt) *
        tendons.reduce(
          (sum, o, i) =>
            o.order > t.order
              ? sum + P[i]! / Anet + (P[i]! * en[i]! * en[j]!) / Inet - ((P[i]! / total) * Mg * en[j]!) / Inet
              : sum,
          0,
        ),
    );
    const sp0t = tendons.map((t, j) => t.after(x) - del[j]!);
    const P0t = tendons.map((t, j) => sp0t[j]! * t.Ap);
    const P0 = P0t.reduce((sum, p) => sum + p, 0);
    const e0 = P0t.reduce((sum, p, j) => sum + p * en[j]!, 0) / P0;
    const sp0 = P0 / Aps;
    // Stored on the lifting points until the superimposed load; grouted by then, so that later loads bend tendons and concrete together.
    const stored = v.notStored ? Mg : Ml;
    const et = ytr - ynet + e0;
    const scG = (-(Mg - stored) * e0) / Inet - (Ms * et) / Itr,
      scQ = (-v.psi2 * Mq * et) / Itr;
    const scLater = -((Ms + v.psi2 * Mq) * et) / Itr;
    const scT = P0 / Anet + (P0 * e0 * e0) / Inet - (Mg * e0) / Inet;
    const scStored = P0 / Anet + (P0 * e0 * e0) / Inet - (stored * e0) / Inet;
    const scQP = scT + scLater;
    const spr = sp0 - alphaE * scLater;
    const muR = spr / v.fpk;
    const dpr = spr * 0.66 * v.rho1000 * Math.exp(9.1 * muR) * (v.tRelaxHours / 1000) ** (0.75 * (1 - muR)) * 1e-5;
    const below = 1 + alphaE * (Aps / Anet) * (1 + (Anet / Inet) * e0 * e0) * (1 + 0.8 * (phi - phiDone));
    const byShrinkage = ((ecsEnd - ecs0) * v.Ep) / below,
      relaxation = (0.8 * dpr) / below,
      // Each change of stress with the coefficient of its own age; here all later ones relieve, so only the first can be high.
      creep =
        (alphaE * (highStressCreep(phi, scStored, v.fckt) * (1 - phiDone / phi) * scStored + phiG * scG + phiQ * scQ)) /
        below;
    // Stressed again, each tendon comes back to its stress after draw-in: no shortening that it has not felt follows.
    const Pa = v.tAgain === undefined ? P0 : total;
    const ea = v.tAgain === undefined ? e0 : P.reduce((sum, p, j) => sum + p * en[j]!, 0) / total;
    const spChar = Pa / Aps + (alphaE * (Ms + Mq) * et) / Itr;
    const dcsr = byShrinkage + relaxation + creep;
    const spInf = sp0 - dcsr;
    const Pinf = spInf * Aps;
    const top = v.h - ynet;
    // Bending about the weak axis by tendons off it, on the gross section.
    const web = v.h - v.ttop - v.tbot;
    const Iz = (v.ttop * v.btop ** 3 + web * v.bw ** 3 + v.tbot * v.bbot ** 3) / 12;
    const Mw = tendons.reduce((sum, t, j) => sum + (v.tAgain === undefined ? P0t : P)[j]! * t.z, 0);
    const weak = (1.1 * Math.abs(Mw) * Math.max(v.btop, v.bbot)) / 2 / Iz;
    const onTheWay = tendons.map((t) => {
      const sum = tendons.reduce((total, o, i) => (o.order <= t.order ? total + P[i]! * o.z : total), 0);
      return (1.1 * Math.abs(sum) * Math.max(v.btop, v.bbot)) / 2 / Iz;
    });
    const fibre = (F: number, e = e0) => [F / Anet - (F * e * top) / Inet, F / Anet + (F * e * ynet) / Inet] as const;
    const again = fibre(Pa, ea);
    const own = v.notStored ? [Mg] : [Mg, Ml, v.liftFactor * Ml, v.liftLow * Ml];
    const withOwn = own.flatMap((M) =>
      [1.1, 0.9].flatMap((f) => [f * again[0] + (M * top) / Inet, f * again[1] - (M * ynet) / Inet]),
    );
    return {
      x,
      Mg,
      Ms,
      Mq,
      Ml,
      Anet,
      ynet,
      Inet,
      Atr,
      ytr,
      Itr,
      y,
      en,
      P,
      sdr: tendons.map((t) => t.after(x)),
      del,
      sp0t,
      P0t,
      P0,
      e0,
      sp0,
      spChar,
      scT,
      scStored,
      scQP,
      spr,
      dpr,
      shrinkage: byShrinkage,
      relaxation,
      creep,
      dcsr,
      spInf,
      Pinf,
      Mw,
      weak,
      onTheWay,
      before: fibre(P0),
      Pa,
      again,
      againLow: Math.min(...withOwn) - weak,
      againHigh: Math.max(...withOwn) + weak,
      late: fibre(Pinf),
    };
  });

  /** 0.6 of the strength then, and the tensile strength, neither more than is to be expected of the concrete. */
  function again() {
    const at = v.tAgain ?? v.t0;
    const fck = v.fckAgain ?? v.fckt;
    const mean = Math.min(beta(at) * fcm, fck + 8);
    return {
      fc: 0.6 * fck,
      ft: -Math.min(fctm * beta(at) ** (at < 28 ? 1 : 2 / 3), (fctm * mean) / fcm),
      strength: (fck + 8) / (Math.min(beta(at), 1) * fcm),
      tendons: Math.max(...rows.flatMap((r) => tendons.map((t) => t.after(r.x)))),
    };
  }
  const ft = -fctm;
  const stages = [
    { name: "transfer", late: false, lift: 0, s: 0, q: 0, fc: fcTransfer, ft: -fctmt },
    { name: "storage", late: false, lift: 1, s: 0, q: 0, fc: fcTransfer, ft: -fctmt },
    { name: "lifting", late: false, lift: v.liftFactor, s: 0, q: 0, fc: fcTransfer, ft: -fctmt },
    { name: "lifting, less weight", late: false, lift: v.liftLow, s: 0, q: 0, fc: fcTransfer, ft: -fctmt },
    // Loads may act right after transfer: the same combinations with the force before time-dependent losses.
    { name: "permanent, before losses", late: false, lift: 0, s: 1, q: 0, fc: fcChar, ft: 0 },
    { name: "quasi, before losses", late: false, lift: 0, s: 1, q: v.psi2, fc: fcChar, ft: 0 },
    { name: "frequent, before losses", late: false, lift: 0, s: 1, q: v.psi1, fc: fcChar, ft },
    { name: "characteristic, before losses", late: false, lift: 0, s: 1, q: 1, fc: fcChar, ft },
    { name: "permanent", late: true, lift: 0, s: 1, q: 0, fc: fcQP, ft: 0 },
    { name: "quasi", late: true, lift: 0, s: 1, q: v.psi2, fc: fcQP, ft: 0 },
    { name: "frequent", late: true, lift: 0, s: 1, q: v.psi1, fc: fcChar, ft },
    { name: "characteristic", late: true, lift: 0, s: 1, q: 1, fc: fcChar, ft },
  ].map((stage) => ({
    ...stage,
    at: rows.map((r) => {
      // Later loads come on after all were stressed again.
      const p = stage.late ? r.late : stage.s ? r.again : r.before;
      const own = stage.lift > 0 ? stage.lift * r.Ml : r.Mg;
      const later = stage.s * r.Ms + stage.q * r.Mq;
      const m = [
        (own * (v.h - r.ynet)) / r.Inet + (later * (v.h - r.ytr)) / r.Itr,
        (-own * r.ynet) / r.Inet - (later * r.ytr) / r.Itr,
      ] as const;
      const all = [0, 1].flatMap((i) => [1.1, 0.9].map((f) => f * p[i as 0 | 1] + m[i as 0 | 1]));
      const min = Math.min(...all) - r.weak,
        max = Math.max(...all) + r.weak;
      // What pulls over what holds, fibre by fibre, with the worse of the two characteristic values of prestress.
      const ut = Math.max(
        ...[0, 1].map((i) => {
          const sp = p[i as 0 | 1] * (p[i as 0 | 1] < 0 ? 1.1 : 0.9);
          const sm = m[i as 0 | 1] - r.weak;
          const pull = (sp < 0 ? -sp : 0) + (sm < 0 ? -sm : 0);
          return pull === 0 ? 0 : pull / ((sp > 0 ? sp : 0) + (sm > 0 ? sm : 0) - stage.ft);
        }),
      );
      return {
        ut,
        min,
        max,
        top: p[0] + m[0],
        bottom: p[1] + m[1],
        uc: Math.max(max, 0) / stage.fc,
        ok: max <= stage.fc && min >= stage.ft,
      };
    }),
  }));
  // After each tendon: what is stressed so far, with the worst self-weight for each fibre between none (all, after the
  // last) and what twice the
  // highest hogging moment of the prestress can lift.
  const last = Math.max(...tendons.map((t) => t.order));
  const steps = tendons.map((now) => {
    const at = rows.map((r) => {
      const all = r.P.reduce((sum, p) => sum + p, 0);
      const force = tendons.map((t, j) => {
        if (t.order > now.order) return 0;
        const taken = tendons.map((o, i) =>
          o.order > t.order && o.order <= now.order
            ? r.P[i]! / r.Anet + ((r.P[i]! * r.en[i]! - (r.P[i]! / all) * r.Mg) * r.en[j]!) / r.Inet
            : 0,
        );
        return r.P[j]! - (v.Ep / Ecmt) * t.Ap * taken.reduce((sum, s) => sum + s, 0);
      });
      const P = force.reduce((sum, p) => sum + p, 0);
      const Pe = force.reduce((sum, p, j) => sum + p * r.en[j]!, 0);
      return { r, P, Pe, weak: r.onTheWay[tendons.indexOf(now)]! };
    });
    const share =
      tendons.reduce((sum, t) => sum + (t.order <= now.order ? t.sigj * t.Ap : 0), 0) /
      tendons.reduce((sum, t) => sum + t.sigj * t.Ap, 0);
    const most = now.order === last ? Infinity : 2.2 * Math.max(0, ...at.map((a) => a.Pe));
    return {
      share,
      P: at.map((a) => a.P),
      e: at.map((a) => a.Pe / a.P),
      need: v.fcmFull * (0.5 + (0.5 * (now.sigj / Math.min(0.8 * v.fpk, 0.9 * v.fp01k) - 0.3)) / 0.7),
      stresses: at.map(({ r, P, Pe, weak }) => {
        const little = now.order === last ? r.Mg : 0;
        const much = Math.min(r.Mg, most);
        const zt = v.h - r.ynet;
        const top = (f: number, M: number): number => (f * P) / r.Anet + ((M - f * Pe) * zt) / r.Inet;
        const bottom = (f: number, M: number): number => (f * P) / r.Anet - ((M - f * Pe) * r.ynet) / r.Inet;
        return {
          top: Math.min(top(1.1, little), top(0.9, little)) - weak,
          bottom: Math.min(bottom(1.1, much), bottom(0.9, much)) - weak,
          high: Math.max(top(1.1, much), top(0.9, much), bottom(1.1, little), bottom(0.9, little)) + weak,
        };
      }),
    };
  });
  const sigjMean = tendons.reduce((sum, t) => sum + t.sigj * t.Ap, 0) / Aps;
  const losses = rows.map((r) => {
    const anchored = r.P.reduce((sum, p) => sum + p, 0) / Aps;
    return { friction: sigjMean - anchored, elastic: anchored - r.sp0, total: sigjMean - r.spInf };
  });
  return {
    sigjMean,
    losses,
    Ac,
    yb,
    Ic,
    u,
    h0,
    fcm,
    fctm,
    Ecm,
    fckt0,
    fcmt,
    fctmt,
    Ecmt,
    phi,
    phiG,
    phiQ,
    ecsEnd,
    ecs0,
    g,
    Aps,
    tendons,
    rows,
    stages,
    steps,
    again: again(),
    limits: {
      jack: Math.min(0.8 * v.fpk, 0.9 * v.fp01k),
      initial: Math.min(0.75 * v.fpk, 0.85 * v.fp01k),
      service: 0.75 * v.fpk,
    },
  };
}
