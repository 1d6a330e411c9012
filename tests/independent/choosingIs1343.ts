/**
 * The invented choice for the roof beam at Alder Quay to IS 1343:1980 straight from the equations, without the core: N, mm,
 * MPa, days. Clauses 5.2.3 to 5.2.5, 18.5.1, 18.5.2 and 22.8, second-hand or from memory as the reference says of each.
 */
import { drawInAtMidspan, held, leastForce } from "./choosing.ts";
import { iSection } from "./en1992.ts";

const L = 15_000;
const [gs, q, psi2] = [7, 6, 0.2];

/** A usual dimension: a share of the depth, to the nearest 10 mm, but no less than so much. */
const usual = (share: number, h: number, least: number): number =>
  Math.max(Math.floor((share * h + 5) / 10) * 10, least);

/** A twentieth of the span, in steps of 50 mm: 750 mm. Common practice, no source. */
const h = 50 * Math.ceil(L / 20 / 50);
const section = iSection({
  h,
  btop: usual(0.7, h, 300),
  ttop: usual(0.15, h, 100),
  bw: usual(0.2, h, 160),
  bbot: usual(0.45, h, 250),
  tbot: usual(0.2, h, 120),
});

/** Straight from (x1, y1) to (x2, y2). */
const between = (x: number, [x1, y1]: readonly [number, number], [x2, y2]: readonly [number, number]): number =>
  y1 + ((y2 - y1) / (x2 - x1)) * (x - x1);

/** 5.2.5.1: 2.2 at 7 days, 1.6 at 28, 1.1 at a year. */
function creep(age: number): number {
  const lg = Math.log10(age);
  const [week, month, year] = [Math.log10(7), Math.log10(28), Math.log10(365)];
  return age < 28 ? between(lg, [week, 2.2], [month, 1.6]) : between(lg, [month, 1.6], [year, 1.1]);
}

/** Table 4: 0, 35, 70 and 90 MPa at 0.5, 0.6, 0.7 and 0.8 of the strength. */
function relaxationOf(part: number): number {
  if (part < 0.6) return Math.max(0, between(part, [0.5, 0], [0.6, 35]));
  return part < 0.7 ? between(part, [0.6, 35], [0.7, 70]) : between(Math.min(part, 0.8), [0.7, 70], [0.8, 90]);
}

interface Method {
  readonly pre: boolean;
  readonly fck: number;
  readonly fci: number;
  readonly t0: number;
  readonly As: number;
  readonly breaking: number;
  readonly low: number;
  readonly immediate: number;
  readonly late: number;
  /** Strands in a tendon, at most. */
  readonly most: number;
}

function sized(m: Method) {
  const { Ac, yb, Ic } = section;
  const g = (25 * Ac) / 1e6;
  const [Mg, Mp] = [(g * L * L) / 8, ((gs + psi2 * q) * L * L) / 8];
  // Fig. 8: the lower of the readings at the strength at transfer and at the grade. Fig. 7, zone II.
  const factorAt = (f: number): number =>
    m.pre ? between(f, [40, 0.51], [60, 0.44]) : between(f, [30, 0.54], [60, 0.37]);
  const transfer = Math.min(factorAt(m.fci), factorAt(m.fck)) * m.fci;
  const service = between(m.fck, [30, 0.34], [60, 0.27]) * m.fck;
  // 22.7.1, type 2: 3 MPa; at transfer what the example enters.
  const stages = [
    { M: Mg, r: 1, fc: transfer, ft: -1 },
    { M: ((g + gs + q) * L * L) / 8, r: 1 - m.late, fc: service, ft: -3 },
    { M: Mg + Mp, r: 1 - m.late, fc: service, ft: -3 },
  ];
  const { P, e } = leastForce({ A: Ac, I: Ic, yb, h, low: m.low }, stages);
  const fp = m.breaking / m.As;
  const sigj = 0.96 * 0.8 * fp;
  const s0 = sigj * (1 - m.immediate);
  const n = Math.ceil(P / (m.As * s0));
  const tendons = m.pre ? n : Math.ceil(n / m.most);
  const Ap = n * m.As;
  const Ep = 195_000;
  const [Ec, Eci] = [5700 * Math.sqrt(m.fck), 5700 * Math.sqrt(m.fci)];
  const stress = (force: number, M: number): number => force / Ac + ((force * e - M) * e) / Ic;
  const first = m.pre ? (6 / 80_000) * Ep : sigj * (1 - Math.exp(-(0.2 * ((4 * e) / L) + 0.002 * 7.5)));
  // Pre-tensioned: the force that is left is the one whose shortening costs the difference.
  const ratio = Ep / Eci;
  const c = Ap * (1 / Ac + (e * e) / Ic);
  const elastic = m.pre
    ? (ratio * ((sigj - first) * c - (Mg * e) / Ic)) / (1 + (ratio - 1) * c)
    : (ratio * stress(Ap * s0, Mg) * (tendons - 1)) / (2 * tendons);
  const slip = m.pre ? 0 : drawInAtMidspan(first, L, Ep);
  const after = sigj - first - slip - elastic;
  const relaxation = relaxationOf((m.pre ? sigj - first : after) / fp);
  const shrinkage = (m.pre ? 3e-4 : 2e-4 / Math.log10(m.t0 + 2)) * Ep;
  const creeping = (Ep / Ec) * (creep(m.t0) * stress(Ap * after, Mg) - creep(60) * ((Mp * e) / Ic));
  const all = relaxation + shrinkage + creeping;
  const used = held(
    { A: Ac, I: Ic, yb, h },
    e,
    stages.map((stage, i) => ({ ...stage, r: [1, 1] as const, P: Ap * (i === 0 ? after : after - all) })),
  );
  return {
    ...{ used, slip },
    ...{ P, e, n, tendons, Ap, sigj, first, elastic, after, relaxation, shrinkage, creeping, all },
    limits: [transfer, service, service],
    part: (sigj - after + all) / sigj,
    assumed: 1 - (1 - m.immediate) * (1 - m.late),
    mass: ((Ac * L) / 1e9) * 2500,
  };
}

const strand15: Method = {
  ...{
    pre: false,
    fck: 45,
    fci: 36,
    t0: 14,
    As: 140,
    breaking: 260_700,
    low: 120,
    immediate: 0.1,
    late: 0.16,
    most: 12,
  },
};

/** Both methods; areas and breaking loads of IS 14268 class II. */
export const choiceIs1343 = {
  h,
  pre: sized({
    ...{
      pre: true,
      fck: 50,
      fci: 40,
      t0: 7,
      As: 98.7,
      breaking: 183_700,
      low: 85,
      immediate: 0.09,
      late: 0.18,
      most: 1,
    },
  }),
  post: sized(strand15),
  /** With no more than four strands in a tendon, so that one tendon shortens under the next. */
  postOfFour: sized({ ...strand15, most: 4 }),
};
