/** A cracked section by strips and nested bisection, apart from the product's closed integrals and Newton's steps. N, mm, MPa. */
import { bisect } from "./en1992.ts";

interface Strip {
  readonly b: number;
  readonly from: number;
  readonly to: number;
}
interface Steel {
  readonly A: number;
  readonly y: number;
  readonly E: number;
  readonly free: number;
}

/** Strain at the top and curvature for N = 0 and M about y0; compression positive. Sagging only: the top is compressed. */
export function crackedSection(strips: readonly Strip[], steel: readonly Steel[], Ec: number, M: number, y0: number) {
  const h = Math.max(...strips.map((s) => s.to));
  // Force and moment of concrete and steel for a neutral axis at yn and curvature k; exact for rectangles.
  const at = (yn: number, k: number) => {
    let [N, m] = [0, 0];
    for (const { b, from, to } of strips) {
      const low = Math.max(from, yn);
      if (low >= to) continue;
      const [a, c] = [low - yn, to - yn];
      const F = (Ec * k * b * (c * c - a * a)) / 2;
      const S = (Ec * k * b * (c ** 3 - a ** 3)) / 3;
      N += F;
      m += S + F * (yn - y0);
    }
    for (const { A, y, E, free } of steel) {
      const strain = k * (y - yn);
      const F = A * (E * strain - free) - (strain > 0 ? A * Ec * strain : 0);
      N += F;
      m += F * (y - y0);
    }
    return { N, m };
  };
  // For each neutral axis N is straight in the curvature; above some height no curvature holds the steel any more.
  const slope = (yn: number): number => at(yn, 1).N - at(yn, 0).N;
  const highest = bisect(slope, 0, h);
  const curvature = (yn: number): number => -at(yn, 0).N / slope(yn);
  const yn = bisect((y) => at(y, curvature(y)).m - M, 0.001, highest - 1e-6);
  const k = curvature(yn);
  return {
    x: h - yn,
    top: Ec * k * (h - yn),
    stress: steel.map(({ y, E, free }) => free - E * k * (y - yn)),
  };
}
