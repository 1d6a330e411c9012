import { InputError } from "../../errors.ts";
import { valueFor } from "../../lookup.ts";
import { as, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { creepCoefficientAci209 } from "../creep/creepCoefficientAci209.ts";
import { concreteStrengthAtAgeAci209 } from "../materials/concreteStrengthAtAgeAci209.ts";
import { aciHumidity, aciMix, creepDevelopment, earliestLoading } from "../models/aci209.ts";
import { cementType, curing } from "../models/choices.ts";
import { shrinkageStrainAci209 } from "../shrinkage/shrinkageStrainAci209.ts";
import { timeLaw } from "./law.ts";
import { relaxationBy, relaxationLimits, relaxationNote, steel, testedRelaxation } from "./relaxationEn1992.ts";

/** Creep and shrinkage of ACI 209R-92, relaxation of EN 1992-1-1. */
export const lawAci209 = timeLaw({
  name: "ACI209R_1992",
  says: "with creep and shrinkage of ACI 209R-92 and relaxation of EN 1992-1-1",
  notes: [
    "A load applied at t′ strains by [1 + φ(t,t′)]/E_c(t′); E_c(t′) is the modulus at 28 days times the " +
      "square root of the strength gained.",
    "A first event before the earliest age of loading that the report covers for the curing is refused.",
    aciMix,
    aciHumidity,
    relaxationNote,
  ],
  source: { key: "ACI209R-92", clause: "2.2, 2.4, 2.5", basis: "second-hand", readIn: "ACI209.2R-08" },
  empirical: "the laws are fits to tests, with ages in days, sizes in mm and humidity and shares in per cent",
  needed: {
    E_c: as(q.elasticModulusConcrete, { text: "modulus of elasticity of the concrete at 28 days" }),
    RH: as(q.relativeHumidity, { min: 40 }),
    VS: q.volumeSurface,
    t_s: as(q.ageAtEndOfCuring, { symbol: "t_c", min: 1 }),
    curing,
    cement: cementType,
    ...steel,
  },
  optional: {
    ...testedRelaxation,
    s: as(q.slump, { default: 70 }),
    psi: as(q.finesShare, { default: 50 }),
    c: as(q.cementContent, { default: 410 }),
    a: as(q.airContent, { default: 6 }),
  },
  limits: relaxationLimits,
  materials: (v, first) => {
    const earliest = valueFor(earliestLoading, v.curing);
    if (first < earliest)
      throw new InputError(
        "events",
        `ti (age of concrete) in row 1 of the range = ${format(first)} days is below ${earliest} day${earliest === 1 ? "" : "s"}, ` +
          `the earliest age of loading for this curing; allowed: at least ${earliest} day${earliest === 1 ? "" : "s"}`,
      );
    const strength = (t: number): number =>
      concreteStrengthAtAgeAci209.compute({ f_c28: 1, t, curing: v.curing, cement: v.cement });
    const shrunk = (t: number): number =>
      shrinkageStrainAci209.compute({
        t_c: v.t_s,
        t,
        curing: v.curing,
        RH: v.RH,
        VS: v.VS,
        s: v.s,
        psi: v.psi,
        c: v.c,
        a: v.a,
      });
    return {
      compliance: (loaded) => {
        const elastic = 1 / (v.E_c * Math.sqrt(strength(loaded) / strength(28)));
        const { phi_u } = creepCoefficientAci209.stepwise({
          t_0: loaded,
          t: loaded,
          curing: v.curing,
          RH: v.RH,
          VS: v.VS,
          s: v.s,
          psi: v.psi,
          a: v.a,
        }) as { phi_u: number };
        return (now) => elastic * (1 + phi_u * creepDevelopment(now - loaded));
      },
      shrinkage: (age) => shrunk(Math.max(age, v.t_s)),
      relaxation: relaxationBy(v),
    };
  },
});
