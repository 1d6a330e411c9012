import { InputError } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as, choice, format, table, type Values } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { bySimpsonPieces, Curve } from "./curve.ts";

const between = choice({
  key: "betweenStations",
  symbol: "between",
  text: "how the value runs between stations",
  default: "PARABOLA",
  values: [
    { value: "PARABOLA", text: "along a parabola through neighbouring stations; kinks must be stations" },
    { value: "LINE", text: "straight from station to station" },
  ],
});
const member = choice({
  key: "stationsReach",
  symbol: "member",
  text: "which part of the member the stations describe",
  default: "WHOLE",
  values: [
    { value: "WHOLE", text: "the whole member" },
    { value: "MIRRORED", text: "its left half: the last station is midspan, the right half mirrors the left" },
  ],
});
const stations = table({
  key: "curveStations",
  symbol: "x_i",
  text: "stations along the member",
  columns: { x: as(q.station, { text: "distance of the station from the left end" }) },
  minRows: 2,
});
const curvatures = table({
  key: "curvatures",
  symbol: "κ_i",
  text: "curvatures at the stations, in their order",
  columns: { kappa: q.bendingCurvature },
  minRows: 2,
});
const strains = table({
  key: "strainsAlong",
  symbol: "ε_i",
  text: "strains at the stations, in their order",
  columns: { eps: q.meanStrain },
  minRows: 2,
});

const shared = { family: "deflection", source: mechanics } as const;
const runs =
  "Stations in any order; a place that comes twice counts once. Parabola: through three neighbouring stations, with " +
  "the smaller of the two bends at the ends of a stretch, so that a kink at a station stays one. Between two kinks " +
  "give one more station at least, or take LINE.";
const params = {
  stations,
  curvatures,
  left: as(q.overhang, { symbol: "a", text: "left support, from the left end" }),
  right: as(q.station, { symbol: "b", text: "right support, from the left end" }),
  x: q.station,
  between,
  member,
};
type Arguments = Values<typeof params>;
type Places = Pick<Arguments, "stations" | "between" | "member">;

function curveThrough(v: Places, values: readonly number[], name: string): Curve {
  const places = v.stations;
  if (values.length !== places.length)
    throw new InputError(name, `${values.length} rows for ${places.length} stations; give one for each station`);
  const given = places.map(({ x }, i) => ({ x, value: values[i]! }));
  const end = Math.max(...given.map(({ x }) => x));
  const right = v.member === "MIRRORED" ? given.map(({ x, value }) => ({ x: end + (end - x), value })) : [];
  const curve = new Curve([...given, ...right], v.between);
  if (!(curve.to > curve.from)) throw new InputError("stations", "all stations are at one place; give two at least");
  return curve;
}
function curveOf(v: Arguments): Curve {
  refuseOutside(v);
  return curveThrough(
    v,
    v.curvatures.map(({ kappa }) => kappa),
    "curvatures",
  );
}

const endsOf = ({ stations: places, member: reach }: Places): readonly [number, number] => {
  const all = places.map(({ x }) => x);
  const [from, to] = [Math.min(...all), Math.max(...all)];
  return [from, reach === "MIRRORED" ? to + (to - from) : to];
};
const limits = ({ left }: Pick<Arguments, "left">) => ({
  right: { min: left + 1, because: "1 mm right of the left support" },
});
/** The member reaches from the first to the last station: supports and place lie there. */
function refuseOutside(v: Arguments): void {
  const [from, to] = endsOf(v);
  const places = { left: v.left, right: v.right, x: v.x };
  for (const [name, place] of Object.entries(places))
    if (place < from - 1e-6 || place > to + 1e-6)
      throw new InputError(
        name,
        `${format(place / 1000)} m is outside the stations, which describe ${format(from / 1000)} to ${format(to / 1000)} m`,
      );
}
/** The deflection that the largest curvature all along would give: by it what is left over is judged. */
function sizeOf(v: Arguments, power: number): number {
  const [from, to] = endsOf(v);
  const most = v.curvatures.reduce((size, { kappa }) => Math.max(size, Math.abs(kappa)), 0);
  return 1e-12 + most * (to - from) ** power;
}

const beyond = (x: number, from: number): number => Math.max(x - from, 0);

