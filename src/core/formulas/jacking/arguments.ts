import { InputError } from "../../errors.ts";
import { as, orBlank } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Rubbing } from "../friction/alongPath.ts";
import { pathFrom } from "../friction/alongPath.ts";
import { pulledAt, type Pulled } from "../friction/pulled.ts";
import { anchorage, jacks, type End } from "../tendon/ends.ts";
import { jacked, type Ends, type Jacked } from "./bothEnds.ts";

/** The jacks and their stress. */
interface Pulling extends Rubbing {
  readonly jacks: End | "BOTH";
  readonly sigma0: number;
  readonly sigma_r: number | undefined;
}
/** The same with what happens at lock-off. */
interface Anchoring extends Pulling {
  readonly E_p: number;
  readonly slip: number;
  readonly slip_r: number | undefined;
  readonly sigma_lo: number | undefined;
}

/** The arguments about jacks and anchorages; those that may be left out stand last in every function. */
export const jacking = {
  jacks,
  sigma0: as(q.jackingStress, { text: "jacking stress; with both jacks at the left one" }),
  slip: as(q.drawIn, { text: "draw-in at lock-off; with both jacks at the left anchorage" }),
  x: as(q.controlX, { text: "distance from the left end of the tendon" }),
  anchorage: orBlank(anchorage, "one jack: its own end"),
  sigma_lo: orBlank(
    as(q.jackingStress, { symbol: "σ_lo", text: "stress at the jack at lock-off, where it was let down before" }),
    "not let down",
  ),
  sigma_r: orBlank(
    as(q.jackingStress, { symbol: "σ_p0,r", text: "jacking stress at the right jack" }),
    "as at the left",
  ),
  slip_r: orBlank(as(q.drawIn, { symbol: "Δ_r", text: "draw-in at the right anchorage" }), "as at the left"),
};

export const jackNotes = {
  both:
    "Jacked at both ends at once, or fully at one end and then at the other: after friction the stress at " +
    "each place is the greater of what the two jacks bring. A jack that holds no more than the other " +
    "brings there is the null point.",
  kink: "At a kink the stress behind it, seen from the jack.",
  drawIn:
    "One jack: draw-in at the jacked end alone; after it the stress is min(σ, 2σ_a − σ), the mirrored " +
    "line of common practice. Both jacks: both anchorages are locked off and neither jack goes on " +
    "pulling; while neither draw-in passes the null point the order makes no difference.",
  passing:
    "A draw-in that passes the null point takes the tendon beyond it along the way the other jack pulled " +
    "it: there the stress sinks by 2 (σ_0 − σ_a), up to the place of highest stress, where nothing moves; " +
    "each area rule holds on its side of that place. The mirrored line stands for exact reverse friction: " +
    "at the anchorages it gives a little too little, inside a little too much, the more so the further " +
    "the draw-in goes.",
  letDown:
    "Let down before lock-off (one jack): jacked to σ_p0, held, let down to σ_lo, anchored. Letting down " +
    "acts as a draw-in of which the stress left at the jack is given and not the length: the stress after " +
    "friction is mirrored about (σ_p0 + σ_lo)/2, and the draw-in goes on where the let-down stopped.",
  overstress:
    "A jacking stress above the stress at lock-off is temporary, but every limit of the jacking stress holds for it.",
};

/** A let-down ends below the stress to which it was jacked. */
export const letDownLimit = ({ sigma0 }: { readonly sigma0: number }) => ({
  sigma_lo: { max: sigma0, because: "the stress to which it was jacked" },
});

/** Refuses what belongs to another choice of jacks. */
function checkJacks(v: Pulling & Partial<Anchoring>): void {
  for (const [name, symbol] of [
    ["sigma_r", "σp0,r"],
    ["slip_r", "Δr"],
  ] as const)
    if (v.jacks !== "BOTH" && v[name] !== undefined)
      throw new InputError(
        name,
        `${symbol} is given for the right jack, but jacks = ${v.jacks}; leave it blank, or jacks = BOTH`,
      );
  if (v.jacks === "BOTH" && v.sigma_lo !== undefined)
    throw new InputError(
      "sigma_lo",
      "σlo is given, but letting down before lock-off is computed for one jack only; leave it blank, or jacks = LEFT or RIGHT",
    );
}

/** The one jack that pulls; undefined where both do. */
export function oneJack(v: Pulling & Partial<Anchoring>): End | undefined {
  checkJacks(v);
  return v.jacks === "BOTH" ? undefined : v.jacks;
}

/** The end a result is asked of. */
export function endOf(v: Pulling & { readonly anchorage: End | undefined }): End {
  const { jacks: pulls, anchorage: asked } = v;
  if (pulls === "BOTH") {
    if (asked === undefined)
      throw new InputError("anchorage", "end (end looked at) is missing; with both jacks one is needed: LEFT or RIGHT");
    return asked;
  }
  if (asked !== undefined && asked !== pulls)
    throw new InputError(
      "anchorage",
      `end = ${asked} is the dead end: the tendon is jacked from the ${pulls.toLowerCase()}; leave it blank, or ${pulls}`,
    );
  return pulls;
}

/** What one jack brings. */
export const pulledFrom = (v: Pulling, end: End): Pulled => pulledAt(v, end, v.sigma0);

export const sigmasOf = ({ sigma0, sigma_r }: Pick<Pulling, "sigma0" | "sigma_r">): Ends => ({
  LEFT: sigma0,
  RIGHT: sigma_r ?? sigma0,
});
export const slipsOf = ({ slip, slip_r }: Pick<Anchoring, "slip" | "slip_r">): Ends => ({
  LEFT: slip,
  RIGHT: slip_r ?? slip,
});

/** What both jacks bring. */
export const jackedFrom = (v: Rubbing & Pick<Pulling, "sigma0" | "sigma_r">): Jacked =>
  jacked({ LEFT: pathFrom(v, "LEFT"), RIGHT: pathFrom(v, "RIGHT") }, sigmasOf(v));

/** A jack that moves nothing is told. */
export function idle(v: Pulling): readonly string[] {
  if (v.jacks !== "BOTH") return [];
  const { own } = jackedFrom(v);
  if (own.LEFT !== 0 && own.RIGHT !== 0) return [];
  return [
    `the jack at the ${own.LEFT === 0 ? "left" : "right"} end holds no more than the other jack brings there: it does not move the tendon`,
  ];
}
