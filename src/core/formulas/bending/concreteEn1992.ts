import type { Point } from "../section/polygon.ts";
import type { ConcreteLaw } from "./concreteLaw.ts";
import { narrows } from "./strips.ts";

/** Table 3.1 and 3.1.7 of EN 1992-1-1:2004, by the characteristic cylinder strength in MPa. */
function curveOf(f_ck: number): { readonly eps_c2: number; readonly eps_cu2: number; readonly n: number } {
  if (f_ck <= 50) return { eps_c2: 0.002, eps_cu2: 0.0035, n: 2 };
  const high = ((90 - f_ck) / 100) ** 4;
  return { eps_c2: 0.002 + 0.000085 * (f_ck - 50) ** 0.53, eps_cu2: 0.0026 + 0.035 * high, n: 1.4 + 23.4 * high };
}

function blockOf(f_ck: number): { readonly lambda: number; readonly eta: number; readonly eps_c3: number } {
  const over = Math.max(0, f_ck - 50);
  return { lambda: 0.8 - over / 400, eta: 1 - over / 200, eps_c3: 0.00175 + (0.00055 * over) / 40 };
}

export function concreteLawEn1992(block: string, f_ck: number, f_cd: number, reduced: boolean): ConcreteLaw {
  const { eps_c2, eps_cu2, n } = curveOf(f_ck);
  if (block === "PARABOLA_RECTANGLE") return { kind: "CURVE", eps_c: eps_c2, eps_cu: eps_cu2, f: f_cd, n };
  const { lambda, eta, eps_c3 } = blockOf(f_ck);
  return { kind: "BLOCK", lambda, eps_c: eps_c3, eps_cu: eps_cu2, f: eta * f_cd * (reduced ? 0.9 : 1) };
}

/** Whether the block takes the tenth less that 3.1.7(3) asks of zones that narrow towards the edge. */
export const blockNarrows = (points: readonly Point[], law: ConcreteLaw, x: number): boolean =>
  law.kind === "BLOCK" && narrows(points, law.lambda * x);
