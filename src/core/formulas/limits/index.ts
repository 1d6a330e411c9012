import { characteristicPrestressLowerEn1992 } from "./characteristicPrestressLowerEn1992.ts";
import { characteristicPrestressUpperEn1992 } from "./characteristicPrestressUpperEn1992.ts";
import { compressionLimitCharacteristicEn1992 } from "./compressionLimitCharacteristicEn1992.ts";
import { compressionLimitQuasiPermanentEn1992 } from "./compressionLimitQuasiPermanentEn1992.ts";
import { compressionLimitTransferEn1992 } from "./compressionLimitTransferEn1992.ts";
import { crackWidthLimitEn1992, decompressionLimitEn1992, decompressionRequiredEn1992 } from "./crackingEn1992.ts";
import { initialStressLimitEn1992 } from "./initialStressLimitEn1992.ts";
import { jackingStressLimitEn1992 } from "./jackingStressLimitEn1992.ts";
import { tensionLimitNoReinforcementEn1992 } from "./minimumReinforcementEn1992.ts";
import { prestressFactorLowerEn1992 } from "./prestressFactorLowerEn1992.ts";
import { prestressFactorUpperEn1992 } from "./prestressFactorUpperEn1992.ts";
import { overstressLimitEn1992, partialForceEn1992, partialForceStrengthEn1992 } from "./stressingStepsEn1992.ts";
import { tendonStressLimitServiceEn1992 } from "./tendonStressLimitServiceEn1992.ts";
import { tensionLimitUncrackedEn1992 } from "./tensionLimitUncrackedEn1992.ts";

/** Limits of stress, and the spread of prestress. */
export const limits = [
  jackingStressLimitEn1992,
  overstressLimitEn1992,
  partialForceEn1992,
  partialForceStrengthEn1992,
  initialStressLimitEn1992,
  tendonStressLimitServiceEn1992,
  compressionLimitTransferEn1992,
  compressionLimitCharacteristicEn1992,
  compressionLimitQuasiPermanentEn1992,
  tensionLimitUncrackedEn1992,
  tensionLimitNoReinforcementEn1992,
  decompressionRequiredEn1992,
  decompressionLimitEn1992,
  crackWidthLimitEn1992,
  prestressFactorUpperEn1992,
  prestressFactorLowerEn1992,
  characteristicPrestressUpperEn1992,
  characteristicPrestressLowerEn1992,
] as const;
