import { as, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { creepCoefficientEn1992 } from "../creep/creepCoefficientEn1992.ts";
import { development } from "../creep/laws.ts";
import { nonlinearCreepCoefficientEn1992 } from "../creep/nonlinearCreepCoefficientEn1992.ts";
import { valueFor } from "../../lookup.ts";
import { cementClass } from "../en1992/choices.ts";
import { ageFactor, strengthGain } from "../en1992/strengthGain.ts";
import { concreteStrengthAtAgeEn1992 } from "../materials/concreteStrengthAtAgeEn1992.ts";
import { autogenous, drying, nominal, printedHumidity } from "../shrinkage/laws.ts";
import { timeLaw } from "./law.ts";
import { relaxationBy, relaxationLimits, relaxationNote, steel, testedRelaxation } from "./relaxationEn1992.ts";

/** Days up to which 3.1.2(5) has the strength tested. */
const testedUntil = 3;

/** Part of f_ck(t) up to which 3.1.4(4) has creep linear. */
const linearPart = 0.45;

/** Strength at an age: at the first event as given; by (3.2) where the standard lets it be computed, unknown before that. */
function strengthAt(
  v: {
    readonly f_ck: number;
    readonly cement: "N" | "R" | "S";
    readonly t_0T: number;
    readonly f_ckt0: number;
  },
  age: number,
  first: number,
): number | undefined {
  if (age === first && v.f_ckt0 > 0) return v.f_ckt0;
  const t = v.t_0T > 0 ? v.t_0T + (age - first) : age;
  if (t <= testedUntil) return v.f_ckt0 > 0 ? v.f_ckt0 : undefined;
  return concreteStrengthAtAgeEn1992.compute({ f: v.f_ck, t, cement: v.cement });
}

/** Creep of Annex B, shrinkage of 3.1.4 and Annex B, relaxation of 3.3.2 with the equivalent time of Annex D. */
export const lawEn1992 = timeLaw({
  name: "EN1992_2004",
  says: "with creep, shrinkage and relaxation of EN 1992-1-1",
  notes: [
    "A load applied at t′ strains by 1/E_cm(t′) + φ(t,t′)/(1.05 E_cm); E_cm(t′) by (3.2) and (3.5), φ by Annex B.1.",
    "A load that leaves more than 0.45 f_ck(t) in the concrete at the tendons creeps with φ_nl of " +
      "3.1.4(4) (3.7) from then on; relief and what the losses take off creep linearly.",
    "Shrinkage by 3.1.4(6) and Annex B.2, drying from t_s on.",
    relaxationNote,
    "With t_0T the concrete counts as that old at the first event and as much older at the later ones; durations stay real.",
  ],
  // Superposition over steps is mechanics; the laws it sums have their own functions, with their own basis.
  source: { key: "EN1992-1-1:2004", clause: "laws of 3.1.4, 3.3.2, Annexes B and D", basis: "derived" },
  empirical: "the laws are fits to tests, with strengths in MPa, sizes in mm, ages in days and humidity in per cent",
  needed: {
    f_ck: q.concreteStrength,
    E_c: q.concreteModulus,
    RH: as(q.relativeHumidity, { valid: printedHumidity }),
    h_0: q.notionalSize,
    t_s: q.ageAtEndOfCuring,
    cement: cementClass,
    ...steel,
  },
  optional: {
    ...testedRelaxation,
    t_0T: as(q.temperatureAdjustedAge, {
      symbol: "t_0,T",
      text: "temperature-adjusted age at the first event; blank or 0: its age",
      default: 0,
    }),
    f_ckt0: as(q.concreteStrengthAtAge, {
      symbol: "f_ck(t_0)",
      text: "characteristic strength at the first event, for non-linear creep; blank or 0: by (3.1) and (3.2)",
      min: 0,
      default: 0,
    }),
  },
  limits: relaxationLimits,
  linearTo: (v, age, first) => {
    const strength = strengthAt(v, age, first);
    return strength === undefined
      ? undefined
      : {
          stress: linearPart * strength,
          named: "0.45 f_ck(t) of 3.1.4(4)",
          beyond: "compression that comes on then creeps with φ_nl of (3.7)",
        };
  },
  cautions: (v, first) =>
    first <= testedUntil && v.t_0T === 0
      ? [
          `the first event, at ${format(first)} days, lies in the first 3 days, where 3.1.2(5) asks for tests ` +
            `of the strength: Ecm(t) follows (3.2) there all the same${v.f_ckt0 > 0 ? "" : ", and creep is taken as linear"}`,
        ]
      : [],
  materials: (v, first) => {
    const f_cm = v.f_ck + 8;
    const s = valueFor(strengthGain, v.cement);
    const adjusted = (age: number): number => (v.t_0T > 0 ? v.t_0T + (age - first) : age);
    const { eps_cd0 } = nominal(f_cm, v.RH, v.cement);
    return {
      compliance: (loaded) => {
        const elastic = 1 / (v.E_c * ageFactor(s, adjusted(loaded)) ** 0.3);
        const { phi_0, beta_H } = creepCoefficientEn1992.stepwise({
          f_cm,
          RH: v.RH,
          h_0: v.h_0,
          t_0: loaded,
          t: loaded,
          cement: v.cement,
          t_0T: adjusted(loaded),
        }) as { phi_0: number; beta_H: number };
        const creep = phi_0 / (1.05 * v.E_c);
        return (now) => elastic + creep * development(beta_H, now, loaded);
      },
      shrinkage: (age) => drying(eps_cd0, v.h_0, v.t_s, Math.max(age, v.t_s)).eps_cd + autogenous(v.f_ck, age).eps_ca,
      relaxation: relaxationBy(v),
      highStressFactor: (stress, age) => {
        const strength = strengthAt(v, age, first);
        if (strength === undefined || stress <= linearPart * strength) return 1;
        // Concrete bears no more than its strength: beyond it the design fails elsewhere, and the law says nothing.
        const sigma_c = Math.min(stress, strength);
        return nonlinearCreepCoefficientEn1992.compute({ phi: 1, sigma_c, f_ckt0: strength });
      },
    };
  },
});
