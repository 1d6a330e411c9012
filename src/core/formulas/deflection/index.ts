import { deflectionPointLoad, deflectionUniform, prestressCamber } from "./closedForms.ts";
import { concreteStrain, crackedCurvature, curvature, curvatureFromStresses } from "./curvature.ts";
import { deflectionFromCurvature, memberShortening, slopeFromCurvature } from "./fromCurvature.ts";
import {
  ageAdjustedModulus,
  crackedShareEn1992,
  effectiveModulusEn1992,
  shrinkageCurvatureEn1992,
} from "./longTerm.ts";

export const deflectionFormulas = [
  curvature,
  curvatureFromStresses,
  crackedCurvature,
  concreteStrain,
  deflectionFromCurvature,
  slopeFromCurvature,
  memberShortening,
  prestressCamber,
  deflectionUniform,
  deflectionPointLoad,
  effectiveModulusEn1992,
  ageAdjustedModulus,
  crackedShareEn1992,
  shrinkageCurvatureEn1992,
];
