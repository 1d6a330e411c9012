import { computed } from "./sections.ts";

/** What the sizing of the prestress looks at: midspan of a simply supported member under uniform loads. */
export interface ToSize {
  readonly A: number;
  readonly I: number;
  readonly yb: number;
  readonly h: number;
  /** m and kN/m. */
  readonly L: number;
  readonly g: number;
  readonly gs: number;
  readonly q: number;
  readonly psi2: number;
  /** Limits of stress, MPa, compression positive. */
  readonly fcTransfer: number;
  readonly ftTransfer: number;
  readonly fcService: number;
  readonly ftService: number;
  /** Under the quasi-permanent combination. */
  readonly fcPermanent: number;
  readonly ftPermanent: number;
  /** Lowest height of the tendons' centroid above the soffit, mm. */
  readonly lowest: number;
}

/**
 * Force after immediate losses, kN, and eccentricity, mm, at midspan: the corner of the feasible domain that needs the
 * least force. Throws NoResult, with the limits that exclude each other, where the domain is empty.
 */
export function sized(of: ToSize): { readonly P: number; readonly e: number } {
  const limits = [
    [of.fcTransfer, of.ftTransfer],
    [of.fcService, of.ftService],
    [of.fcPermanent, of.ftPermanent],
  ];
  const given = [of.A, of.I, of.yb, of.h, limits, of.L, of.g, of.gs, of.q, of.psi2, of.lowest];
  const one = (result: string): number => computed("REQUIRED_PRESTRESS", [...given, result]);
  return { P: one("FORCE"), e: one("ECCENTRICITY") };
}
