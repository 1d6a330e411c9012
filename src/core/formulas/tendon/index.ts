import { deflectedEccentricity } from "./deflectedEccentricity.ts";
import { deviationFormulas } from "./deviation.ts";
import { tendonFormulas as ofControlPoints } from "./geometry.ts";
import { tendonKinkAngle } from "./kink.ts";
import { spatialFormulas } from "./spatial.ts";

export const tendonFormulas = [
  ...ofControlPoints,
  tendonKinkAngle,
  deflectedEccentricity,
  ...spatialFormulas,
  ...deviationFormulas,
];
