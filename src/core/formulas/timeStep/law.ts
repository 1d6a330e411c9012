import type { Limits } from "../../formula.ts";
import type { Parameters, Quantity, Values } from "../../parameters.ts";
import type { Source } from "../../sources.ts";
import type { Materials } from "./history.ts";

/** A set of laws for creep, shrinkage and relaxation through time, and the arguments they need. */
export interface TimeLaw<N extends Parameters = Parameters, O extends Parameters = Parameters> {
  /** As the argument names it. */
  readonly name: string;
  readonly says: string;
  readonly notes: readonly string[];
  readonly source: Source;
  readonly empirical: string;
  readonly needed: N;
  readonly optional: O;
  /** The most tendon stress the laws cover, given the relaxation before the first event. */
  limits(values: Values<N & O>, earlier: number): Limits<{ sigma_p0: Quantity }>;
  /**
   * The concrete stress up to which the law of creep is linear, at an age, and the clause; absent where the
   * source gives none; `beyond` says what is done above it.
   */
  linearTo?(
    values: Values<N & O>,
    age: number,
    first: number,
  ): { readonly stress: number; readonly named: string; readonly beyond?: string } | undefined;
  /** What should be known about these values before anything is computed. */
  cautions?(values: Values<N & O>, first: number): readonly string[];
  /** `first` is the age at which the tendons are anchored. */
  materials(values: Values<N & O>, first: number): Materials;
}

export function timeLaw<const N extends Parameters, const O extends Parameters>(law: TimeLaw<N, O>): TimeLaw {
  return law;
}
