/**
 * The pre-tensioned beam of the template, computed a second time straight from the equations of EN 1992-1-1:2004 and
 * statics. It imports nothing of
 * the product. Where the sheet uses transformed sections, this one takes the concrete without the strands' holes and
 * solves for the forces in
 * the strands that strain with it; where the sheet uses the closed form of Annex D, this one searches.
 * Units: N, mm, MPa, rad, days; temperatures in °C, curing and relaxation times in hours.
 */
import { bisect, concrete, creepCoefficient, highStressCreep, iSection, shrinkage, type ISection } from "./en1992.ts";

export interface PreTensionedBeam extends ISection {
  readonly fck: number;
  readonly fckt: number;
  readonly aggregate: number;
  readonly RH: number;
  readonly t0: number;
  readonly ts: number;
  readonly tEnd: number;
  /** Ages at the superimposed load and at the start of the quasi-permanent part of the variable one. */
  readonly tg: number;
  readonly tq: number;
  readonly alpha: number;
  readonly ads1: number;
  readonly ads2: number;
  readonly k6: number;
  readonly As1: number;
  readonly fpk: number;
  readonly fp01k: number;
  readonly Ep: number;
  readonly rho1000: number;
  readonly tRelax: number;
  readonly diameter: number;
  readonly etaP1: number;
  readonly eta1: number;
  readonly alpha1: number;
  readonly alpha2: number;
  readonly gammaC: number;
  readonly bedLength: number;
  readonly slip: number;
  readonly tBed: number;
  readonly xDev: number;
  readonly curing: readonly { readonly T: number; readonly hours: number }[];
  readonly tensionedAt: number;
  readonly L: number;
  readonly gamma: number;
  readonly gs: number;
  readonly q: number;
  readonly psi1: number;
  readonly psi2: number;
  readonly liftAt: number;
  readonly liftFactor: number;
  readonly liftLow: number;
  readonly intervals: number;
  readonly rows: readonly {
    readonly strands: number;
    readonly yEnd: number;
    readonly yMid: number;
    readonly debond: number;
    readonly sigj: number;
  }[];
}

/** Solves a full system by elimination with pivots. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const n = right.length;
  const m = matrix.map((row, i) => [...row, right[i]!]);
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(m[i]![k]!) > Math.abs(m[best]![k]!)) best = i;
    [m[k], m[best]] = [m[best]!, m[k]!];
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const f = m[i]![k]! / m[k]![k]!;
      for (let j = k; j <= n; j++) m[i]![j]! -= f * m[k]![j]!;
    }
  }
  return m.map((row, i) => row[n]! / row[i]!);
}

interface Strand {
  readonly A: number;
  readonly y: number;
}

/** Concrete with strands in it: the holes are out, each strand strains as the concrete at its height. */
function composite(
  outline: { readonly Ac: number; readonly yb: number; readonly Ic: number },
  strands: readonly Strand[],
  n: number,
) {
  const holes = strands.reduce((sum, s) => sum + s.A, 0);
  const A = outline.Ac - holes;
  const y = (outline.Ac * outline.yb - strands.reduce((sum, s) => sum + s.A * s.y, 0)) / A;
  const I = outline.Ic + outline.Ac * (outline.yb - y) ** 2 - strands.reduce((sum, s) => sum + s.A * (s.y - y) ** 2, 0);
  /** Stress at a height of the concrete alone under forces in the strands and a moment about its own centroid. */
  const ofConcrete = (height: number, forces: readonly number[], M: number): number =>
    forces.reduce((sum, F, j) => sum + F / A + (F * (y - strands[j]!.y) * (y - height)) / I, 0) -
    (M * (y - height)) / I;
  /** Each strand's stress is `start` less n times the concrete stress beside it. */
  return (start: readonly number[], M: number) => {
    const matrix = strands.map((s, i) =>
      strands.map(
        (o, j) =>
          (i === j ? 1 : 0) +
          n *
            ofConcrete(
              s.y,
              strands.map((_, k) => (k === j ? o.A : 0)),
              0,
            ),
      ),
    );
    const right = strands.map(
      (s, i) =>
        start[i]! -
        n *
          ofConcrete(
            s.y,
            strands.map(() => 0),
            M,
          ),
    );
    const stress = solve(matrix, right);
    const forces = stress.map((sigma, i) => sigma * strands[i]!.A);
    return { stress, at: (height: number) => ofConcrete(height, forces, M) };
  };
}

