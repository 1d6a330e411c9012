import { creepCoefficientEn1992 } from "./creepCoefficientEn1992.ts";
import { nonlinearCreepCoefficientEn1992 } from "./nonlinearCreepCoefficientEn1992.ts";
import { notionalSizeEn1992 } from "./notionalSizeEn1992.ts";
import { temperatureAdjustedAgeEn1992 } from "./temperatureAdjustedAgeEn1992.ts";

/** Creep of concrete. */
export const creep = [notionalSizeEn1992, temperatureAdjustedAgeEn1992, creepCoefficientEn1992, nonlinearCreepCoefficientEn1992] as const;
