import { concreteStressAtTendon, fibreStress } from "./fibreStress.ts";
import { tensionUtilisation } from "./tensionUtilisation.ts";

export const stressFormulas = [fibreStress, concreteStressAtTendon, tensionUtilisation];
