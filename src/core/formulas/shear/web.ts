import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { momentsBetween, partAbove, widthAt } from "../section/around.ts";
import { outline } from "../section/outline.ts";
import { polygon, polygonByTrapezia, type Moments, type Point } from "../section/polygon.ts";

interface Web {
  readonly points: readonly Point[];
  readonly whole: Moments;
  readonly ducts: number;
  readonly f_ctd: number;
  readonly P: number;
  readonly e: number;
  readonly M: number;
}
const about = ({ points }: Web): readonly number[] => [...new Set(points.map(({ y }) => y))].sort((a, b) => a - b);

/** Stress along the member at a height, compression positive. */
const stressAt = ({ whole, P, e, M }: Web, y: number): number => P / whole.A + ((P * e - M) * (whole.y - y)) / whole.I;

const firstMoment = ({ points, whole }: Web, y: number): number => momentsBetween(points, whole.y, y, Infinity).S;

/** Shear force at which the principal tension at a height reaches f_ctd; infinite at the edges. */
function shearAt(web: Web, y: number, S = firstMoment(web, y)): number {
  const { whole, ducts, f_ctd, points } = web;
  const tau = Math.sqrt(Math.max(0, f_ctd ** 2 + stressAt(web, y) * f_ctd));
  const b = Math.max(0, widthAt(points, y) - ducts);
  if (tau === 0) return 0;
  return S > 0 ? (whole.I * b * tau) / S : Infinity;
}

const perStrip = 48;

/** The height with the smallest value: a grid between the corners, then thirds round its best place. */
function lowest(web: Web): { readonly y: number; readonly V: number } {
  const levels = about(web);
  let best = { y: levels[0]!, V: Infinity };
  levels.slice(1).forEach((high, i) => {
    const low = levels[i]!;
    const step = (high - low) / perStrip;
    // At the edges S is 0 but for rounding.
    for (let k = i === 0 ? 1 : 0; k <= perStrip - (i === levels.length - 2 ? 1 : 0); k++) {
      const V = shearAt(web, low + k * step);
      if (V >= best.V) continue;
      best = { y: low + k * step, V };
      let [a, b] = [Math.max(low, low + (k - 1) * step), Math.min(high, low + (k + 1) * step)];
      for (let n = 0; n < 60; n++) {
        const [p, q] = [a + (b - a) / 3, b - (b - a) / 3];
        const [atP, atQ] = [shearAt(web, p), shearAt(web, q)];
        if (atP < best.V) best = { y: p, V: atP };
        if (atQ < best.V) best = { y: q, V: atQ };
        if (atP < atQ) b = q;
        else a = p;
      }
    }
  });
  return best;
}

/** First moment of the part above a height by the points of that part. */
function firstMomentByPart({ points, whole }: Web, y: number): number {
  const part = polygonByTrapezia(partAbove(points, y));
  return part.A * (part.y - whole.y);
}

/** 6.2.2(2) where the width varies: the principal tension up the height. */
export const shearWebEn1992 = stepwise({
  id: "SHEAR_RESISTANCE_WEB_EN1992_2004",
  family: "shear",
  summary:
    "Shear resistance without links of an uncracked section given point by point: the principal tension reaches " +
    "f_ctd at some height",
  notes: [
    "Every height is tried. Stress along the member by P at e and by the moment M that acts with the shear " +
      "force; no stress across it. P is the prestress at this section: within the transmission length what is " +
      "built up there.",
    "Gross outline; ducts take their width at every height, on the safe side. 0 where bending alone reaches " +
      "f_ctd at an edge: that region is cracked.",
    "M counts with the sign it has; a greater shear force usually comes with another moment, so repeat with the " +
      "moment that belongs to the resistance.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "6.2.2(2)", basis: "seen" },
  params: {
    outline,
    f_ctd: q.designTension,
    P: q.prestressForce,
    e: q.eccentricity,
    M: q.moment,
    ducts: as(q.ductSum, { text: "width that ducts take from the web at any height", default: 0 }),
  },
  result: as(q.shearForce, { symbol: "V_Rd,c", text: "shear resistance without links" }),
  steps: {
    y: { symbol: "y", unit: "mm", text: "height where the principal tension governs", governing: "V(y) = \\min" },
    sigma: {
      symbol: "σ_x",
      unit: "MPa",
      text: "stress along the member there",
      governing: "\\sigma_x = P/A + (P e - M)(y_b - y)/I",
    },
    V: {
      symbol: "V_Rd,c",
      unit: "kN",
      governing: "V = \\min_y \\frac{I\\,b(y)}{S(y)}\\sqrt{f_{ctd}^2 + \\sigma_x(y)\\,f_{ctd}}",
    },
  },
  compute: (v) => {
    const web = webOf(v);
    const { y, V } = lowest(web);
    return { y, sigma: stressAt(web, y), V };
  },
  /** The value from the height with another first moment, and a finer grid on which nothing is lower. */
  proof: (v, { y, V }) => {
    const web = webOf(v);
    const size = 1 + V;
    const levels = about(web);
    const [low, high] = [levels[0]!, levels.at(-1)!];
    const again = shearAt(web, y, firstMomentByPart(web, y));
    const lower = Array.from({ length: 499 }, (_, i) => {
      const at = low + ((i + 1) / 500) * (high - low);
      return Math.max(0, V - shearAt(web, at, firstMomentByPart(web, at)));
    });
    const slivers = 1e-7;
    const off = Math.abs(again - V) / size;
    return (off < slivers ? 0 : off) + Math.max(0, Math.max(...lower) / size - slivers);
  },
  unpublished: "no published result was found; tests compare it with a dense grid and with (6.4) for a rectangle",
});

function webOf(v: {
  readonly outline: readonly Point[];
  readonly f_ctd: number;
  readonly P: number;
  readonly e: number;
  readonly M: number;
  readonly ducts: number;
}): Web {
  return { points: v.outline, whole: polygon(v.outline, "outline", "the outline"), ...v };
}
