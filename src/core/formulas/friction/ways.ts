import type { Parameters } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Source } from "../../sources.ts";
import { mechanics } from "../mechanics.ts";
import { controlPoints, type ControlPoint, type End } from "../tendon/controlPoints.ts";
import { checkDeviators, deviatorsTable, segmentsBetween, type Deviator } from "../tendon/external.ts";
import type { Path } from "../tendon/path.ts";
import { angleAlong, breaks, distanceFrom, fromEnd, left, profile, right, slopeAt, within } from "../tendon/profile.ts";
import {
  checkSegments,
  lengthOf,
  pathOfSegments,
  segmentsTable,
  withinLength,
  type Segment,
} from "../tendon/segments.ts";
import { frictionLaws, type FrictionLaw } from "./laws.ts";

/** A way to describe a tendon and its friction. What follows from λ(s) alone is declared once for all ways. */
export interface Way {
  /** Ends the ids of its functions. */
  readonly suffix: string;
  /** Ends their summaries. */
  readonly says: string;
  readonly notes: readonly string[];
  /** Of the exponent of friction. */
  readonly frictionSource: Source;
  /** Of what follows from it by mechanics. */
  readonly source: Source;
  /** Which description this is, whatever the law. */
  readonly of: "profile" | "segments" | "external";
  /** Parameters that describe the tendon; they stand first. */
  readonly tendon: Parameters;
  /** Parameters of friction; they follow the jacking stress. */
  readonly friction: Parameters;
  /** The exponent of friction as TeX. */
  readonly tex: string;
  readonly path: (values: object, end: End) => Path;
  /** Distance from the end of a place x, counted from the left; refuses places outside. */
  readonly distance: (values: object, x: number, end: End) => number;
}

const ofProfile = (law: FrictionLaw): Way => {
  interface V {
    readonly points: readonly ControlPoint[];
    readonly mu: number;
    readonly k: number;
  }
  return {
    suffix: law.suffix,
    says: `any profile of control points; ${law.says}`,
    frictionSource: law.source,
    source: law.follows,
    of: "profile",
    tex: law.tex,
    notes: ["Distances are measured along the span, as friction formulas take it for flat tendons."],
    tendon: { points: controlPoints },
    friction: { mu: q.frictionCoefficient, k: law.k },
    path: (values, end) => {
      const { points, mu, k } = values as V;
      const p = fromEnd(profile(points), end);
      const start = left(p);
      const angle = angleAlong(p);
      return {
        exponent: (s) => law.exponent(mu, angle(start + s), k, s),
        length: right(p) - start,
        breaks: breaks(p).map((at) => at - start),
        stretch: (s) => Math.hypot(1, slopeAt(p, start + s)),
      };
    },
    distance: (values, at, end) => {
      const p = profile((values as V).points);
      return distanceFrom(p, within(p, at), end);
    },
  };
};

const seenFrom = <T>(list: readonly T[], end: End): readonly T[] => (end === "LEFT" ? list : [...list].reverse());
const counted = (L: number, at: number, end: End): number =>
  end === "LEFT" ? withinLength(L, at) : L - withinLength(L, at);

const ofSegments = (law: FrictionLaw): Way => {
  interface V {
    readonly segments: readonly Segment[];
  }
  return {
    suffix: `_SEGMENTS${law.suffix}`,
    says: `a tendon of segments curved in space; ${law.says}`,
    frictionSource: law.source,
    source: law.follows,
    of: "segments",
    tex: law.tex,
    notes: [
      "Each segment turns by √(α_v² + α_h²), its angles in elevation and plan taken together, and has its own μ and k. Angles have no sign; reverse curvature begins a new segment.",
      "A segment of length 0 is an angle at one place, as at a deviator. Distances are measured along the tendon.",
    ],
    tendon: { segments: segmentsTable(`tendonSegments${law.suffix}`, law.k) },
    friction: {},
    path: (values, end) => {
      const { segments } = values as V;
      checkSegments(segments);
      return pathOfSegments(seenFrom(segments, end), law.exponent);
    },
    distance: (values, at, end) => counted(lengthOf((values as V).segments), at, end),
  };
};

const external: Way = (() => {
  interface V {
    readonly deviators: readonly Deviator[];
    readonly L: number;
    readonly mu: number;
    readonly dtheta: number;
  }
  return {
    suffix: "_EXTERNAL",
    says: "an external tendon over deviators",
    frictionSource: mechanics,
    source: mechanics,
    of: "external",
    tex: "\\mu\\sum_{s_i \\le s}(\\theta_i + \\Delta\\theta)",
    notes: [
      "All friction stands at the deviators, θ = √(θ_v² + θ_h²) at each; the stress is the same from one to the next and falls by a step at each.",
      "At a deviator itself the stress behind it, seen from the jack. Some specifications add an unintended angle at each deviator: Δθ.",
      "Distances are measured along the tendon.",
    ],
    tendon: { deviators: deviatorsTable, L: q.tendonLength },
    friction: { mu: q.frictionCoefficient, dtheta: q.unintendedAngle },
    path: (values, end) => {
      const { deviators, L, mu, dtheta } = values as V;
      checkDeviators(deviators, L);
      return pathOfSegments(seenFrom(segmentsBetween(deviators, L), end), (_, angle, __, s) =>
        s === 0 ? mu * (angle + dtheta) : 0,
      );
    },
    distance: (values, at, end) => counted((values as V).L, at, end),
  };
})();

/** Every way to describe a tendon, in both laws of friction where they differ. */
export const ways: readonly Way[] = [...frictionLaws.map(ofProfile), ...frictionLaws.map(ofSegments), external];
