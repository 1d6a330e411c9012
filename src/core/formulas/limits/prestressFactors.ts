import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** r_sup and r_inf of EN 1992-1-1:2004 5.10.9(1), by kind of tendon. */
export const upperFactors = { PRE_TENSIONED: 1.05, UNBONDED: 1.05, BONDED: 1.1, MEASURED: 1 };
export const lowerFactors = { PRE_TENSIONED: 0.95, UNBONDED: 0.95, BONDED: 0.9, MEASURED: 1 };

export const factorNote = "r is nationally determined; the value by kind of tendon is the recommended one.";

export const meanForce = as(q.prestressForce, {
  symbol: "P_m,t",
  text: "mean prestressing force at time t",
  sort: "mean prestress",
});

/** Which characteristic value counts. */
export const characteristicBound = choice({
  key: "characteristicBound",
  symbol: "bound",
  text: "characteristic value that is wanted",
  values: [
    { value: "UPPER", text: "upper: r_sup" },
    { value: "LOWER", text: "lower: r_inf" },
  ],
});
