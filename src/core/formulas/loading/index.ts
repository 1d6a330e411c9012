import { shearUniform } from "./shear.ts";
import { tendonForce, tendonStressFromForce } from "./forces.ts";
import { momentOverhang, momentUniform, selfWeight } from "./moments.ts";
import { station } from "./station.ts";

export const loadingFormulas = [
  selfWeight,
  momentUniform,
  momentOverhang,
  tendonForce,
  tendonStressFromForce,
  station,
  shearUniform,
];
