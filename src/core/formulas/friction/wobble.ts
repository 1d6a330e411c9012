import { byChoice } from "../../formula.ts";
import { choice } from "../../parameters.ts";
import type { Source } from "../../sources.ts";

const beside = { value: "1/m", text: "a loss per metre beside μ: e^−(μα + kx)" } as const;
const inside = { value: "rad/m", text: "an angle per metre inside μ: e^−μ(α + kx)" } as const;

/** How the wobble enters the exponent of friction. Both conventions are in print and their k differ five- to tenfold: no default. */
export const wobble = choice({
  key: "wobble",
  symbol: "unit of k",
  text: "wobble convention, by the unit of k",
  values: [beside, inside],
});

export const wobbleOfPath = choice({
  key: "wobbleOfPath",
  symbol: "unit of k",
  text: "wobble convention, by the unit of k",
  values: [
    beside,
    inside,
    { value: "rad", text: "path of deviators: an angle at each deviator inside μ: e^−μ∑(θ + k)" },
  ],
});

export type Wobble = "1/m" | "rad/m";
export type WobbleOfPath = Wobble | "rad";

/** The exponent of friction λ over a length s with an angle change α. */
export function exponentOf(wobble: Wobble, mu: number, alpha: number, k: number, s: number): number {
  return wobble === "1/m" ? mu * alpha + k * s : mu * (alpha + k * s);
}

/** The same as equations, for a length called `length`. */
export const exponentEquation = (length: string) =>
  byChoice("wobble", { "1/m": `mu * alpha + k * ${length}`, "rad/m": `mu * (alpha + k * ${length})` });

type SourceByWobble = { readonly argument: string; readonly as: Readonly<Record<string, Source>> };

/** With the wobble inside μ the exponent is the standard's. */
export const frictionClause: SourceByWobble = {
  argument: "wobble",
  as: { "rad/m": { key: "EN1992-1-1:2004", clause: "5.10.5.2 (5.45)", basis: "seen", readIn: "CE:2021" } },
};

/** What follows from that exponent by mechanics: draw-in, null point, elongation, mean stress. */
export const followsFriction: SourceByWobble = {
  argument: "wobble",
  as: { "rad/m": { key: "EN1992-1-1:2004", clause: "5.10.5.2 (5.45) for the friction", basis: "derived" } },
};

/** Where both conventions are in print. */
export const conventions =
  "Two wobble conventions are in print and their k are different quantities: beside μ in 1/m, and " +
  "inside μ in rad/m as in EN 1992-1-1. “wobble” says which k is meant and has no default.";