export function preTensionedBeam(v: PreTensionedBeam) {
  const L = v.L * 1000;
  const outline = iSection(v);
  const { Ac, yb, Ic, u, h0 } = outline;
  const { fcm, fctm, Ecm } = concrete(v.fck, v.aggregate);
  const fcmt = v.fckt + 8;
  const fctmt = fctm * Math.min(fcmt / fcm, 1);
  const Ecmt = Ecm * (fcmt / fcm) ** 0.3;
  // (B.10)
  const t0T = v.curing.reduce((sum, { T, hours }) => sum + (hours / 24) * Math.exp(13.65 - 4000 / (273 + T)), 0);
  // Heat made the concrete older by as much at every later age; durations stay real.
  const phiFrom = (age: number): number => creepCoefficient({ ...v, t0: age }, h0, t0T + age - v.t0);
  const phi = phiFrom(v.t0),
    phiG = phiFrom(v.tg),
    phiQ = phiFrom(v.tq);
  const ecsEnd = shrinkage(v, h0, v.tEnd),
    ecs0 = shrinkage(v, h0, v.t0);

  // On the bed: (3.29), (10.2), (10.3)
  const hottest = Math.max(...v.curing.map(({ T }) => T));
  const tEq =
    (1.14 ** (hottest - 20) / (hottest - 20)) * v.curing.reduce((sum, { T, hours }) => sum + (T - 20) * hours, 0);
  const tRelease = v.tBed + tEq;
  const relaxed = (sigma: number, hours: number): number => {
    const mu = sigma / v.fpk;
    return sigma * 0.66 * v.rho1000 * Math.exp(9.1 * mu) * (hours / 1000) ** (0.75 * (1 - mu)) * 1e-5;
  };
  const heat = 0.5 * v.Ep * 1e-5 * (hottest - v.tensionedAt);
  const draw = (v.slip * v.Ep) / (v.bedLength * 1000);
  const bed = v.rows.map((r) => {
    const Ap = r.strands * v.As1;
    const after = r.sigj - draw;
    const relaxation = relaxed(after, tRelease);
    const sr = after - relaxation - heat;
    return { ...r, Ap, after, relaxation, sr, elongation: (r.sigj * v.bedLength * 1000) / v.Ep, holdDown: r.sigj * Ap };
  });
  const ApTotal = bed.reduce((sum, b) => sum + b.Ap, 0);
  const mean = (of: (b: (typeof bed)[number], i: number) => number): number =>
    bed.reduce((sum, b, i) => sum + b.Ap * of(b, i), 0) / ApTotal;

  // Release at midspan, all strands bonded; transmission by 8.10.2.2
  const g = Ac * v.gamma * 1e-6;
  const atRelease = v.Ep / Ecmt,
    later = v.Ep / Ecm;
  const midspan = composite(
    outline,
    bed.map((b) => ({ A: b.Ap, y: b.yMid })),
    atRelease,
  )(
    bed.map((b) => b.sr),
    (g * L * L) / 8,
  );
  const fbpt = (v.etaP1 * v.eta1 * 0.7 * fctmt) / v.gammaC;
  const transmission = bed.map((b, i) => {
    const lpt = (v.alpha1 * v.alpha2 * v.diameter * midspan.stress[i]!) / fbpt;
    return { s0: midspan.stress[i]!, lpt, lpt1: 0.8 * lpt, lpt2: 1.2 * lpt, ldisp: Math.hypot(lpt, v.h - b.yMid) };
  });

  // Stations over the left half
  const debonds = bed.map((b) => b.debond * 1000);
  const places = [
    ...Array.from({ length: v.intervals + 1 }, (_, i) => (L * i) / (2 * v.intervals)),
    ...debonds,
    ...debonds.map((a, i) => Math.min(a + transmission[i]!.lpt1, L / 2)),
    ...debonds.map((a, i) => Math.min(a + transmission[i]!.lpt2, L / 2)),
    v.xDev * 1000,
    v.liftAt * 1000,
    // Where the check of the web begins: as far from the support as the centroid is high.
    Math.min(yb, L / 2),
  ].sort((a, b) => a - b);
  const distinct = places.reduce<number[]>(
    (kept, x) => (kept.length === 0 || x > kept.at(-1)! + 10 ? [...kept, x] : kept),
    [],
  );
  const stations = places.map((_, i) => distinct[Math.min(i, distinct.length - 1)]!);

  const rows = stations.map((x) => {
    const bending = (w: number): number => (w * x * (L - x)) / 2;
    const Mg = bending(g),
      Ms = bending(v.gs),
      Mq = bending(v.q);
    const Ml = (x > v.liftAt * 1000 ? ((g * L) / 2) * (x - v.liftAt * 1000) : 0) - (g * x * x) / 2;
    const y = bed.map((b) => (x >= v.xDev * 1000 ? b.yMid : b.yEnd + ((b.yMid - b.yEnd) * x) / (v.xDev * 1000)));
    const built = (length: (i: number) => number) =>
      bed.map((_, i) => Math.min(1, Math.max(0, (x - debonds[i]!) / length(i))));
    const b1 = built((i) => transmission[i]!.lpt1),
      b2 = built((i) => transmission[i]!.lpt2);
    const strands = bed.map((b, i) => ({ A: b1[i]! * b.Ap, y: y[i]! }));
    const early = composite(outline, strands, atRelease);
    const late = composite(outline, strands, later);
    const none = bed.map(() => 0);
    const all = early(
      bed.map((b) => b.sr),
      Mg,
    );
    const prestress = early(
      bed.map((b) => b.sr),
      0,
    );
    // A row's stress where it is bonded; rows with no bond yet follow the concrete all the same.
    const sp0r = bed.map((b, i) => b.sr - atRelease * all.at(y[i]!));
    const sP1 = bed.map((b, i) => b1[i]! * b.Ap * sp0r[i]!),
      sP2 = bed.map((b, i) => b2[i]! * b.Ap * sp0r[i]!);
    const P0 = sP1.reduce((a, b) => a + b, 0),
      P02 = sP2.reduce((a, b) => a + b, 0);
    const centre = mean((_, i) => y[i]!);
    const eAll = yb - centre;
    const sp0 = mean((_, i) => sp0r[i]!);
    const scT = all.at(centre);
    // Stored on the lifting points until the superimposed load.
    const scStored = early(
      bed.map((b) => b.sr),
      Ml,
    ).at(centre);
    const scG = early(none, Mg - Ml).at(centre) + late(none, Ms).at(centre),
      scQ = late(none, v.psi2 * Mq).at(centre);
    const scLater = late(none, Ms + v.psi2 * Mq).at(centre);
    const scQP = scT + scLater;
    const spr = sp0 - later * scLater;
    // Annex D: the time after which the present stress would have relaxed by as much.
    const earlier = mean((b) => b.relaxation);
    const S = spr + earlier;
    const te = Math.exp(bisect((lnT) => relaxed(S, Math.exp(lnT)) - earlier, -60, 20));
    const dpr = relaxed(S, te + v.tRelax - tRelease) - earlier;
    const below = 1 + later * (ApTotal / Ac) * (1 + (Ac / Ic) * eAll * eAll) * (1 + 0.8 * phi);
    const byShrinkage = ((ecsEnd - ecs0) * v.Ep) / below,
      creep = (later * (highStressCreep(phi, scStored, v.fckt) * scStored + phiG * scG + phiQ * scQ)) / below,
      relaxation = (0.8 * dpr) / below;
    const dcsr = byShrinkage + creep + relaxation;
    const spChar =
      (strands.reduce((sum, s) => sum + s.A, 0) / ApTotal) * (sp0 - later * late(none, Ms + Mq).at(centre));
    // Prestress with the upper length keeps the section of the lower one.
    const Atf = Ac + (atRelease - 1) * strands.reduce((sum, s) => sum + s.A, 0);
    const ytf = (Ac * yb + (atRelease - 1) * strands.reduce((sum, s) => sum + s.A * s.y, 0)) / Atf;
    const Itf =
      Ic + Ac * (yb - ytf) ** 2 + (atRelease - 1) * strands.reduce((sum, s) => sum + s.A * (s.y - ytf) ** 2, 0);
    const upper = (height: number): number =>
      bed.reduce((sum, b, i) => {
        const F = b2[i]! * b.Ap * b.sr;
        return sum + F / Atf + (F * (ytf - y[i]!) * (ytf - height)) / Itf;
      }, 0);
    const lost = (built: readonly number[], height: number): number =>
      bed.reduce((sum, b, i) => {
        const F = built[i]! * b.Ap * dcsr;
        return sum + F / Ac + (F * (yb - y[i]!) * (yb - height)) / Ic;
      }, 0);
    const ends = [v.h, 0] as const;
    return {
      x,
      Mg,
      Ms,
      Mq,
      Ml,
      y,
      b1,
      b2,
      sp0r,
      sP1,
      sP2,
      P0,
      P02,
      eAll,
      sp0,
      scT,
      scStored,
      scQP,
      spr,
      dpr,
      byShrinkage,
      creep,
      relaxation,
      dcsr,
      spChar,
      Pinf: P0 - dcsr * strands.reduce((sum, s) => sum + s.A, 0),
      Pinf2: P02 - dcsr * bed.reduce((sum, b, i) => sum + b2[i]! * b.Ap, 0),
      before: ends.map((height) => prestress.at(height)),
      lateLower: ends.map((height) => prestress.at(height) - lost(b1, height)),
      lateUpper: ends.map((height) => upper(height) - lost(b2, height)),
      own: ends.map((height) => early(none, 1).at(height)),
      loads: ends.map((height) => late(none, 1).at(height)),
    };
  });

  const stages = [
    { prestress: "before", lift: 0, s: 0, q: 0, fc: v.k6 * v.fckt, ft: -fctmt },
    { prestress: "before", lift: 1, s: 0, q: 0, fc: v.k6 * v.fckt, ft: -fctmt },
    { prestress: "before", lift: v.liftFactor, s: 0, q: 0, fc: v.k6 * v.fckt, ft: -fctmt },
    { prestress: "before", lift: v.liftLow, s: 0, q: 0, fc: v.k6 * v.fckt, ft: -fctmt },
    // Loads may act right after transfer: the same combinations with the force before time-dependent losses.
    { prestress: "before", lift: 0, s: 1, q: 0, fc: 0.6 * v.fck, ft: -fctm },
    { prestress: "before", lift: 0, s: 1, q: v.psi2, fc: 0.6 * v.fck, ft: -fctm },
    { prestress: "before", lift: 0, s: 1, q: v.psi1, fc: 0.6 * v.fck, ft: -fctm },
    { prestress: "before", lift: 0, s: 1, q: 1, fc: 0.6 * v.fck, ft: -fctm },
    { prestress: "lateLower", lift: 0, s: 1, q: 0, fc: 0.45 * v.fck, ft: -fctm },
    { prestress: "lateUpper", lift: 0, s: 1, q: v.psi2, fc: 0.45 * v.fck, ft: -fctm },
    { prestress: "lateUpper", lift: 0, s: 1, q: v.psi1, fc: 0.6 * v.fck, ft: -fctm },
    { prestress: "lateUpper", lift: 0, s: 1, q: 1, fc: 0.6 * v.fck, ft: -fctm },
  ].map((stage) => ({
    ...stage,
    at: rows.map((r) => {
      const p = r[stage.prestress as "before" | "lateLower" | "lateUpper"];
      const own = stage.lift > 0 ? stage.lift * r.Ml : r.Mg;
      const m = [0, 1].map((i) => own * r.own[i]! + (stage.s * r.Ms + stage.q * r.Mq) * r.loads[i]!);
      const all = [0, 1].flatMap((i) => [1.05, 0.95].map((f) => f * p[i]! + m[i]!));
      const min = Math.min(...all),
        max = Math.max(...all);
      return {
        min,
        max,
        top: p[0]! + m[0]!,
        bottom: p[1]! + m[1]!,
        uc: Math.max(max, 0) / stage.fc,
        ok: max <= stage.fc && min >= stage.ft,
      };
    }),
  }));
  const sigjMean = mean((b) => b.sigj);
  const losses = rows.map((r) => ({
    bed: sigjMean - mean((b) => b.sr),
    elastic: mean((b) => b.sr) - r.sp0,
    total: sigjMean - r.sp0 + r.dcsr,
  }));
  const limits = {
    jack: Math.min(0.8 * v.fpk, 0.9 * v.fp01k),
    initial: Math.min(0.75 * v.fpk, 0.85 * v.fp01k),
    service: 0.75 * v.fpk,
  };
  return {
    Ac,
    yb,
    Ic,
    u,
    h0,
    fcm,
    fctm,
    Ecm,
    fcmt,
    fctmt,
    Ecmt,
    t0T,
    phi,
    phiG,
    phiQ,
    ecsEnd,
    ecs0,
    g,
    tEq,
    tRelease,
    heat,
    draw,
    bed,
    ApTotal,
    fbpt,
    transmission,
    rows,
    stages,
    sigjMean,
    losses,
    limits,
  };
}
