/** ρ_1000 of EN 1992-1-1:2004 3.3.2(6) in per cent, and the two constants of (3.28) to (3.30), by relaxation class. */
export const classLoss = { 1: 8, 2: 2.5, 3: 4 };
export const factors = { 1: 5.39, 2: 0.66, 3: 1.98 };
export const exponents = { 1: 6.7, 2: 9.1, 3: 8 };

/** (3.28) to (3.30): loss over initial stress after t hours. */
export function relaxationRatio(K: number, rho: number, b: number, mu: number, hours: number): number {
  return K * rho * Math.exp(b * mu) * (hours / 1000) ** (0.75 * (1 - mu)) * 1e-5;
}
