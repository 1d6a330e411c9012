import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { drying, dryingSteps, sizeNote, thinSection } from "./laws.ts";

/** Drying shrinkage at an age. */
export const dryingShrinkageEn1992 = stepwise({
  id: "DRYING_SHRINKAGE_EN1992_2004",
  family: "shrinkage",
  summary: "Drying shrinkage strain at age t from the nominal strain, shortening positive",
  notes: [sizeNote],
  source: { key: "EN1992-1-1:2004", clause: "3.1.4(6) (3.9, 3.10), Table 3.3", basis: "seen", readIn: "CE:2021" },
  params: {
    h_0: q.notionalSize,
    eps_cd0: q.dryingShrinkageNominal,
    t_s: q.ageAtEndOfCuring,
    t: as(q.concreteAge, { text: "age of concrete at which shrinkage is wanted" }),
  },
  limits: ({ t_s }) => ({ t: { min: t_s, because: "the end of curing" } }),
  cautions: thinSection,
  result: q.dryingShrinkage,
  steps: dryingSteps,
  compute: ({ eps_cd0, h_0, t_s, t }) => drying(eps_cd0, h_0, t_s, t),
  empirical: "a fit to tests, with ages in days and sizes in mm",
});
