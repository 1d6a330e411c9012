import { cautions } from "../../cautions.ts";
import { stepwise, type Formula } from "../../formula.ts";
import { as, type Parameters } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { ways, type Way } from "../friction/ways.ts";
import { jackingEnd } from "../tendon/controlPoints.ts";
import { bySimpson, integrate } from "../tendon/integrate.ts";
import { stretched } from "../stressing/stretched.ts";
import { areaError, corners, frictionAgain, nullPointError, reachError } from "./proof.ts";
import { after, before, jacked, seated, type Ends, type Jacked } from "./state.ts";

interface Stressed {
  readonly sigma_l: number;
  readonly sigma_r: number;
}
interface Slips {
  readonly slip_l: number;
  readonly slip_r: number;
  readonly E_p: number;
}

const sigmas = ({ sigma_l, sigma_r }: Stressed): Ends => ({ LEFT: sigma_l, RIGHT: sigma_r });
const slips = ({ slip_l, slip_r }: Slips): Ends => ({ LEFT: slip_l, RIGHT: slip_r });
const of = (way: Way, v: Stressed): Jacked =>
  jacked({ LEFT: way.path(v, "LEFT"), RIGHT: way.path(v, "RIGHT") }, sigmas(v));
/** x counted from the left end of the tendon; refuses places outside. */
const place = (way: Way, v: { readonly x: number }): number => way.distance(v, v.x, "LEFT");

const x = as(q.controlX, { text: "distance from the left end of the tendon" });
const anchorage = { ...jackingEnd, key: "anchorageEnd", text: "end looked at" };
const drawIns = {
  slip_l: as(q.drawIn, { symbol: "Δ_l", text: "draw-in of the left anchorage" }),
  slip_r: as(q.drawIn, { symbol: "Δ_r", text: "draw-in of the right anchorage" }),
  E_p: q.tendonModulus,
};

const notes = {
  both: "Jacked at both ends at once, or fully at one end and then at the other: after friction the stress is at each place the greater of what the two jacks bring.",
  idle: "Where one jack alone brings more to the other end than the jack there holds, that other end is the null point.",
  drawIn:
    "Both anchorages let go and neither jack goes on pulling. While neither draw-in passes the null point the order makes no difference; stressing and anchoring one end first gives the same then.",
  passing:
    "A draw-in that passes the null point takes the tendon beyond it along the way the other jack pulled it: there the stress sinks by 2 (σ_0 − σ_a), up to the place of highest stress, where nothing moves; each area rule holds on its side of that place. The mirrored line stands for exact reverse friction: at the anchorages it gives a little too little, inside a little too much, the more so the further the draw-in goes.",
  kink: "At a kink the stress behind it, seen from the jack.",
};
const tex = (way: Way): string => `\\sigma_l e^{-\\lambda_l},\\ \\lambda_l = ${way.tex}`;
const rule =
  "\\int_{0}^{x_r} (\\sigma - \\sigma')\\,dx = \\Delta_l E_p,\\quad \\int_{x_r}^{L} (\\sigma - \\sigma')\\,dx = \\Delta_r E_p";

function idle(way: Way): (v: Stressed) => readonly string[] {
  return (v) => {
    const { own } = of(way, v);
    return own.LEFT === 0 || own.RIGHT === 0
      ? [
          `the jack at the ${own.LEFT === 0 ? "left" : "right"} end holds no more than the other jack brings there: it does not move the tendon`,
        ]
      : [];
  };
}

const none =
  "No published number of a tendon jacked from both ends found; tests compare it with the tendon jacked from one end and hold it to the area rules.";

