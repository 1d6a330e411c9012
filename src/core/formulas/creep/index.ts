import { creepCoefficientAci209 } from "./creepCoefficientAci209.ts";
import { creepCoefficientEn1992 } from "./creepCoefficientEn1992.ts";
import { creepCoefficientModelCode1990, creepCoefficientModelCode1999 } from "./creepCoefficientModelCode.ts";
import { creepLossComponent } from "./creepLossComponent.ts";
import { nonlinearCreepCoefficientEn1992 } from "./nonlinearCreepCoefficientEn1992.ts";
import { notionalSizeEn1992 } from "./notionalSizeEn1992.ts";
import { temperatureAdjustedAgeEn1992 } from "./temperatureAdjustedAgeEn1992.ts";

/** Creep of concrete. */
export const creep = [
  notionalSizeEn1992,
  temperatureAdjustedAgeEn1992,
  creepCoefficientEn1992,
  nonlinearCreepCoefficientEn1992,
  creepCoefficientAci209,
  creepCoefficientModelCode1990,
  creepCoefficientModelCode1999,
  creepLossComponent,
] as const;
