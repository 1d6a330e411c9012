import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

export const tendonForce = formula({
  id: "TENDON_FORCE",
  family: "loading",
  summary: "Force of a tendon from its stress, tension positive",
  source: mechanics,
  params: { A_p: q.tendonArea, sigma_p: q.tendonStress },
  result: q.prestressForce,
  equation: "sigma_p * A_p",
  compute: ({ sigma_p, A_p }) => sigma_p * A_p,
});

export const tendonStressFromForce = formula({
  id: "TENDON_STRESS",
  family: "loading",
  summary: "Mean stress of tendons from their force, tension positive",
  source: mechanics,
  params: { A_p: q.tendonArea, P: as(q.prestressForce, { min: 0 }) },
  result: q.tendonStress,
  equation: "P / A_p",
  compute: ({ P, A_p }) => P / A_p,
  unpublished: "Force over area.",
});
