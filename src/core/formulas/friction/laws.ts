import type { Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Source } from "../../sources.ts";
import { mechanics } from "../mechanics.ts";

/** The two published ways to write the exponent of friction; they take different quantities k. */
export interface FrictionLaw {
  readonly suffix: string;
  readonly says: string;
  /** Where the exponent of friction stands. */
  readonly source: Source;
  /** Of what follows from that exponent by mechanics: draw-in, null point, elongation, mean stress. */
  readonly follows: Source;
  readonly k: Quantity;
  readonly exponent: (mu: number, alpha: number, k: number, s: number) => number;
  readonly tex: string;
}
export const frictionLaws: readonly FrictionLaw[] = [
  {
    suffix: "",
    says: "wobble k in 1/m, outside μ",
    source: mechanics,
    follows: mechanics,
    k: q.wobblePerLength,
    exponent: (mu, alpha, k, s) => mu * alpha + k * s,
    tex: "\\mu\\alpha(s) + k s",
  },
  {
    suffix: "_EN1992_2004",
    says: "wobble k in rad/m, inside μ",
    source: { key: "EN1992-1-1:2004", clause: "5.10.5.2 (5.45)", basis: "seen", readIn: "CE:2021" },
    follows: { key: "EN1992-1-1:2004", clause: "friction by 5.10.5.2 (5.45)", basis: "derived" },
    k: q.wobbleAngle,
    exponent: (mu, alpha, k, s) => mu * (alpha + k * s),
    tex: "\\mu(\\alpha(s) + k s)",
  },
];
