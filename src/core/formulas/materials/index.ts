import { concreteAgeFactorEn1992 } from "./concreteAgeFactorEn1992.ts";
import { concreteClasses } from "./concreteClass.ts";
import { concreteDesignStrengthEn1992 } from "./concreteDesignStrengthEn1992.ts";
import { concreteDesignTensileStrengthAtReleaseEn1992 } from "./concreteDesignTensileStrengthAtReleaseEn1992.ts";
import { concreteFlexuralTensileStrengthEn1992 } from "./concreteFlexuralTensileStrengthEn1992.ts";
import { concreteMeanStrengthAtAgeEn1992 } from "./concreteMeanStrengthAtAgeEn1992.ts";
import { concreteMeanStrengthFromTestEn1992 } from "./concreteMeanStrengthFromTestEn1992.ts";
import { concreteMeanStrengthEn1992 } from "./concreteMeanStrengthEn1992.ts";
import { concreteModulusAtAgeEn1992 } from "./concreteModulusAtAgeEn1992.ts";
import { concreteModulusEn1992 } from "./concreteModulusEn1992.ts";
import { concreteStrengthAtAgeAci209 } from "./concreteStrengthAtAgeAci209.ts";
import { concreteStrengthAtAgeEn1992 } from "./concreteStrengthAtAgeEn1992.ts";
import { concreteTangentModulusEn1992 } from "./concreteTangentModulusEn1992.ts";
import { concreteTensileStrengthAtAgeEn1992 } from "./concreteTensileStrengthAtAgeEn1992.ts";
import { concreteTensileStrengthEn1992 } from "./concreteTensileStrengthEn1992.ts";
import { concreteTensileStrengthLowerEn1992 } from "./concreteTensileStrengthLowerEn1992.ts";
import { concreteTensileStrengthUpperEn1992 } from "./concreteTensileStrengthUpperEn1992.ts";
import { strengthRequiredCube, strengthRequiredEn1992 } from "./strengthRequired.ts";
import { tendonProducts } from "./tendonProduct.ts";

/** Strength and stiffness of concrete. */
export const materials = [
  concreteMeanStrengthEn1992,
  concreteTensileStrengthEn1992,
  concreteTensileStrengthLowerEn1992,
  concreteTensileStrengthUpperEn1992,
  concreteFlexuralTensileStrengthEn1992,
  concreteModulusEn1992,
  concreteTangentModulusEn1992,
  concreteAgeFactorEn1992,
  concreteMeanStrengthAtAgeEn1992,
  concreteMeanStrengthFromTestEn1992,
  concreteStrengthAtAgeEn1992,
  concreteStrengthAtAgeAci209,
  concreteTensileStrengthAtAgeEn1992,
  concreteModulusAtAgeEn1992,
  concreteDesignStrengthEn1992,
  concreteDesignTensileStrengthAtReleaseEn1992,
  strengthRequiredEn1992,
  strengthRequiredCube,
  ...concreteClasses,
  ...tendonProducts,
] as const;
