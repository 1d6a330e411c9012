import { deflectedEccentricity } from "./deflectedEccentricity.ts";
import { deviationForce } from "./deviationForce.ts";
import { deviationForceComponent } from "./deviationForceComponent.ts";
import { distanceFromJack } from "./distanceFromJack.ts";
import { tendonAngle } from "./tendonAngle.ts";
import { tendonEccentricity } from "./tendonEccentricity.ts";
import { tendonKinkAngle } from "./tendonKinkAngle.ts";
import { tendonLength } from "./tendonLength.ts";
import { tendonMinRadius } from "./tendonMinRadius.ts";
import { tendonSlope } from "./tendonSlope.ts";

export const tendonFormulas = [
  tendonEccentricity,
  tendonSlope,
  tendonAngle,
  distanceFromJack,
  tendonLength,
  tendonMinRadius,
  tendonKinkAngle,
  deflectedEccentricity,
  deviationForce,
  deviationForceComponent,
];
