import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { aggregate } from "../en1992/choices.ts";

const factors = { QUARTZITE: 1, LIMESTONE: 0.9, SANDSTONE: 0.7, BASALT: 1.2 };

/** Secant modulus between zero and 0.4 f_cm. */
export const concreteModulusEn1992 = stepwise({
  id: "CONCRETE_MODULUS_EN1992_2004",
  family: "materials",
  summary: "Secant modulus of concrete at 28 days from the mean cylinder strength and the aggregate",
  notes: [
    "Secant between zero stress and 0.4 f_cm.",
    "Table 3.1 prints the result to 1 GPa; here it is not rounded, which differs by up to 1.5 %.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "Table 3.1, 3.1.3(2)", basis: "seen", readIn: "CE:2021" },
  params: { f_cm: q.concreteMeanStrength, aggregate },
  result: as(q.concreteModulus, { reads: "GPa" }),
  steps: {
    factor: {
      symbol: "k_agg",
      unit: "–",
      text: "factor of the aggregate",
      clause: "3.1.3(2)",
      lookup: { of: "aggregate", values: factors },
    },
    E_cm: { symbol: "E_cm", unit: "GPa", reads: "GPa", clause: "Table 3.1", equation: "factor * 22 * (f_cm / 10)^0.3" },
  },
  compute: (v) => {
    const factor = valueFor(factors, v.aggregate);
    return { factor, E_cm: factor * 22 * (v.f_cm / 10) ** 0.3 };
  },
  empirical: "a fit to tests, with the strength in MPa and the modulus in GPa",
});
