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
  readonly psi1: number;
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

/** Share of the force after immediate losses that is left at the end, before the lower factor. Common practice, no source. */
const left = 0.85;

/**
 * Force after immediate losses, kN, and eccentricity, mm, at midspan: the corner of the feasible domain that needs the
 * least force. Throws NoResult, with the limits that exclude each other, where the domain is empty.
 */
export function sized(of: ToSize): { readonly P: number; readonly e: number } {
  const M = (w: number): number => (w * of.L ** 2) / 8;
  const section = [of.A, of.I, of.yb, of.h, "BOTH"] as const;
  const permanent = of.g + of.gs;
  const conditions = [
    [M(of.g), 1.1, of.fcTransfer, of.ftTransfer, ...section],
    [M(permanent + of.q), 0.9 * left, of.fcService, of.ftService, ...section],
    [M(permanent + of.psi2 * of.q), 0.9 * left, of.fcPermanent, of.ftPermanent, ...section],
  ];
  const room = [of.yb - of.h + of.lowest, of.yb - of.lowest];
  const one = (result: string): number => computed("REGION_MIN_FORCE", [conditions, ...room, result]);
  return { P: one("FORCE"), e: one("ECCENTRICITY") };
}
