import { concreteStressAtTendon, fibreStress } from "./fibreStress.ts";
import { prestressForFibreStress } from "./forFibreStress.ts";
import { principalTension, temperatureCamber, webShearStress } from "./web.ts";
import { tensionUtilisation } from "./tensionUtilisation.ts";

export const stressFormulas = [
  fibreStress,
  concreteStressAtTendon,
  prestressForFibreStress,
  tensionUtilisation,
  webShearStress,
  principalTension,
  temperatureCamber,
];
