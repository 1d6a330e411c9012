import { InputError } from "../../errors.ts";
import { as, choice, orBlank, table, type ValueOf } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { outline } from "../section/outline.ts";
import type { Point } from "../section/polygon.ts";

/** The anchorages at one end of a member. */
export const anchorages = table({
  key: "anchorages",
  symbol: "anchorages",
  text: "anchorages of one end: place, plate, force and stressing sequence; a row without force does not count",
  columns: {
    y: as(q.heightAboveSoffit, { text: "height of the axis above the soffit", typical: [0, 6000], smallest: 10 }),
    z: as(q.lateralOffset, { symbol: "z_a" }),
    // Strands in a row load the member over the width of their row.
    a_v: as(q.plateSide, { symbol: "a_v", text: "height of the loaded plate", max: 20_000 }),
    a_h: as(q.plateSide, { symbol: "a_h", text: "width of the loaded plate", max: 20_000 }),
    P: q.localForce,
    order: q.stressingOrder,
  },
  minRows: 1,
  maxRows: 60,
});
export const acrossDirection = choice({
  key: "endBlockDirection",
  symbol: "direction",
  text: "direction of the tension that is looked for",
  values: [
    { value: "VERTICAL", text: "vertical tension, across horizontal planes" },
    { value: "HORIZONTAL", text: "horizontal tension, across vertical planes along the member" },
  ],
});
export const stressedUpTo = orBlank(
  as(q.stressingOrder, { symbol: "up to", text: "stressing sequence no. up to which tendons are stressed" }),
  "all tendons are stressed",
);

export interface EndBlock {
  readonly outline: ValueOf<typeof outline>;
  readonly anchorages: ValueOf<typeof anchorages>;
  readonly direction: "VERTICAL" | "HORIZONTAL";
  readonly upTo?: number | undefined;
}
export const endBlockParams = { outline, anchorages } as const;

/** An anchorage and the outline as seen in the direction of the tension: u along it, v across. */
interface Seen {
  readonly u: number;
  readonly v: number;
}
interface Plate extends Seen {
  readonly along: number;
  readonly across: number;
  readonly P: number;
}

const turned = ({ direction }: Pick<EndBlock, "direction">, { x, y }: Point): Seen =>
  direction === "VERTICAL" ? { u: y, v: x } : { u: x, v: y };

export const seenOutline = (block: EndBlock): readonly Seen[] => block.outline.map((p) => turned(block, p));

/** The plates that press, each with a size. */
export function plates(block: EndBlock): readonly Plate[] {
  const { direction, upTo } = block;
  return block.anchorages.flatMap((anchorage, i) => {
    const { y, z, a_v, a_h, P, order } = anchorage;
    if (P === 0 || (upTo !== undefined && order > upTo)) return [];
    const refuse = (why: string): never => {
      throw new InputError("anchorages", `anchorage ${i + 1} ${why}`);
    };
    if (a_v <= 0 || a_h <= 0) refuse("has a force, but no plate: both sides of its plate must be above 0 mm");
    const [along, across] = direction === "VERTICAL" ? [a_v, a_h] : [a_h, a_v];
    return [{ ...turned(block, { x: z, y }), along, across, P }];
  });
}

/** Area, first and second moments of a ring of points: about u = 0 and v = 0. */
interface Sums {
  readonly A: number;
  readonly u: number;
  readonly v: number;
  readonly uu: number;
  readonly vv: number;
  readonly uv: number;
}

/** Adds up the edges of a ring, point after point. */
class Adding {
  #first: Seen | undefined;
  #last: Seen | undefined;
  #sums = { A: 0, u: 0, v: 0, uu: 0, vv: 0, uv: 0 };

