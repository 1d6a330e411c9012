import { shearUniform } from "./shear.ts";
import { tendonForce, tendonStressFromForce } from "./forces.ts";
import { momentUniform, selfWeight } from "./moments.ts";
import { station } from "./station.ts";

export const loadingFormulas = [selfWeight, momentUniform, tendonForce, tendonStressFromForce, station, shearUniform];
