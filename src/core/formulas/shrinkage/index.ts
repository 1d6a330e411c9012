import { autogenousShrinkageEn1992 } from "./autogenousShrinkageEn1992.ts";
import { dryingShrinkageEn1992 } from "./dryingShrinkageEn1992.ts";
import { dryingShrinkageNominalEn1992 } from "./dryingShrinkageNominalEn1992.ts";
import { shrinkageStrainEn1992 } from "./shrinkageStrainEn1992.ts";

/** Shrinkage of concrete. */
export const shrinkage = [dryingShrinkageNominalEn1992, dryingShrinkageEn1992, autogenousShrinkageEn1992, shrinkageStrainEn1992] as const;
