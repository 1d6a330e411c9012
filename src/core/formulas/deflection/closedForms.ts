import { choosing } from "../../choosing.ts";
import { formula, stepwise } from "../../formula.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

const shared = { family: "deflection", source: mechanics } as const;
const member = { L: q.span, I: q.secondMoment, E_c: q.elasticModulusConcrete } as const;
const e_m = as(q.eccentricity, { symbol: "e_m", text: "eccentricity at midspan, positive below the centroid" });
const e_e = as(q.eccentricity, { symbol: "e_e", text: "eccentricity at both ends, positive below the centroid" });
const oneEnd = as(q.eccentricity, { symbol: "e_1", text: "eccentricity at the one end; none at the other" });
const camberOf = {
  ...shared,
  id: "PRESTRESS_CAMBER",
  result: q.camber,
  unpublished:
    "Coefficients read second-hand, two results recalled; tests compare it with an integration of the curvature.",
} as const;

const straight = formula({
  ...camberOf,
  summary: "Camber at midspan by a straight tendon, upward positive",
  params: { ...member, P: q.prestressForce, e_m },
  equation: "P * e_m * L^2 / (8 * E_c * I)",
  compute: ({ L, I, E_c, P, e_m: e }) => (P * e * L * L) / (8 * E_c * I),
});
const parabola = formula({
  ...camberOf,
  summary: "Camber at midspan by a parabolic tendon, upward positive",
  params: { ...member, P: q.prestressForce, e_m, e_e },
  equation: "P * L^2 / (E_c * I) * (5 / 48 * (e_m - e_e) + e_e / 8)",
  compute: ({ L, I, E_c, P, e_m: m, e_e: e }) => ((P * L * L) / (E_c * I)) * ((5 / 48) * (m - e) + e / 8),
});
const harped = formula({
  ...camberOf,
  summary: "Camber at midspan by a tendon harped at the distance a from both ends, upward positive",
  params: {
    ...member,
    P: q.prestressForce,
    e_m,
    e_e,
    a: as(q.deviatorDistance, { symbol: "a", text: "deviators from both ends; half the span: one at midspan" }),
  },
  limits: ({ L }) => ({ a: { max: L / 2, because: "half the span" } }),
  equation: "P * L^2 / (E_c * I) * ((3 - 4 * (a / L)^2) / 24 * (e_m - e_e) + e_e / 8)",
  compute: ({ L, I, E_c, P, e_m: m, e_e: e, a }) =>
    ((P * L * L) / (E_c * I)) * (((3 - 4 * (a / L) ** 2) / 24) * (m - e) + e / 8),
});
const sloping = formula({
  ...camberOf,
  summary: "Rise at midspan by a straight tendon that slopes from the centroid at one end, upward positive",
  params: { ...member, P: q.prestressForce, e_m: oneEnd },
  equation: "P * e_m * L^2 / (16 * E_c * I)",
  compute: ({ L, I, E_c, P, e_m: e }) => (P * e * L * L) / (16 * E_c * I),
});
const halfParabola = formula({
  ...camberOf,
  summary: "Rise at midspan by half a parabola, vertex at one end, centroid at the other, upward positive",
  params: { ...member, P: q.prestressForce, e_m: oneEnd },
  equation: "17 / 192 * P * e_m * L^2 / (E_c * I)",
  compute: ({ L, I, E_c, P, e_m: e }) => ((17 / 192) * P * e * L * L) / (E_c * I),
});

/** Camber of usual tendon profiles. */
export const prestressCamber = choosing({
  ...shared,
  id: "PRESTRESS_CAMBER",
  summary: "Camber at midspan of a simple span by a tendon of uniform force, closed form; upward positive",
  notes: [
    "Elastic, one section and one force along the span: for a check by hand. What friction, draw-in and net sections " +
      "change, DEFLECTION_FROM_CURVATURE takes in.",
    "An end above the centroid has a negative eccentricity. Other profiles by adding these.",
  ],
  by: {
    profile: choice({
      key: "prestressProfile",
      symbol: "profile",
      text: "profile of the tendon",
      values: [
        { value: "STRAIGHT", text: "straight, parallel to the axis" },
        { value: "PARABOLA", text: "parabola, vertex at midspan" },
        { value: "HARPED", text: "straight pieces, deviators at the distance a from both ends" },
        { value: "SLOPING", text: "straight, from the centroid at one end to the eccentricity at the other" },
        { value: "HALF_PARABOLA", text: "half a parabola, vertex at one end, centroid at the other" },
      ],
    }),
  },
  as: { STRAIGHT: straight, PARABOLA: parabola, HARPED: harped, SLOPING: sloping, HALF_PARABOLA: halfParabola },
  order: ["L", "I", "E_c", "P", "e_m", "profile", "e_e", "a"],
  joint: { e_m: as(e_m, { text: "eccentricity at midspan; of a tendon that rises to one end: at the other end" }) },
});