  point(n: Seen): void {
    if (this.#last) this.#edge(this.#last, n);
    else this.#first = n;
    this.#last = n;
  }

  /** The sums of the closed ring, whichever way round its points ran. */
  closed(): Sums {
    if (this.#first && this.#last) this.#edge(this.#last, this.#first);
    const { A, u, v, uu, vv, uv } = this.#sums;
    const sign = A < 0 ? -1 : 1;
    return { A: sign * A, u: sign * u, v: sign * v, uu: sign * uu, vv: sign * vv, uv: sign * uv };
  }

  #edge(p: Seen, n: Seen): void {
    const sum = this.#sums;
    const c = p.u * n.v - n.u * p.v;
    sum.A += c / 2;
    sum.u += (c * (p.u + n.u)) / 6;
    sum.v += (c * (p.v + n.v)) / 6;
    sum.uu += (c * (p.u * p.u + p.u * n.u + n.u * n.u)) / 12;
    sum.vv += (c * (p.v * p.v + p.v * n.v + n.v * n.v)) / 12;
    sum.uv += (c * (2 * p.u * p.v + p.u * n.v + n.u * p.v + 2 * n.u * n.v)) / 24;
  }
}

function sums(ring: readonly Seen[]): Sums {
  const adding = new Adding();
  for (const p of ring) adding.point(p);
  return adding.closed();
}

/** Of what of a ring lies below a level; along the level its edges may run to and fro, which adds nothing. */
function sumsBelow(ring: readonly Seen[], level: number): Sums {
  const adding = new Adding();
  for (let i = 0; i < ring.length; i++) {
    const p = ring[i]!;
    const n = ring[i + 1 < ring.length ? i + 1 : 0]!;
    if (p.u <= level) adding.point(p);
    if (p.u < level !== n.u < level && p.u !== n.u)
      adding.point({ u: level, v: p.v + ((n.v - p.v) * (level - p.u)) / (n.u - p.u) });
  }
  return adding.closed();
}

/** Linear stress over the section where the forces have spread: a + b (u − u_c) + c (v − v_c). */
interface Spread {
  readonly ring: readonly Seen[];
  readonly plates: readonly Plate[];
  /** Where concrete and plates begin and end. */
  readonly reach: readonly [low: number, high: number];
  readonly force: number;
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

export function spread(block: EndBlock): Spread {
  const all = seenOutline(block);
  const whole = sums(all);
  if (whole.A === 0)
    throw new InputError("outline", "the outline encloses no area; its points must not lie on one line");
  const centre = { u: whole.u / whole.A, v: whole.v / whole.A };
  // About the centroid: far from it the sums would lose digits.
  const ring = all.map(({ u, v }) => ({ u: u - centre.u, v: v - centre.v }));
  const { uu, vv, uv } = sums(ring);
  const pressing = plates(block).map((p) => ({ ...p, u: p.u - centre.u, v: p.v - centre.v }));
  const force = pressing.reduce((sum, { P }) => sum + P, 0);
  const Mu = pressing.reduce((sum, { P, u }) => sum + P * u, 0);
  const Mv = pressing.reduce((sum, { P, v }) => sum + P * v, 0);
  const det = uu * vv - uv * uv;
  return {
    ring,
    plates: pressing,
    reach: reachOf(ring, pressing),
    force,
    a: force / whole.A,
    b: (Mu * vv - Mv * uv) / det,
    c: (Mv * uu - Mu * uv) / det,
  };
}

/** How far the level of a plane is from the centroid. */
export const fromCentre = (block: EndBlock, level: number): number => {
  const { A, u } = sums(seenOutline(block));
  return level - u / A;
};

function reachOf(ring: readonly Seen[], all: readonly Plate[]): Spread["reach"] {
  const levels = [...ring.map(({ u }) => u), ...all.flatMap(({ u, along }) => [u - along / 2, u + along / 2])];
  return [Math.min(...levels), Math.max(...levels)];
}

/** Force across the plane's end and moment on it. */
interface Cut {
  readonly V: number;
  readonly M: number;
}

/** From what lies below the plane; the level counts from the centroid. */
export function cut({ ring, plates: all, reach: [low, high], a, b, c }: Spread, level: number): Cut {
  // All or nothing lies below: the block as a whole is in equilibrium.
  if (level <= low || level >= high) return { V: 0, M: 0 };
  const part = sumsBelow(ring, level);
  const V = a * part.A + b * part.u + c * part.v;
  const M = level * V - (a * part.u + b * part.uu + c * part.uv);
  return all.reduce(
    (sum, { P, u, along }) => {
      const share = Math.min(Math.max((level - u) / along + 0.5, 0), 1);
      const arm = share < 1 ? (share * along) / 2 : level - u;
      return { V: sum.V - P * share, M: sum.M - P * share * arm };
    },
    { V, M },
  );
}

/** The same from what lies above: the block is in equilibrium, so both must agree. */
export function cutFromAbove(spreadOut: Spread, level: number): number {
  const flipped: Spread = {
    ...spreadOut,
    ring: spreadOut.ring.map(({ u, v }) => ({ u: -u, v })),
    plates: spreadOut.plates.map((p) => ({ ...p, u: -p.u })),
    reach: [-spreadOut.reach[1], -spreadOut.reach[0]],
    b: -spreadOut.b,
  };
  return cut(flipped, -level).M;
}

/** Levels between which force and moment are smooth: corners of the outline and edges of plates. */
function breaks({ ring, plates: all }: Spread): readonly number[] {
  const levels = [...ring.map(({ u }) => u), ...all.flatMap(({ u, along }) => [u - along / 2, u, u + along / 2])];
  return [...new Set(levels)].sort((x, y) => x - y);
}

/**
 * Between two such levels the force is a cubic of the level: the stress and the width are straight, and so is the
 * middle of the width. The places where the cubic itself turns part the stretch, so that no zero of it is passed over.
 */
function parted(at: Cuts, low: number, high: number): readonly number[] {
  const [v0, v1, v2, v3] = [0, 1, 2, 3].map((i) => at(i === 3 ? high : low + ((high - low) * i) / 3).V) as [
    number,
    number,
    number,
    number,
  ];
  // V = c0 + c1 t + c2 t² + c3 t³ through the four values, t from 0 to 1.
  const c1 = (-11 * v0 + 18 * v1 - 9 * v2 + 2 * v3) / 2;
  const c2 = (9 * (2 * v0 - 5 * v1 + 4 * v2 - v3)) / 2;
  const c3 = (9 * (-v0 + 3 * v1 - 3 * v2 + v3)) / 2;
  const root = Math.sqrt(Math.max(c2 * c2 - 3 * c1 * c3, 0));
  const q = -(c2 + (c2 < 0 ? -root : root));
  const turns = [q / (3 * c3), c1 / q].filter((t) => t > 0 && t < 1).sort((x, y) => x - y);
  return [low, ...turns.map((t) => low + t * (high - low))];
}

/** Where the force across a plane's end vanishes between two levels, which is where the moment turns. */
function turning(s: Spread, low: number, high: number, rising: boolean): number {
  let [from, to] = [low, high];
  for (let i = 0; i < 60; i++) {
    const middle = (from + to) / 2;
    if (middle === from || middle === to) break;
    if (cut(s, middle).V < 0 === rising) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}

/** A moment that is rounding and no more, of a force over the depth. */
const nothing = 1e-12;
export const isNothing = (s: Spread, M: number): boolean => {
  const [low, high] = s.reach;
  return M <= nothing * s.force * (high - low);
};

type Cuts = (level: number) => Cut;

/** Each level is cut once, however often it is asked for. */
function cutOnce(s: Spread): Cuts {
  const known = new Map<number, Cut>();
  return (level) => {
    const before = known.get(level);
    if (before) return before;
    const now = cut(s, level);
    known.set(level, now);
    return now;
  };
}

/** The level of the largest moment (sign 1) or of the lowest (sign −1), from the centroid; the lower edge where there is none. */
export function extreme(s: Spread, sign: 1 | -1): number {
  const at = cutOnce(s);
  const levels = breaks(s);
  const fine = levels.flatMap((low, i) => {
    const high = levels[i + 1];
    return high === undefined ? [low] : parted(at, low, high);
  });
  const tried = fine.flatMap((low, i) => {
    const high = fine[i + 1];
    if (high === undefined || at(low).V * at(high).V >= 0) return [low];
    return [low, turning(s, low, high, at(low).V < 0)];
  });
  const found = tried.reduce((best, level) => (sign * at(level).M > sign * at(best).M ? level : best));
  return isNothing(s, sign * at(found).M) ? levels[0]! : found;
}
