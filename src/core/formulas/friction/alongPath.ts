import { InputError } from "../../errors.ts";
import type { StepInWords } from "../../formula.ts";
import { orBlank } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { nameOf } from "../../read.ts";
import { courseFrom, seenFrom, turnsOf } from "../tendon/course.ts";
import { otherEnd, type End } from "../tendon/ends.ts";
import type { Path } from "../tendon/path.ts";
import { descriptions, path, pathNotes, type PathRows } from "../tendon/pathRange.ts";
import { angleInSpace, pathOfSegments, type Segment } from "../tendon/segments.ts";
import { conventions, exponentOf, wobbleOfPath, type Wobble, type WobbleOfPath } from "./wobble.ts";

/** A tendon and its friction, as the arguments of a function give them. */
export interface Rubbing {
  readonly path: PathRows;
  readonly mu: number | undefined;
  readonly k: number | undefined;
  readonly wobble: WobbleOfPath;
}

const own = "segments: each has its own";

/** The first arguments of every function along a tendon with friction. */
export const rubbing = {
  path,
  mu: orBlank(q.frictionCoefficient, own),
  k: orBlank(q.wobbleOfPath, own),
  wobble: wobbleOfPath,
};

export const rubbingNotes = [
  ...pathNotes,
  conventions,
  "On deviators all friction acts at the deviators: “wobble” is rad and k the unintended angle at each, " +
    "0 where the specification takes none. The stress is the same from one to the next and falls by a " +
    "step at each; at a deviator itself it is the stress behind it, seen from the jack.",
];

/** The exponent λ(s) as TeX, by the wobble convention. */
const exponents = {
  "1/m": "\\mu\\alpha(s) + k s",
  "rad/m": "\\mu(\\alpha(s) + k s)",
  rad: "\\mu\\sum_{s_i \\le s}(\\theta_i + k)",
} as const;

/** A governing equation in λ with the exponent behind it: that of the convention chosen, or all of them. */
export function withExponent(law: string): Pick<StepInWords, "governing" | "cases"> {
  const all = Object.entries(exponents);
  const lines = all.map(([wobble, exponent]) => `${exponent} & \\text{${wobble}}`);
  return {
    governing: `${law},\\quad \\lambda = \\begin{cases} ${lines.join(" \\\\ ")} \\end{cases}`,
    cases: {
      argument: "wobble",
      as: Object.fromEntries(all.map(([wobble, exponent]) => [wobble, `${law},\\quad \\lambda = ${exponent}`])),
    },
  };
}

/** μ and k of the whole tendon; refuses a blank one. */
function whole(v: Rubbing): { readonly mu: number; readonly k: number } {
  const { mu, k } = v;
  for (const [name, value, quantity] of [
    ["mu", mu, q.frictionCoefficient],
    ["k", k, q.wobbleOfPath],
  ] as const)
    if (value === undefined)
      throw new InputError(
        name,
        `${nameOf(quantity)} is missing; a path of ${descriptions[v.path.is]} needs one value for the whole tendon`,
      );
  return { mu: mu ?? 0, k: k ?? 0 };
}

/** Refuses μ and k beside segments that have their own. */
function noneBeside({ mu, k }: Rubbing): void {
  for (const [name, value, symbol] of [
    ["mu", mu, "μ"],
    ["k", k, "k"],
  ] as const)
    if (value !== undefined)
      throw new InputError(
        name,
        `${symbol} is given, but each segment of the path has its own; leave it blank, or put it into the range`,
      );
}

function alongTheTendon({ path: { is }, wobble }: Rubbing): Wobble {
  if (wobble === "rad")
    throw new InputError(
      "wobble",
      `wobble = “rad” counts an angle at each deviator; a path of ${descriptions[is]} needs 1/m (beside μ) or rad/m (inside μ)`,
    );
  return wobble;
}

/** The tendon as friction sees it from one of its ends. */
export function pathFrom(v: Rubbing, end: End): Path {
  const { path: rows } = v;
  if (rows.is === "points") {
    const wobble = alongTheTendon(v);
    const { mu, k } = whole(v);
    const { angle, ...course } = courseFrom(rows, end);
    return { ...course, exponent: (s) => exponentOf(wobble, mu, angle(s), k, s) };
  }
  if (rows.is === "segments") {
    const wobble = alongTheTendon(v);
    noneBeside(v);
    turnsOf(rows);
    return pathOfSegments(seenFrom<Segment>(rows.rows, end), ({ l, alpha_v, alpha_h, mu, k }) =>
      exponentOf(wobble, mu, angleInSpace(alpha_v, alpha_h), k, l),
    );
  }
  if (v.wobble !== "rad")
    throw new InputError(
      "wobble",
      `wobble = “${v.wobble}” counts a wobble along the tendon; on a path of deviators friction acts at ` +
        "the deviators: needed is rad, with k the unintended angle at each",
    );
  const { mu, k } = whole(v);
  return pathOfSegments(seenFrom(turnsOf(rows), end), ({ l, alpha_v, alpha_h }) =>
    l === 0 ? mu * (angleInSpace(alpha_v, alpha_h) + k) : 0,
  );
}

/**
 * λ from an end to a distance a second way: what is left of the whole when the tendon is seen from its other end. Just behind the
 * place, so that an angle at the place itself counts as passed.
 */
export function exponentFromBehind(v: Rubbing, end: End, distance: number): number {
  const { exponent, length } = pathFrom(v, otherEnd(end));
  return exponent(length) - exponent(Math.max(length - distance - 1e-12 * length, 0));
}
