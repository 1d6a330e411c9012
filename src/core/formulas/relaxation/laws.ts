import type { Steps } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import type { Label } from "../../parameters.ts";

/** ρ_1000 of EN 1992-1-1:2004 3.3.2(6) in per cent, and the two constants of (3.28) to (3.30), by relaxation class. */
const classLoss = { 1: 8, 2: 2.5, 3: 4 };
const factors = { 1: 5.39, 2: 0.66, 3: 1.98 };
const exponents = { 1: 6.7, 2: 9.1, 3: 8 };

/** The steps that take the class to its constants, the same in every relaxation formula. */
export const classSteps = {
  rho_class: {
    symbol: "ρ_class",
    unit: "%",
    text: "relaxation after 1000 h of the class",
    clause: "3.3.2(6)",
    lookup: { of: "relaxationClass", values: classLoss },
  },
  K: {
    symbol: "K",
    unit: "–",
    text: "factor of the class",
    clause: "(3.28)–(3.30)",
    lookup: { of: "relaxationClass", values: factors },
  },
  b: {
    symbol: "b",
    unit: "–",
    text: "exponent of the class",
    clause: "(3.28)–(3.30)",
    lookup: { of: "relaxationClass", values: exponents },
  },
  rho: {
    symbol: "ρ_1000",
    unit: "%",
    text: "relaxation after 1000 h that is used",
    equation: "rho_1000 > 0 ? rho_1000 : rho_class",
  },
} as const satisfies Steps;

/** The values of those steps. */
export function classConstants(
  relaxationClass: Label,
  rho_1000: number,
): { readonly rho_class: number; readonly K: number; readonly b: number; readonly rho: number } {
  const rho_class = valueFor(classLoss, relaxationClass);
  return {
    rho_class,
    K: valueFor(factors, relaxationClass),
    b: valueFor(exponents, relaxationClass),
    rho: rho_1000 > 0 ? rho_1000 : rho_class,
  };
}

/** (3.28) to (3.30): loss over initial stress after t hours. */
export function relaxationRatio(K: number, rho: number, b: number, mu: number, hours: number): number {
  return K * rho * Math.exp(b * mu) * (hours / 1000) ** (0.75 * (1 - mu)) * 1e-5;
}

/** Annex D: the time in hours after which a stress S would have lost what was lost before. */
export function equivalentTime(K: number, rho: number, b: number, mu: number, S: number, earlier: number): number {
  return earlier > 0 ? 1000 * (earlier / (relaxationRatio(K, rho, b, mu, 1000) * S)) ** (1 / (0.75 * (1 - mu))) : 0;
}

/** Above this part of the strength the relaxation of this part is used: the formula knows no tests there. */
export const mostStressed = 0.95;

/** Annex D: further loss in the hours after that time. Rounding alone could leave a difference just below 0. */
export function furtherLoss(
  K: number,
  rho: number,
  b: number,
  mu: number,
  S: number,
  earlier: number,
  hours: number,
): number {
  return Math.max(0, relaxationRatio(K, rho, b, mu, hours) * S - earlier);
}