/** Moment at s of a unit load at x, supports at a and b: the virtual state that gives the deflection there. */
const unitLoad = (s: number, { x, left: a, right: b }: Arguments): number => {
  const right = (x - a) / (b - a);
  return (1 - right) * beyond(s, a) + right * beyond(s, b) - beyond(s, x);
};
/** Moment at s of a unit couple at x: its derivative. */
const unitCouple = (s: number, { x, left: a, right: b }: Arguments): number =>
  (beyond(s, b) - beyond(s, a)) / (b - a) + (s > x ? 1 : 0);

function byUnitForce(v: Arguments, force: (s: number, v: Arguments) => number): number {
  const curve = curveOf(v);
  const breaks = [...curve.breaks, curve.to, v.left, v.right, v.x].sort((a, b) => a - b);
  return bySimpsonPieces((s) => curve.value(s) * force(s, v), breaks);
}

/** Deflection from curvature, by integrating twice. */
export const deflectionFromCurvature = stepwise({
  ...shared,
  id: "DEFLECTION_FROM_CURVATURE",
  summary: "Deflection at x of a member on two supports from its curvature at stations, downward positive",
  notes: [
    runs,
    "Supports anywhere along the member: at its ends, or where it is lifted or stored; beyond them it overhangs.",
    "Bending alone: shear deformation is left out, a few per cent for a span over depth of 10 and more.",
  ],
  params,
  limits,
  result: q.deflection,
  steps: {
    v: {
      symbol: "v",
      unit: "mm",
      governing: "v(x) = \\int \\kappa(s)\\,\\bar m_x(s)\\,ds, \\qquad v(a) = v(b) = 0",
      text: "with m̄ the moment of a unit load at x",
    },
  },
  compute: (v) => {
    const curve = curveOf(v);
    const [a, b] = [curve.moment(v.left), curve.moment(v.right)];
    return { v: a + ((b - a) * (v.x - v.left)) / (v.right - v.left) - curve.moment(v.x) };
  },
  /** A second way: the moment of a unit load, by Betti's theorem. */
  proof: (v, { v: found }) => (found - byUnitForce(v, unitLoad)) / sizeOf(v, 2),
  unpublished: "An integral; tests compare it with the closed forms for straight, harped and parabolic tendons.",
});

/** Slope of the deflected member. */
export const slopeFromCurvature = stepwise({
  ...shared,
  id: "SLOPE_FROM_CURVATURE",
  summary: "Slope at x of a member on two supports from its curvature at stations, falling to the right positive",
  notes: [
    runs,
    "At a support it is the rotation of the end. A member with camber rises from the left support: negative there.",
  ],
  params,
  limits,
  result: q.slope,
  steps: {
    theta: {
      symbol: "θ",
      unit: "rad",
      governing: "\\theta(x) = \\frac{dv}{dx} = \\int \\kappa(s)\\,\\frac{d\\bar m_x(s)}{dx}\\,ds",
    },
  },
  compute: (v) => {
    const curve = curveOf(v);
    return {
      theta: (curve.moment(v.right) - curve.moment(v.left)) / (v.right - v.left) - curve.area(v.x),
    };
  },
  proof: (v, { theta }) => (theta - byUnitForce(v, unitCouple)) / sizeOf(v, 1),
});

const strainParams = { stations, strains, between, member };
function strainCurve(v: Values<typeof strainParams>): Curve {
  return curveThrough(
    v,
    v.strains.map(({ eps }) => eps),
    "strains",
  );
}

/** Shortening at one level of the member. */
export const memberShortening = stepwise({
  ...shared,
  id: "MEMBER_SHORTENING",
  summary: "Shortening of a member at one level from the strains along it, positive when it shortens",
  notes: [
    runs,
    "At the level of the bearings the soffit strain counts: with camber the soffit shortens more than the axis.",
  ],
  params: strainParams,
  result: q.shortening,
  steps: { shortening: { symbol: "Δl", unit: "mm", governing: "\\Delta l = \\int \\varepsilon(x)\\,dx" } },
  compute: (v) => {
    const curve = strainCurve(v);
    return { shortening: curve.area(curve.to) };
  },
  proof: (v, { shortening }) => {
    const curve = strainCurve(v);
    const size = v.strains.reduce((most, { eps }) => Math.max(most, Math.abs(eps)), 0);
    const again = bySimpsonPieces((s) => curve.value(s), [...curve.breaks, curve.to]);
    return (shortening - again) / (1e-12 + size * (curve.to - curve.from));
  },
  unpublished: "An integral; tests compare it with a uniform and a parabolic strain.",
});
