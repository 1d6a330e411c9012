import { bedElongation } from "./bedElongation.ts";
import { equivalentTimeHeatCuringEn1992 } from "./equivalentTimeHeatCuringEn1992.ts";
import { heatCuredStrengthEn1992 } from "./heatCuredStrengthEn1992.ts";
import { holdDownForce } from "./holdDownForce.ts";
import { lateralStrainWedge } from "./lateralStrainWedge.ts";
import { maturity, maturityTime } from "./maturity.ts";
import { thermalLossEn1992 } from "./thermalLossEn1992.ts";
import { unitsOnLine } from "./unitsOnLine.ts";

export const bedFormulas = [
  bedElongation,
  holdDownForce,
  equivalentTimeHeatCuringEn1992,
  thermalLossEn1992,
  heatCuredStrengthEn1992,
  unitsOnLine,
  lateralStrainWedge,
  maturity,
  maturityTime,
];
