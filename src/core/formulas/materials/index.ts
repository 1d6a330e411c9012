import { concreteMeanStrength } from "./concreteMeanStrength.ts";
import { designStrength } from "./designStrength.ts";
import { strengthAtAge } from "./strengthAtAge.ts";
import { tensileFromMean } from "./tensileFromMean.ts";
import { concreteAgeFactorEn1992 } from "./concreteAgeFactorEn1992.ts";
import { concreteClassStrength, concreteGradeStrength } from "./concreteClass.ts";
import { concreteModulusAtAgeEn1992 } from "./concreteModulusAtAgeEn1992.ts";
import { concreteModulusEn1992 } from "./concreteModulusEn1992.ts";
import { concreteStrengthAtAgeAci209 } from "./concreteStrengthAtAgeAci209.ts";
import { concreteTangentModulusEn1992 } from "./concreteTangentModulusEn1992.ts";
import { concreteTensileStrengthEn1992 } from "./concreteTensileStrengthEn1992.ts";
import { strengthRequiredCube, strengthRequiredEn1992 } from "./strengthRequired.ts";
import { tendonProductProperty } from "./tendonProduct.ts";

/** Strength and stiffness of concrete. */
export const materials = [
  concreteMeanStrength,
  concreteTensileStrengthEn1992,
  tensileFromMean,
  concreteModulusEn1992,
  concreteTangentModulusEn1992,
  concreteAgeFactorEn1992,
  strengthAtAge,
  concreteStrengthAtAgeAci209,
  concreteModulusAtAgeEn1992,
  designStrength,
  strengthRequiredEn1992,
  strengthRequiredCube,
  concreteClassStrength,
  concreteGradeStrength,
  tendonProductProperty,
] as const;
