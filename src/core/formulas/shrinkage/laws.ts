import { valueBetween, valueFor } from "../../lookup.ts";
import type { Label } from "../../parameters.ts";

/** α_ds1 of EN 1992-1-1:2004 B.2(1), by cement class. */
const dryingAmount = { S: 3, N: 4, R: 6 };
/** α_ds2 of EN 1992-1-1:2004 B.2(1), by cement class. */
const dryingDecay = { S: 0.13, N: 0.12, R: 0.11 };
/** k_h of EN 1992-1-1:2004 Table 3.3, over h_0 in mm. */
const sizePoints: readonly (readonly [number, number])[] = [
  [100, 1],
  [200, 0.85],
  [300, 0.75],
  [500, 0.7],
];

/** Steps of the nominal unrestrained drying shrinkage, from `f_cm`, `RH` and `cement`. */
export const nominalSteps = {
  alpha_ds1: {
    symbol: "α_ds1",
    unit: "–",
    text: "coefficient by cement class",
    clause: "B.2(1)",
    lookup: { of: "cement", values: dryingAmount },
  },
  alpha_ds2: {
    symbol: "α_ds2",
    unit: "–",
    text: "coefficient by cement class",
    clause: "B.2(1)",
    lookup: { of: "cement", values: dryingDecay },
  },
  beta_RH: {
    symbol: "β_RH",
    unit: "–",
    text: "effect of humidity",
    clause: "(B.12)",
    equation: "1.55 * (1 - (RH / 100)^3)",
  },
  eps_cd0: {
    symbol: "ε_cd,0",
    unit: "–",
    text: "nominal unrestrained drying shrinkage",
    clause: "(B.11)",
    equation: "0.85 * (220 + 110 * alpha_ds1) * exp(-alpha_ds2 * f_cm / 10) * 1e-6 * beta_RH",
  },
} as const;

export function nominal(f_cm: number, RH: number, cement: Label) {
  const alpha_ds1 = valueFor(dryingAmount, cement);
  const alpha_ds2 = valueFor(dryingDecay, cement);
  const beta_RH = 1.55 * (1 - (RH / 100) ** 3);
  return {
    alpha_ds1,
    alpha_ds2,
    beta_RH,
    eps_cd0: 0.85 * (220 + 110 * alpha_ds1) * Math.exp((-alpha_ds2 * f_cm) / 10) * 1e-6 * beta_RH,
  };
}

/** Steps of the drying shrinkage at `t`, from `eps_cd0`, `h_0` and `t_s`. */
export const dryingSteps = {
  k_h: {
    symbol: "k_h",
    unit: "–",
    text: "effect of the notional size, linear between the points of the table, held beyond its ends",
    clause: "Table 3.3",
    lookup: { of: "h_0", points: sizePoints },
  },
  beta_ds: {
    symbol: "β_ds(t,t_s)",
    unit: "–",
    text: "development with time",
    clause: "(3.10)",
    equation: "(t - t_s) / ((t - t_s) + 0.04 * sqrt(h_0^3))",
  },
  eps_cd: { symbol: "ε_cd", unit: "–", text: "drying shrinkage", clause: "(3.9)", equation: "beta_ds * k_h * eps_cd0" },
} as const;

export function drying(eps_cd0: number, h_0: number, t_s: number, t: number) {
  const k_h = valueBetween(sizePoints, h_0);
  const beta_ds = (t - t_s) / (t - t_s + 0.04 * Math.sqrt(h_0 ** 3));
  return { k_h, beta_ds, eps_cd: beta_ds * k_h * eps_cd0 };
}

/** Steps of the autogenous shrinkage at `t`, from `f_ck`. */
export const autogenousSteps = {
  eps_cainf: {
    symbol: "ε_ca(∞)",
    unit: "–",
    text: "final autogenous shrinkage",
    clause: "(3.12)",
    equation: "2.5 * (f_ck - 10) * 1e-6",
  },
  beta_as: {
    symbol: "β_as(t)",
    unit: "–",
    text: "development with time",
    clause: "(3.13)",
    equation: "1 - exp(-0.2 * sqrt(t))",
  },
  eps_ca: {
    symbol: "ε_ca",
    unit: "–",
    text: "autogenous shrinkage",
    clause: "(3.11)",
    equation: "beta_as * eps_cainf",
  },
} as const;

export function autogenous(f_ck: number, t: number) {
  const eps_cainf = 2.5 * (f_ck - 10) * 1e-6;
  const beta_as = 1 - Math.exp(-0.2 * Math.sqrt(t));
  return { eps_cainf, beta_as, eps_ca: beta_as * eps_cainf };
}

/** The sentence for sections thinner than the table's first point. */
export function thinSection({ h_0 }: { readonly h_0: number }): readonly string[] {
  return h_0 < sizePoints[0]![0]
    ? ["h0 is below 100 mm, the first point of EN 1992-1-1 Table 3.3: kh is held at 1.00"]
    : [];
}

/** The range of relative humidity that Table 3.2 prints. */
export const printedHumidity = { range: [20, 100], where: "EN 1992-1-1 Table 3.2" } as const;

export const humidityNote =
  "Relative humidity below 20 %, the least that Table 3.2 prints, is computed with a warning; outside 0 to 100 % it is refused.";
export const sizeNote =
  "k_h is linear between the points of Table 3.3 (common practice; the clause prints points only) and " +
  "held at its ends; below 100 mm with a caution.";
