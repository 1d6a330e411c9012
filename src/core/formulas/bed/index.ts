import { bedDrawInLoss, bedElongation, deflectionForce } from "./bed.ts";
import { equivalentTimeHeatCuringEn1992, heatCuredStrengthEn1992, thermalLossEn1992 } from "./heatCuringEn1992.ts";

export const bedFormulas = [
  bedElongation,
  bedDrawInLoss,
  deflectionForce,
  equivalentTimeHeatCuringEn1992,
  thermalLossEn1992,
  heatCuredStrengthEn1992,
] as const;
