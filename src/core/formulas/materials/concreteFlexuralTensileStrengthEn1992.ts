import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";

/** Mean flexural tensile strength of a member of depth h. */
export const concreteFlexuralTensileStrengthEn1992 = formula({
  id: "CONCRETE_TENSILE_STRENGTH_FROM_MEAN_EN1992_2004",
  family: "materials",
  summary: "Mean flexural tensile strength from the mean axial strength and the depth of the member",
  notes: [
    "From a depth of 600 mm on it equals the axial strength.",
    "The same factor holds for the characteristic strengths.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "3.1.8(1) (3.23)", basis: "seen", readIn: "CE:2021" },
  params: { f_ctm: q.concreteTensileStrength, h: q.sectionHeight },
  result: q.concreteFlexuralTensileStrength,
  equation: "max((1.6 - h / 1000) * f_ctm, f_ctm)",
  compute: ({ f_ctm, h }) => Math.max((1.6 - h / 1000) * f_ctm, f_ctm),
  empirical: "1000 stands for 1000 mm",
  unpublished: "no published result was found; at h = 600 mm the two branches meet, which the tests check",
});
