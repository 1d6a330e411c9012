import { characteristicPrestressEn1992 } from "./characteristicPrestressEn1992.ts";
import { compressionLimitEn1992 } from "./compressionLimitEn1992.ts";
import { crackControlEn1992, decompressionLimitEn1992 } from "./crackingEn1992.ts";
import { prestressFactorEn1992 } from "./prestressFactorEn1992.ts";
import { partialForceEn1992 } from "./stressingStepsEn1992.ts";
import { tendonStressLimitEn1992 } from "./tendonStressLimitEn1992.ts";
import { tensionLimitEn1992 } from "./tensionLimitEn1992.ts";

/** Limits of stress, and the spread of prestress. */
export const limits = [
  tendonStressLimitEn1992,
  partialForceEn1992,
  compressionLimitEn1992,
  tensionLimitEn1992,
  decompressionLimitEn1992,
  crackControlEn1992,
  prestressFactorEn1992,
  characteristicPrestressEn1992,
] as const;
