import { beam, type Beam } from "./postTensionedBeam.ts";
import { preTensionedBeam, type PreTensionedBeam } from "./preTensionedBeam.ts";
import { bendingAt, type StrengthLayer, type StrengthMember, type StrengthPlace } from "./strength.ts";

interface Place extends StrengthPlace {
  readonly x: number;
}
/** Loads and factors of both invented members: 1.35 or 1.0, 1.5; prestress 1.0 or 1.2. */
interface Actions {
  readonly L: number;
  readonly g: number;
  readonly gs: number;
  readonly q: number;
}

const lowOf = ({ L, g, gs }: Actions, x: number): number => ((g + gs) * x * (L - x)) / 2;
const momentOf = ({ L, g, gs, q }: Actions, x: number): number => ((1.35 * (g + gs) + 1.5 * q) * x * (L - x)) / 2;

/** Highest shear of the loads, the variable one on the worse part, less what the tendons carry. */
function shearOf({ L, g, gs, q }: Actions, x: number, pull: { readonly late: number; readonly early: number }): number {
  const own = (g + gs) * (L / 2 - x);
  const right = (q * (L - x) ** 2) / (2 * L);
  const left = (q * x * x) / (2 * L);
  const high = Math.max(1.35 * own, own) + 1.5 * right;
  const low = Math.min(1.35 * own, own) - 1.5 * left;
  return Math.max(...[high, low].flatMap((V) => [Math.abs(V - pull.late), Math.abs(V - 1.2 * pull.early)]));
}

const depthOf = (member: StrengthMember, place: StrengthPlace): number => bendingAt(member, place).d;

const bar = (A: number, y: number): StrengthLayer => ({ A, y, E: 200_000, f_yd: 500 / 1.15, sigma: 0 });

/** The footbridge beam: 905 mm² at the bottom, links of 157 mm² at 200 mm up to 6 m from the ends, then 300 mm. */
export function postTensionedBeam(v: Beam): { readonly member: StrengthMember; readonly places: readonly Place[] } {
  const { Ac, yb, Ic, fctm, Ecm, g, rows, tendons } = beam(v);
  const L = v.L * 1000;
  const member = { ...v, Ac, yb, Ic, fctm, Ecm, Asw: 157, f_ywd: 500 / 1.15, bars: 905 };
  const actions = { L, g, gs: v.gs, q: v.q };
  const places = rows.map((r): Place => {
    const sines = tendons.map((t) => Math.sin(Math.atan((4 * (t.e1 - t.e0) * (L - 2 * r.x)) / L ** 2)));
    const early = r.P0t.reduce((sum, P, j) => sum + P * sines[j]!, 0);
    const layers = tendons.map((t, j): StrengthLayer => ({
      A: t.Ap,
      y: r.y[j]!,
      E: v.Ep,
      f_yd: v.fp01k / 1.15,
      sigma: r.sp0t[j]! - r.dcsr,
    }));
    const late = layers.reduce((sum, { A, sigma }, j) => sum + A * sigma * sines[j]!, 0);
    // Ducts of one height within the web: the two lower ones lie in the bottom flange.
    const inWeb = r.y.map((y) => y > v.tbot && y < v.h - v.ttop);
    const atHeight = r.y.map((y) => r.y.filter((other, j) => inWeb[j] && Math.abs(other - y) < 65).length * 65);
    const fromEnd = Math.min(r.x, L - r.x);
    const place = {
      x: r.x,
      layers: [...layers, bar(905, 60)],
      Mg: r.Mg,
      M: momentOf(actions, r.x),
      low: lowOf(actions, r.x),
      V: shearOf(actions, r.x, { late, early }),
      ducts: 0.5 * Math.max(...atHeight),
      s: fromEnd <= 6000 + 10 ? 200 : 300,
      compressed: false,
    };
    return { ...place, compressed: fromEnd >= 1.25 * depthOf(member, place) };
  });
  return { member, places };
}

/** The roof beam: 402 mm² at the bottom, links of 101 mm² at 150 mm up to 3 m from the ends, then 250 mm. */
export function roofBeam(v: PreTensionedBeam): { readonly member: StrengthMember; readonly places: readonly Place[] } {
  const { Ac, yb, Ic, fctm, Ecm, g, rows, bed, transmission } = preTensionedBeam(v);
  const L = v.L * 1000;
  const member = { ...v, Ac, yb, Ic, fctm, Ecm, Asw: 101, f_ywd: 500 / 1.15, bars: 402 };
  const actions = { L, g, gs: v.gs, q: v.q };
  // (8.20), (8.21): bond in the ultimate state of strands, good conditions.
  const f_bpd = (1.2 * Math.min(0.7 * fctm, 3.1)) / 1.5;
  const f_pd = v.fp01k / 1.15;
  const places = rows.map((r): Place => {
    const layers = bed.map((b, i): StrengthLayer => {
      const after = r.sp0r[i]! - r.dcsr;
      const lpt2 = transmission[i]!.lpt2;
      const lbpd = lpt2 + (v.alpha2 * v.diameter * (f_pd - after)) / f_bpd;
      const x = Math.max(0, r.x - v.rows[i]!.debond * 1000);
      const beyond = Math.min(1, Math.max(0, (x - lpt2) / (lbpd - lpt2)));
      const held = Math.min(1, x / lpt2) * after + beyond * (f_pd - after);
      return { A: held > 1 ? b.Ap : 0, y: r.y[i]!, E: v.Ep, f_yd: Math.min(f_pd, held), sigma: Math.min(after, held) };
    });
    const slope = bed.map((b) => (r.x < v.xDev * 1000 ? Math.sin(Math.atan((b.yEnd - b.yMid) / (v.xDev * 1000))) : 0));
    const early = r.sP1.reduce((sum, P, i) => sum + P * slope[i]!, 0);
    const late = (r.Pinf2 / r.P02 || 0) * r.sP2.reduce((sum, P, i) => sum + P * slope[i]!, 0);
    const place = {
      x: r.x,
      layers: [...layers, bar(402, 40)],
      Mg: r.Mg,
      M: momentOf(actions, r.x),
      low: lowOf(actions, r.x),
      V: shearOf(actions, r.x, { late, early }),
      ducts: 0,
      s: r.x <= 3000 + 10 ? 150 : 250,
      compressed: false,
    };
    return { ...place, compressed: r.x >= 1.25 * depthOf(member, place) };
  });
  return { member, places };
}
