import {
  creepCoefficientIs1343,
  creepLossIs1343,
  elasticLossIs1343,
  frictionCoefficientIs1343,
  relaxationLossIs1343,
  shrinkageLoss,
  shrinkageStrainIs1343,
} from "./losses.ts";
import { compressionLimitDirectIs1343 } from "./directCompression.ts";
import { hypotheticalTensionIs1343 } from "./hypotheticalTension.ts";
import {
  compressionLimitIs1343,
  linearCreepLimitIs1343,
  tensionLimitIs1343,
  transmissionLengthIs1343,
} from "./limits.ts";
import {
  concreteModulusIs1343,
  concreteModulusIs1343y2012,
  flexuralStrengthIs1343,
  jackingStressLimitIs1343,
  jackingStressLimitIs1343y2012,
  minimumGradeIs1343,
} from "./materials.ts";

/** IS 1343, edition 1980, and what is certain of edition 2012. */
export const is1343Formulas = [
  concreteModulusIs1343,
  concreteModulusIs1343y2012,
  flexuralStrengthIs1343,
  minimumGradeIs1343,
  frictionCoefficientIs1343,
  elasticLossIs1343,
  creepCoefficientIs1343,
  creepLossIs1343,
  shrinkageStrainIs1343,
  shrinkageLoss,
  relaxationLossIs1343,
  transmissionLengthIs1343,
  jackingStressLimitIs1343,
  jackingStressLimitIs1343y2012,
  compressionLimitIs1343,
  compressionLimitDirectIs1343,
  linearCreepLimitIs1343,
  tensionLimitIs1343,
  hypotheticalTensionIs1343,
] as const;