function forWay(way: Way): readonly Formula[] {
  const jacks: Parameters & Record<"sigma_l" | "sigma_r", typeof q.jackingStress> = {
    ...way.tendon,
    sigma_l: as(q.jackingStress, { symbol: "σ_p0,l", text: "tendon stress at the left jack" }),
    sigma_r: as(q.jackingStress, { symbol: "σ_p0,r", text: "tendon stress at the right jack" }),
    ...way.friction,
  };
  const says = `jacked from both ends; ${way.says}`;
  const base = { source: way.source, unpublished: none, cautions: idle(way) };
  const area = (v: Stressed & Slips): number =>
    areaError(of(way, v), seated(of(way, v), slips(v), v.E_p).level, slips(v), v.E_p);

  return [
    stepwise({
      ...base,
      id: `NULL_POINT${way.suffix}`,
      family: "friction",
      summary: `Null point, where the stresses of both jacks meet, from the left end; ${says}`,
      notes: [
        notes.both,
        notes.idle,
        "Where the stresses of both jacks are the same over a length, its middle.",
        ...way.notes,
      ],
      params: jacks,
      result: { ...q.controlX, symbol: "x_0", text: "null point, from the left end" },
      steps: {
        x_0: {
          symbol: "x_0",
          unit: "m",
          governing: `\\sigma_l e^{-\\lambda_l(x_0)} = \\sigma_r e^{-\\lambda_r(L - x_0)},\\quad \\lambda = ${way.tex}`,
        },
      },
      compute: (v) => ({ x_0: of(way, v).nullPoint.x }),
      proof: (v, { x_0 }) => nullPointError(of(way, v), x_0),
    }),
    stepwise({
      ...base,
      id: `TENDON_STRESS_FRICTION_BOTH_ENDS${way.suffix}`,
      family: "friction",
      summary: `Tendon stress at x after friction, before draw-in; ${says}`,
      notes: [notes.both, notes.kink, ...way.notes],
      params: { ...jacks, x },
      result: q.tendonStress,
      steps: {
        of_left: { symbol: "σ_l", unit: "MPa", text: "what the left jack brings to x", governing: tex(way) },
        of_right: {
          symbol: "σ_r",
          unit: "MPa",
          text: "what the right jack brings to x",
          governing: tex(way).replaceAll("_l", "_r"),
        },
        sigma: { symbol: "σ_p,μ", unit: "MPa", equation: "max(of_left, of_right)" },
      },
      compute: (v) => {
        const [j, at] = [of(way, v), place(way, v)];
        const [of_left, of_right] = [j.at.LEFT.stress(at), j.at.RIGHT.stress(j.length - at)];
        return { of_left, of_right, sigma: Math.max(of_left, of_right) };
      },
      proof: (v, { of_left, of_right, sigma }) => {
        const again = frictionAgain(way, v, sigmas(v), place(way, v), of(way, v).length);
        return Math.max(
          Math.abs(of_left / again.LEFT - 1),
          Math.abs(of_right / again.RIGHT - 1),
          Math.abs(sigma / Math.max(again.LEFT, again.RIGHT) - 1),
        );
      },
    }),
    ...answers.map(({ name, pick, summary, result, symbol, unit }) =>
      stepwise({
        ...base,
        id: `${name}_BOTH_ENDS${way.suffix}`,
        family: "drawIn",
        summary: `${summary}; ${says}`,
        notes: [notes.drawIn, notes.passing, ...way.notes],
        params: { ...jacks, ...drawIns, end: anchorage },
        result,
        steps: { [pick]: { symbol, unit, governing: rule } },
        compute: (v) => ({ [pick]: seated(of(way, v), slips(v), v.E_p)[pick][v.end] }),
        proof: (v, steps) => {
          const [j, end] = [of(way, v), v.end];
          if (pick === "reach") return reachError(j, end, steps[pick]!, slips(v), v.E_p);
          return areaError(j, { ...seated(j, slips(v), v.E_p).level, [end]: steps[pick]! }, slips(v), v.E_p);
        },
      }),
    ),
    stepwise({
      ...base,
      id: `TENDON_STRESS_DRAW_IN_BOTH_ENDS${way.suffix}`,
      family: "drawIn",
      summary: `Tendon stress at x after friction and draw-in; ${says}`,
      notes: [notes.both, notes.drawIn, notes.passing, notes.kink, ...way.notes],
      params: { ...jacks, ...drawIns, x },
      result: { ...q.tendonStress, min: -2500 },
      steps: {
        sigma_f: {
          symbol: "σ_p,μ",
          unit: "MPa",
          text: "stress after friction",
          governing: "\\max(\\sigma_l e^{-\\lambda_l},\\ \\sigma_r e^{-\\lambda_r})",
        },
        loss: { symbol: "Δσ_sl", unit: "MPa", text: "loss by the draw-ins", governing: rule },
        sigma: { symbol: "σ_p", unit: "MPa", equation: "sigma_f - loss" },
      },
      compute: (v) => {
        const [j, at] = [of(way, v), place(way, v)];
        const sigma_f = before(j, at);
        const sigma = after(j, seated(j, slips(v), v.E_p).level, at);
        return { sigma_f, loss: sigma_f - sigma, sigma: sigma_f - (sigma_f - sigma) };
      },
      proof: (v, { sigma }) => {
        const [j, at] = [of(way, v), place(way, v)];
        const again = frictionAgain(way, v, sigmas(v), at, j.length);
        const { level } = seated(j, slips(v), v.E_p);
        // The loss by the moved tendon: what is left of the stress after friction found a second way.
        const left = Math.max(again.LEFT, again.RIGHT) - (before(j, at) - after(j, level, at));
        return Math.max(area(v), Math.abs(sigma - left) / v.sigma_l);
      },
    }),
    stepwise({
      ...base,
      id: `TENDON_MEAN_STRESS_BOTH_ENDS${way.suffix}`,
      family: "drawIn",
      summary: `Mean tendon stress over the length after friction and draw-in; ${says}`,
      notes: [notes.both, notes.drawIn, "Draw-ins of 0 give the mean after friction.", ...way.notes],
      params: { ...jacks, ...drawIns },
      result: q.tendonStress,
      steps: {
        sigma_m: { symbol: "σ_p,m", unit: "MPa", governing: "\\sigma_{p,m} = \\frac{1}{L}\\int_0^L \\sigma'(x)\\,dx" },
      },
      compute: (v) => {
        const j = of(way, v);
        const { level } = seated(j, slips(v), v.E_p);
        return { sigma_m: integrate((at) => after(j, level, at), 0, j.length, corners(j, level).breaks) / j.length };
      },
      /** What the draw-ins take together is (Δ_l + Δ_r) E_p, wherever they take it. */
      proof: (v, { sigma_m }) => {
        const j = of(way, v);
        const whole = bySimpson(
          (at) => before(j, at),
          0,
          j.length,
          corners(j, { LEFT: v.sigma_l, RIGHT: v.sigma_r }).breaks,
        );
        return (sigma_m * j.length + (v.slip_l + v.slip_r) * v.E_p) / whole - 1;
      },
    }),
    stepwise({
      ...base,
      id: `TENDON_ELONGATION_BOTH_ENDS${way.suffix}`,
      family: "stressing",
      summary: `Elongation at one of two jacks, before draw-in; ${says}`,
      notes: [
        notes.both,
        "Each jack draws out what lies between it and the null point, when both pull at once. Fully at one end first, that jack draws out the whole of its own and the second only the difference; the sum is the same.",
        ...way.notes,
        cautions.stressing,
      ],
      params: { ...jacks, E_p: q.tendonModulus, end: jackingEnd },
      result: q.elongation,
      steps: {
        elongation: {
          symbol: "Δl",
          unit: "mm",
          governing: "\\Delta l = \\int_{jack}^{null\\ point} \\frac{\\sigma(s)}{E_p}\\,dl",
        },
      },
      compute: (v) => {
        const j = of(way, v);
        return { elongation: stretched(j.at[v.end], integrate, j.own[v.end]) / v.E_p };
      },
      /** The difference of the elongation over the whole length and that beyond the null point. */
      proof: (v, { elongation }) => {
        const [j, end] = [of(way, v), v.end];
        const { stress, stretch, breaks, length } = j.at[end];
        const f = (s: number): number => stress(s) * stretch(s);
        const beyond = bySimpson(f, j.own[end], length, breaks);
        return (elongation * v.E_p - (bySimpson(f, 0, length, breaks) - beyond)) / (v.sigma_l * length);
      },
    }),
  ] as unknown as readonly Formula[];
}

const answers = [
  {
    name: "DRAW_IN_LEVEL_STRESS",
    pick: "level",
    summary: "Stress at which the draw-in of one anchorage ends",
    result: { ...q.tendonLevelStress },
    symbol: "σ_a",
    unit: "MPa",
  },
  {
    name: "DRAW_IN_LENGTH",
    pick: "reach",
    summary: "Length of tendon affected by the draw-in of one anchorage",
    result: { ...q.controlX, symbol: "l_a", text: "length affected by the draw-in" },
    symbol: "l_a",
    unit: "m",
  },
] as const;

export const bothEndsFormulas: readonly Formula[] = ways.flatMap(forWay);