const onEnds = formula({
  ...shared,
  id: "DEFLECTION_UNIFORM",
  summary: "Deflection at midspan of a simple span under a uniform load, downward positive",
  params: { ...member, w: q.lineLoad },
  result: q.deflection,
  equation: "5 * w * L^4 / (384 * E_c * I)",
  compute: ({ L, I, E_c, w }) => (5 * w * L ** 4) / (384 * E_c * I),
});
const overhanging = stepwise({
  ...shared,
  id: "DEFLECTION_UNIFORM",
  summary: "Deflection at midspan of a member on two supports away from its ends, uniform load, downward positive",
  params: { ...member, L: as(q.span, { text: "length of the member" }), w: q.lineLoad, a: q.overhang },
  limits: ({ L }) => ({ a: { max: L / 2, because: "half the length" } }),
  result: q.deflection,
  steps: {
    between: { symbol: "l", unit: "m", text: "between the supports", equation: "L - 2 * a" },
    v: {
      symbol: "v",
      unit: "mm",
      text: "span less what the overhangs lift",
      equation: "w * between^2 / (E_c * I) * (5 * between^2 / 384 - a^2 / 16)",
    },
  },
  compute: ({ L, I, E_c, w, a }) => {
    const l = L - 2 * a;
    return { between: l, v: ((w * l * l) / (E_c * I)) * ((5 * l * l) / 384 - (a * a) / 16) };
  },
  unpublished: "Statics of a beam with two overhangs; tests compare it with an integration of the curvature.",
});

/** Deflection under a uniform load. */
export const deflectionUniform = choosing({
  ...shared,
  id: "DEFLECTION_UNIFORM",
  summary: "Deflection at midspan under a uniform load, on supports at the ends or away from them; downward positive",
  by: {
    supports: choice({
      key: "uniformDeflectionSupports",
      symbol: "supports",
      text: "where the two supports stand",
      default: "ENDS",
      values: [
        { value: "ENDS", text: "at the ends" },
        { value: "OVERHANG", text: "at the distance a from both ends, as lifted or stored" },
      ],
    }),
  },
  as: { ENDS: onEnds, OVERHANG: overhanging },
  order: ["L", "I", "E_c", "w", "supports", "a"],
  joint: { L: as(q.span, { text: "span, or length of the member" }) },
});

/** Deflection under a point load. */
export const deflectionPointLoad = stepwise({
  ...shared,
  id: "DEFLECTION_POINT_LOAD",
  summary: "Deflection at x of a simple span under a point load at the distance a, downward positive",
  notes: ["Several loads by adding. By Betti's theorem load and place may change places."],
  params: {
    ...member,
    F: q.pointLoad,
    a: as(q.station, { symbol: "a", text: "place of the load, from the left end" }),
    x: q.station,
  },
  limits: ({ L }) => ({ a: { max: L, because: "the span" }, x: { max: L, because: "the span" } }),
  result: q.deflection,
  steps: {
    near: { symbol: "c", unit: "m", text: "the smaller of x and a", equation: "min(x, a)" },
    far: { symbol: "d", unit: "m", text: "from the other to the right end", equation: "L - max(x, a)" },
    v: { symbol: "v", unit: "mm", equation: "F * near * far * (L^2 - near^2 - far^2) / (6 * E_c * I * L)" },
  },
  compute: ({ L, I, E_c, F, a, x }) => {
    const near = Math.min(x, a);
    const far = L - Math.max(x, a);
    return { near, far, v: (F * near * far * (L * L - near * near - far * far)) / (6 * E_c * I * L) };
  },
  unpublished: "Elementary statics; tests compare it with an integration of the curvature.",
});
