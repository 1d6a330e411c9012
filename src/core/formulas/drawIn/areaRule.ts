import type { StepInWords } from "../../formula.ts";

/** The area rule as TeX where one end is locked off. */
export const areaRuleOneJack = "2\\int_0^{l_a} \\left(\\sigma(s) - \\sigma_a\\right) ds = \\Delta\\,E_p";
const bothJacks =
  "\\int_0^{x_r} (\\sigma - \\sigma')\\,dx = \\Delta_l E_p,\\ \\int_{x_r}^{L} (\\sigma - \\sigma')\\,dx = \\Delta_r E_p";

/** The area rule of a step: that of the jacks chosen, or both. */
export const areaRule: Pick<StepInWords, "governing" | "cases"> = {
  governing: `${areaRuleOneJack},\\quad \\text{both jacks: } ${bothJacks}`,
  cases: { argument: "jacks", as: { LEFT: areaRuleOneJack, RIGHT: areaRuleOneJack, BOTH: bothJacks } },
};

export const areaNotes = [
  "One rule for every case: the area between the stress before and after draw-in equals Δ·E_p. Where " +
    "the dead end is reached, σ_a lies below the stress there; where a kink stops the draw-in, between " +
    "the stresses before and behind it.",
  "After draw-in the stress at a place is min(σ, 2σ_a − σ), the mirrored line of common practice. " +
    "Friction that follows its own law on the way back would leave σ_a²/σ, which is more by (σ − σ_a)²/σ.",
];
