import type { Limits } from "../../formula.ts";
import { as, type Label, type Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { relaxationClass } from "../en1992/choices.ts";
import { classConstants, equivalentTime, furtherLoss, mostStressed } from "../relaxation/laws.ts";
import type { Materials } from "./history.ts";

const hoursPerDay = 24;

/** The steel's arguments, for every set of laws that relaxes by EN 1992-1-1. */
export const steel = { f_pk: q.tendonTensileStrength, relaxationClass } as const;
export const testedRelaxation = {
  rho_1000: as(q.relaxation1000, {
    text: "relaxation after 1000 h at 20 °C by test; blank or 0: the value of the class",
    default: 0,
  }),
} as const;
export const relaxationNote = "Relaxation by EN 1992-1-1 3.3.2(7), carried on by the equivalent time of its Annex D.";

export const relaxationLimits = ({ f_pk }: { readonly f_pk: number }): Limits<{ sigma_p0: Quantity }> => ({
  sigma_p0: { max: f_pk, because: "the tensile strength" },
});

export function relaxationBy(v: {
  readonly f_pk: number;
  readonly relaxationClass: Label;
  readonly rho_1000: number;
}): Materials["relaxation"] {
  const { K, b, rho } = classConstants(v.relaxationClass, v.rho_1000);
  return (stress, earlier, days) => {
    if (stress <= 0) return 0;
    const mu = Math.min(stress / v.f_pk, mostStressed);
    return furtherLoss(
      K,
      rho,
      b,
      mu,
      stress,
      earlier,
      equivalentTime(K, rho, b, mu, stress, earlier) + days * hoursPerDay,
    );
  };
}
