import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";

/** Mean axial tensile strength: a power law up to C50/60, a logarithm above. */
export const concreteTensileStrengthEn1992 = stepwise({
  id: "CONCRETE_TENSILE_STRENGTH_EN1992_2004",
  family: "materials",
  summary: "Mean axial tensile strength at 28 days from the characteristic cylinder strength",
  notes: ["The law changes at f_ck = 50 MPa.", "Table 3.1 prints the result to 0.1 MPa; here it is not rounded."],
  source: { key: "EN1992-1-1:2004", clause: "Table 3.1", basis: "seen", readIn: "CE:2021" },
  params: { f_ck: q.concreteStrength },
  result: q.concreteTensileStrength,
  steps: {
    f_cm: { symbol: "f_cm", unit: "MPa", clause: "Table 3.1", equation: "f_ck + 8" },
    f_ctm: {
      symbol: "f_ctm",
      unit: "MPa",
      clause: "Table 3.1",
      equation: "f_ck <= 50 ? 0.30 * f_ck^(2/3) : 2.12 * log(1 + f_cm / 10)",
    },
  },
  compute: ({ f_ck }) => {
    const f_cm = f_ck + 8;
    return { f_cm, f_ctm: f_ck <= 50 ? 0.3 * f_ck ** (2 / 3) : 2.12 * Math.log(1 + f_cm / 10) };
  },
  empirical: "a fit to tests, with strengths in MPa",
});
