/**
 * A tendon as friction sees it from the end it is pulled at: the exponent of friction λ from that end to a distance s,
 * so that σ(s) = σ_p0 e^−λ(s). λ never falls; where an angle stands at one place it jumps, and the jump counts at the
 * place itself.
 */
export interface Path {
  readonly exponent: (s: number) => number;
  readonly length: number;
  /** Distances between which λ is smooth, the ends included. */
  readonly breaks: readonly number[];
  /** True length of the tendon per unit of s. */
  readonly stretch: (s: number) => number;
}

/** The same tendon seen from either end. */
export interface Paths {
  readonly LEFT: Path;
  readonly RIGHT: Path;
}
