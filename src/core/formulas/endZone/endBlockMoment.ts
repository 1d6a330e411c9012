import { choosing } from "../../choosing.ts";
import { stepwise } from "../../formula.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import {
  acrossDirection,
  cut,
  cutFromAbove,
  endBlockParams,
  extreme,
  fromCentre,
  isNothing,
  spread,
  stressedUpTo,
} from "./endBlock.ts";
import type { EndBlock } from "./endBlock.ts";

const unpublished =
  "the one example read prints moments without the outline they need; tests hold equilibrium and the strut of a single plate";
const notes = [
  "Free body: the part of the end block on one side of the plane, between the loaded face and the section where " +
    "the forces have spread to a linear stress (about the depth of the member away).",
  "Each plate presses evenly over its height or width. Forces along the member alone: what inclined tendons add is " +
    "not in it. Bending about both axes is counted.",
];
/** The measure of what counts as a difference: a hundredth of the force over the depth. */
const size = (s: ReturnType<typeof spread>): number => {
  const [low, high] = s.reach;
  return 0.01 * s.force * (high - low);
};

/** The second opinion on an end zone: equilibrium of what lies below a plane. */
export const endBlockMoment = stepwise({
  id: "END_BLOCK_MOMENT",
  family: "endZone",
  summary:
    "Moment on a plane along the end block, from equilibrium: positive bursts it inside, negative spalls its face",
  notes: [
    ...notes,
    "Tension = moment over lever arm. With half the depth as lever arm a single plate in the axis of a rectangle " +
      "gives F/4 (1 − a/h), as (6.58) does.",
  ],
  source: mechanics,
  params: {
    ...endBlockParams,
    level: q.cutLevel,
    direction: acrossDirection,
    upTo: stressedUpTo,
  },
  result: q.endBlockMoment,
  steps: {
    M: {
      symbol: "M_cut",
      unit: "kN·m",
      text: "stress at the far end less anchorage forces, below the plane",
      governing:
        "M_{cut} = \\int_{u<u_c} \\sigma\\,(u_c - u)\\,dA - \\sum_{u_i<u_c} P_i\\,(u_c - u_i),\\quad " +
        "\\sigma = \\frac{\\sum P}{A} + \\sigma_b(u) + \\sigma_b(v)",
    },
  },
  compute: (v: EndBlock & { readonly level: number }) => ({ M: cut(spread(v), fromCentre(v, v.level)).M }),
  proof: (v, { M }) => {
    const s = spread(v);
    const level = fromCentre(v, v.level);
    const [low, high] = s.reach;
    if (level <= low || level >= high) return M;
    return (M - cutFromAbove(s, level)) / Math.max(size(s), 1e-9);
  },
  unpublished,
});

const wanted = choice({
  key: "endBlockWanted",
  symbol: "wanted",
  text: "which plane is wanted",
  values: [
    { value: "BURSTING", text: "the plane of the largest moment" },
    { value: "SPALLING", text: "the plane of the lowest moment" },
  ],
});

const plane = (value: "BURSTING" | "SPALLING", sign: 1 | -1) =>
  stepwise({
    id: "END_BLOCK_LEVEL",
    family: "endZone",
    summary: `Plane of the ${value === "BURSTING" ? "largest" : "lowest"} moment of the end block`,
    source: mechanics,
    params: { ...endBlockParams, direction: acrossDirection, upTo: stressedUpTo },
    result: q.cutLevel,
    steps: {
      level: {
        symbol: "u_c",
        unit: "mm",
        governing: "\\frac{dM_{cut}}{du} = \\int_{u<u_c} \\sigma\\,dA - \\sum_{u_i<u_c} P_i = 0",
      },
    },
    compute: (v: EndBlock) => ({ level: extreme(spread(v), sign) - fromCentre(v, 0) }),
    proof: (v, { level }) => {
      const s = spread(v);
      const at = fromCentre(v, level);
      const [low, high] = s.reach;
      const none = isNothing(s, sign * cut(s, at).M);
      return none ? (at - low) / (high - low) : cut(s, at).V / s.force;
    },
    unpublished,
  });

export const endBlockLevel = choosing({
  id: "END_BLOCK_LEVEL",
  family: "endZone",
  summary: "Plane along the end block on which the moment from equilibrium bursts or spalls most",
  notes: [
    ...notes,
    "A height above the soffit for vertical tension, a horizontal coordinate for horizontal tension. Where no plane " +
      "bursts or spalls it is the lower edge, where the moment is 0.",
  ],
  by: { wanted },
  as: { BURSTING: plane("BURSTING", 1), SPALLING: plane("SPALLING", -1) },
  order: ["outline", "anchorages", "direction", "wanted", "upTo"],
  result: as(q.cutLevel, { text: "place of the plane" }),
});
