import { autogenousShrinkageEn1992 } from "./autogenousShrinkageEn1992.ts";
import { dryingShrinkageEn1992 } from "./dryingShrinkageEn1992.ts";
import { dryingShrinkageNominalEn1992 } from "./dryingShrinkageNominalEn1992.ts";
import { shrinkageFactorComponent, shrinkageLossComponent } from "./shrinkageLossComponent.ts";
import { shrinkageStrainAci209 } from "./shrinkageStrainAci209.ts";
import { shrinkageStrainEn1992 } from "./shrinkageStrainEn1992.ts";
import { shrinkageStrainModelCode1990, shrinkageStrainModelCode1999 } from "./shrinkageStrainModelCode.ts";

/** Shrinkage of concrete. */
export const shrinkage = [
  dryingShrinkageNominalEn1992,
  dryingShrinkageEn1992,
  autogenousShrinkageEn1992,
  shrinkageStrainEn1992,
  shrinkageStrainAci209,
  shrinkageStrainModelCode1990,
  shrinkageStrainModelCode1999,
  shrinkageLossComponent,
  shrinkageFactorComponent,
] as const;
