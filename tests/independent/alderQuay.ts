import type { Beam } from "./postTensionedBeam.ts";

/** The centroid of the section above its soffit, from its three rectangles. */
const yb = (500 * 250 * 125 + 220 * 770 * 635 + 900 * 180 * 1110) / (500 * 250 + 220 * 770 + 900 * 180);

/**
 * The invented footbridge beam at "Alder Quay", a made-up place: the numbers of the template's example, written out
 * once more. Class N cement, quartzite, class 2 strand.
 */
export const alderQuay: Beam = {
  fck: 40,
  s: 0.25,
  aggregate: 1,
  t0: 14,
  fckt: 34,
  RH: 70,
  ts: 3,
  tEnd: 20833,
  tg: 60,
  tq: 365,
  ads1: 4,
  ads2: 0.12,
  alpha: 0,
  As1: 150,
  fpk: 1860,
  fp01k: 1600,
  Ep: 195000,
  rho1000: 2.5,
  tRelaxHours: 500000,
  mu: 0.19,
  kPerM: 0.008,
  slip: 6,
  L: 24,
  gamma: 25,
  gs: 6,
  q: 15,
  psi1: 0.4,
  psi2: 0.2,
  liftAt: 1.5,
  liftFactor: 1.1,
  liftLow: 0.9,
  fcmFull: 38,
  h: 1200,
  btop: 900,
  ttop: 180,
  bw: 220,
  bbot: 500,
  tbot: 250,
  intervals: 8,
  tendons: [
    { strands: 6, duct: 65, sigj: 1400, left: true, order: 2, e0: yb - 143.922, e1: yb - 113.922, z: -85 },
    { strands: 6, duct: 65, sigj: 1400, left: false, order: 2, e0: yb - 143.922, e1: yb - 113.922, z: 85 },
    { strands: 5, duct: 65, sigj: 1400, left: true, order: 1, e0: yb - (1200 - 216.078), e1: yb - 263.922, z: 0 },
  ],
};
