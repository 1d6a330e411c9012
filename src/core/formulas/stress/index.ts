import { concreteStressAtTendon, fibreStress } from "./fibreStress.ts";
import { eccentricityForFibreStress, prestressForFibreStress } from "./forFibreStress.ts";
import { principalTension, temperatureCamber, webShearStress } from "./web.ts";
import { tensionUtilisation } from "./tensionUtilisation.ts";

export const stressFormulas = [
  fibreStress,
  concreteStressAtTendon,
  prestressForFibreStress,
  eccentricityForFibreStress,
  tensionUtilisation,
  webShearStress,
  principalTension,
  temperatureCamber,
];
