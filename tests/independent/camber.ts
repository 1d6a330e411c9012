/**
 * Deflections of the post-tensioned beam a second time: curvatures as (M − P·e)/(E·I) of the independent computation, and
 * deflections by virtual work over many stations with the trapezoidal rule. It imports nothing of the product.
 * Units: N, mm, MPa; curvature in 1/mm, deflection in mm, downward positive.
 */
import { creepCoefficient } from "./en1992.ts";
import { beam, type Beam } from "./postTensionedBeam.ts";

export interface CamberInputs {
  readonly chi: number;
  readonly bars: { readonly area: number; readonly height: number; readonly modulus: number };
}

/** Curvatures at every station of the independent beam. */
export function curvatures(v: Beam, { chi, bars }: CamberInputs) {
  const b = beam(v);
  const { Ecm, Ecmt, phi, phiG, phiQ, Ic, yb } = b;
  const phiErect = creepCoefficient({ ...v, tEnd: v.tg }, b.h0, v.t0);
  const rho = phiErect / phi;
  // Bars shrinkage bends round: (7.21) with the modulus of (7.20).
  const kcs = ((b.ecsEnd - b.ecs0) * (bars.modulus / (Ecm / (1 + phi))) * bars.area * (yb - bars.height)) / Ic;
  return {
    rho,
    phiErect,
    kcs,
    at: b.rows.map((r) => {
      const stored = v.notStored ? r.Mg : r.Ml;
      const tendon = -r.P0 * r.e0;
      const lost = -(r.P0 - r.Pinf) * r.e0;
      const before = (M: number, E: number): number => M / (E * r.Inet);
      const later = (M: number): number => M / (Ecm * r.Itr);
      const moved = before(r.Mg - stored, Ecm);
      const s = later(r.Ms);
      const q = later(r.Mq);
      const loss = before(lost, Ecm);
      const held = before(tendon + stored, Ecm);
      return {
        x: r.x,
        released: before(tendon + r.Mg, Ecmt),
        lifted: before(tendon + stored, Ecmt),
        s,
        q,
        erectAtOnce: before(tendon + stored, Ecmt) + moved - rho * loss + rho * kcs,
        erectCreep: phiErect * (held - rho * chi * loss),
        endAtOnce: before(tendon + stored, Ecmt) + moved + s + v.psi2 * q - loss + kcs,
        endCreep: phi * (held - chi * loss) + phiG * (moved + s) + phiQ * v.psi2 * q,
      };
    }),
  };
}

/** Deflection at `place`, supports at a and b, by the moment of a unit load there; the integrand straight between stations. */
export function deflectionAt(
  points: readonly { readonly x: number; readonly kappa: number }[],
  a: number,
  b: number,
  place: number,
): number {
  const right = (place - a) / (b - a);
  const moment = (x: number): number =>
    (1 - right) * Math.max(x - a, 0) + right * Math.max(x - b, 0) - Math.max(x - place, 0);
  let sum = 0;
  points.slice(1).forEach((next, i) => {
    const here = points[i]!;
    sum += ((next.x - here.x) * (next.kappa * moment(next.x) + here.kappa * moment(here.x))) / 2;
  });
  return sum;
}
