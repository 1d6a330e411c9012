import type { Step } from "../../formula.ts";

/** What CEB-FIP Model Code 1990 and EN 1992-1-1 Annex B say alike: the effect of the age at loading, and the development with time. */

/** The steps from cement and age at loading to β(t_0), for formulas with the parameters `cement`, `t_0` and `t_0T`. */
export function ageSteps(
  exponents: Readonly<Record<string, number>>,
  clauses: { readonly exponent?: string; readonly age?: string; readonly factor?: string },
): { readonly alpha: Step; readonly t_0adj: Step; readonly beta_t0: Step } {
  const at = (clause: string | undefined) => (clause === undefined ? {} : { clause });
  return {
    alpha: {
      symbol: "α",
      unit: "–",
      text: "exponent by cement class",
      ...at(clauses.exponent),
      lookup: { of: "cement", values: exponents },
    },
    t_0adj: {
      symbol: "t_0,adj",
      unit: "days",
      text: "age at loading adjusted for temperature and cement",
      ...at(clauses.age),
      equation: "max((t_0T > 0 ? t_0T : t_0) * (9 / (2 + (t_0T > 0 ? t_0T : t_0)^1.2) + 1)^alpha, 0.5)",
    },
    beta_t0: {
      symbol: "β(t_0)",
      unit: "–",
      text: "effect of the age at loading",
      ...at(clauses.factor),
      equation: "1 / (0.1 + t_0adj^0.2)",
    },
  };
}

export function ageEffect(
  alpha: number,
  t_0: number,
  t_0T: number,
): { readonly alpha: number; readonly t_0adj: number; readonly beta_t0: number } {
  const loaded = t_0T > 0 ? t_0T : t_0;
  const t_0adj = Math.max(loaded * (9 / (2 + loaded ** 1.2) + 1) ** alpha, 0.5);
  return { alpha, t_0adj, beta_t0: 1 / (0.1 + t_0adj ** 0.2) };
}

export const developmentEquation = "((t - t_0) / (beta_H + t - t_0))^0.3";

export function development(beta_H: number, t: number, t_0: number): number {
  return ((t - t_0) / (beta_H + t - t_0)) ** 0.3;
}
