/** s of EN 1992-1-1:2004 3.1.2(6), by cement class. */
export const strengthGain = { S: 0.38, N: 0.25, R: 0.2 } as const;

/** β_cc of EN 1992-1-1:2004 (3.2); `t` in days. */
export function ageFactor(s: number, t: number): number {
  return Math.exp(s * (1 - Math.sqrt(28 / t)));
}

/** The two steps from the cement class to β_cc, as formulas with the parameters `t` and `cement` show them. */
export const ageFactorSteps = {
  s: {
    symbol: "s",
    unit: "–",
    text: "coefficient of strength gain by cement class",
    clause: "3.1.2(6)",
    lookup: { of: "cement", values: strengthGain },
  },
  beta_cc: { symbol: "β_cc", unit: "–", clause: "(3.2)", equation: "exp(s * (1 - sqrt(28 / t)))" },
} as const;

/** Why mathjs cannot check units of equations in the age t. */
export const daysCounted = "28 stands for 28 days";
/** Why mathjs cannot check units of equations in the mean strength. */
export const megapascalsAdded = "8 and 10 stand for 8 and 10 MPa";

/** Where the numbers by cement class were read. */
export const classesReadIn = "The numbers by cement class were read in the French transcription of the standard only.";
