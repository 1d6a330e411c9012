import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { partAbove, widthAt } from "../section/around.ts";
import { bandsOf, firstMomentAbove, widthIn, type Band } from "../section/bands.ts";
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

/** Shear force at which the principal tension at a height of this width and first moment reaches f_ctd. */
function shearAt(web: Web, y: number, width: number, S: number): number {
  const { whole, ducts, f_ctd } = web;
  const tau = Math.sqrt(Math.max(0, f_ctd ** 2 + stressAt(web, y) * f_ctd));
  if (tau === 0 || width < ducts) return 0;
  // Towards the edges S goes to 0, but for rounding.
  return S > 0 ? (whole.I * (width - ducts) * tau) / S : Infinity;
}

interface Place {
  readonly y: number;
  readonly V: number;
}
const lower = (one: Place, other: Place): Place => (other.V < one.V ? other : one);

const perStrip = 48;
const rounds = 60;

/** The lowest place of a band: a grid, then thirds round each place of it that is no higher than its neighbours. */
function lowestIn(web: Web, band: Band, ends: { readonly bottom: boolean; readonly top: boolean }): Place {
  const about = web.whole.y;
  const at = (y: number): Place => ({
    y,
    V: shearAt(web, y, widthIn(band, y), firstMomentAbove(band, y, about)),
  });
  const { low, high } = band;
  const step = (high - low) / perStrip;
  const heights = Array.from({ length: perStrip + 1 }, (_, k) => (k === perStrip ? high : low + k * step));
  const grid = heights.map((y, k) => {
    const isEdge = (ends.bottom && k === 0) || (ends.top && k === perStrip);
    // Nothing lies beyond the edges of the section, but bending may crack them.
    return isEdge ? { y, V: shearAt(web, y, widthIn(band, y), 0) } : at(y);
  });
  let best: Place = { y: low, V: Infinity };
  grid.forEach((place, k) => {
    const [before, after] = [grid[k - 1] ?? place, grid[k + 1] ?? place];
    if (place.V > before.V || place.V > after.V || place.V === Infinity) return;
    best = lower(best, place);
    let [a, b] = [before.y, after.y];
    for (let n = 0; n < rounds && best.V > 0; n++) {
      const [p, q] = [at(a + (b - a) / 3), at(b - (b - a) / 3)];
      best = lower(lower(best, p), q);
      if (p.V < q.V) b = q.y;
      else a = p.y;
    }
  });
  return best;
}

/** The height with the smallest value. */
function lowest(web: Web): Place {
  const bands = bandsOf(web.points, web.whole.y);
  return bands.reduce<Place>(
    (best, band, i) => lower(best, lowestIn(web, band, { bottom: i === 0, top: i === bands.length - 1 })),
    { y: bands[0]!.low, V: Infinity },
  );
}

/** The same shear force by the points of the part above the height and by the edges cut there. */
function shearByPart(web: Web, y: number): number {
  const part = polygonByTrapezia(partAbove(web.points, y));
  return shearAt(web, y, widthAt(web.points, y), part.A * (part.y - web.whole.y));
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
  /** The value from the height with width and first moment found another way, and a finer grid on which nothing is lower. */
  proof: (v, { y, V }) => {
    const web = webOf(v);
    const size = 1 + V;
    const levels = about(web);
    const [low, high] = [levels[0]!, levels.at(-1)!];
    const again = shearByPart(web, y);
    const lower = Array.from({ length: 499 }, (_, i) => {
      const at = low + ((i + 1) / 500) * (high - low);
      return Math.max(0, V - shearByPart(web, at));
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
