/**
 * What both beams need of EN 1992-1-1:2004 and of statics, written out a second time. It imports nothing of the product.
 * Units: N, mm, MPa, rad, days.
 */
export function bisect(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  const rising = f(b) > 0;
  for (let i = 0; i < 200; i++) {
    const m = (a + b) / 2;
    if (f(m) > 0 === rising) b = m;
    else a = m;
  }
  return (a + b) / 2;
}

export interface ISection {
  readonly h: number;
  readonly btop: number;
  readonly ttop: number;
  readonly bw: number;
  readonly bbot: number;
  readonly tbot: number;
}

/** Three rectangles, about the soffit, then about the centroid. */
export function iSection(v: ISection) {
  const web = v.h - v.ttop - v.tbot;
  const parts = [
    [v.btop, v.ttop, v.h - v.ttop / 2],
    [v.bw, web, v.tbot + web / 2],
    [v.bbot, v.tbot, v.tbot / 2],
  ] as const;
  const Ac = parts.reduce((sum, [b, t]) => sum + b * t, 0);
  const yb = parts.reduce((sum, [b, t, y]) => sum + b * t * y, 0) / Ac;
  const Ic = parts.reduce((sum, [b, t, y]) => sum + (b * t ** 3) / 12 + b * t * y * y, 0) - Ac * yb * yb;
  const u = 2 * v.h + 2 * v.btop + 2 * v.bbot - 2 * v.bw;
  return { Ac, yb, Ic, u, h0: (2 * Ac) / u };
}

/** Table 3.1 and 3.1.3. */
export function concrete(fck: number, aggregate: number) {
  const fcm = fck + 8;
  return {
    fcm,
    fctm: fck <= 50 ? 0.3 * fck ** (2 / 3) : 2.12 * Math.log(1 + fcm / 10),
    Ecm: 1000 * aggregate * 22 * (fcm / 10) ** 0.3,
  };
}

interface Climate {
  readonly fck: number;
  readonly RH: number;
  readonly t0: number;
  readonly ts: number;
  readonly tEnd: number;
  readonly alpha: number;
  readonly ads1: number;
  readonly ads2: number;
}

/** Annex B.1; `t0T` is the temperature-adjusted age at loading. */
export function creepCoefficient(v: Climate, h0: number, t0T: number): number {
  const fcm = v.fck + 8;
  const a1 = (35 / fcm) ** 0.7,
    a2 = (35 / fcm) ** 0.2,
    a3 = Math.sqrt(35 / fcm);
  const t0adj = Math.max(0.5, t0T * (9 / (2 + t0T ** 1.2) + 1) ** v.alpha);
  const base = (1 - v.RH / 100) / (0.1 * Math.cbrt(h0));
  const phiRH = fcm <= 35 ? 1 + base : (1 + base * a1) * a2;
  const betaH = Math.min(
    1.5 * (1 + (0.012 * v.RH) ** 18) * h0 + 250 * (fcm <= 35 ? 1 : a3),
    1500 * (fcm <= 35 ? 1 : a3),
  );
  const dt = v.tEnd - v.t0;
  return phiRH * (16.8 / Math.sqrt(fcm)) * (1 / (0.1 + t0adj ** 0.2)) * (dt / (betaH + dt)) ** 0.3;
}

/** 3.1.4(6) and Annex B.2: drying and autogenous, from casting to the age t. */
export function shrinkage(v: Climate, h0: number, t: number): number {
  const fcm = v.fck + 8;
  const betaRH = 1.55 * (1 - (v.RH / 100) ** 3);
  const ecd0 = 0.85 * (220 + 110 * v.ads1) * Math.exp(-v.ads2 * (fcm / 10)) * 1e-6 * betaRH;
  const points = [
    [100, 1],
    [200, 0.85],
    [300, 0.75],
    [500, 0.7],
  ] as const;
  let kh = h0 <= 100 ? 1 : 0.7;
  for (let i = 0; i < 3; i++) {
    const [x0, y0] = points[i]!,
      [x1, y1] = points[i + 1]!;
    if (h0 > x0 && h0 <= x1) kh = y0 + ((y1 - y0) * (h0 - x0)) / (x1 - x0);
  }
  const drying = t > v.ts ? ((t - v.ts) / (t - v.ts + 0.04 * Math.sqrt(h0 ** 3))) * kh * ecd0 : 0;
  return drying + 2.5 * (v.fck - 10) * 1e-6 * (1 - Math.exp(-0.2 * Math.sqrt(t)));
}

/** 3.1.4(4) with (3.7): above 0.45 f_ck(t0) the coefficient grows. */
export function highStressCreep(phi: number, stress: number, fckt0: number): number {
  const k = stress / fckt0;
  return k <= 0.45 ? phi : phi * Math.exp(1.5 * k - 0.675);
}
