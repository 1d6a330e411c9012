import type { PreTensionedBeam } from "./preTensionedBeam.ts";

/** The invented roof beam at "Alder Quay", a made-up place: the numbers of the template's example, written out once more. Class R cement, quartzite, class 2 strand, gradual release, good bond. */
export const alderQuayRoof: PreTensionedBeam = {
  fck: 45, fckt: 30, aggregate: 1, RH: 60, t0: 1, ts: 1, tEnd: 20833, alpha: 1, ads1: 6, ads2: 0.11, k6: 0.6,
  As1: 93, fpk: 1860, fp01k: 1600, Ep: 195000, rho1000: 2.5, tRelax: 500000,
  diameter: 12.5, etaP1: 3.2, eta1: 1, alpha1: 1, alpha2: 0.19, gammaC: 1.5,
  bedLength: 80, slip: 6, tBed: 24, xDev: 5.5, curing: [{ T: 20, hours: 3 }, { T: 40, hours: 4 }, { T: 60, hours: 8 }, { T: 40, hours: 5 }], tensionedAt: 20,
  L: 15, gamma: 25, gs: 10, q: 8.4, psi1: 0.5, psi2: 0.2, liftAt: 1.2, liftFactor: 1.15, intervals: 4,
  h: 750, btop: 400, ttop: 150, bw: 140, bbot: 450, tbot: 180,
  rows: [
    { strands: 8, yEnd: 60, yMid: 60, debond: 0, sigj: 1380 },
    { strands: 2, yEnd: 110, yMid: 110, debond: 1.5, sigj: 1380 },
    { strands: 2, yEnd: 500, yMid: 110, debond: 0, sigj: 1380 },
    { strands: 2, yEnd: 690, yMid: 690, debond: 0, sigj: 1380 },
  ],
};
