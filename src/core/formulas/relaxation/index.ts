import { relaxationLossComponent } from "./relaxationLossComponent.ts";
import { relaxationLossEn1992 } from "./relaxationLossEn1992.ts";
import { relaxationLossIntrinsic } from "./relaxationLossIntrinsic.ts";
import { relaxationLossStagedEn1992 } from "./relaxationLossStagedEn1992.ts";
import { relaxationTimeFactor } from "./relaxationTimeFactor.ts";

/** Relaxation of prestressing steel. */
export const relaxation = [
  relaxationLossEn1992,
  relaxationLossStagedEn1992,
  relaxationLossIntrinsic,
  relaxationLossComponent,
  relaxationTimeFactor,
] as const;
