import { elongationAtJack } from "./elongationAtJack.ts";
import { elongationDeviation } from "./elongationDeviation.ts";
import { elongationDeviationUtilisation } from "./elongationDeviationUtilisation.ts";
import { elongationFromReadings } from "./elongationFromReadings.ts";
import { elongationStage } from "./elongationStage.ts";
import { elongationUniform } from "./elongationUniform.ts";
import { forceDeviation } from "./forceDeviation.ts";
import { gaugePressure } from "./gaugePressure.ts";
import { gaugePressureCalibrated } from "./gaugePressureCalibrated.ts";
import { jackForce } from "./jackForce.ts";
import { jackForceCalibrated } from "./jackForceCalibrated.ts";
import { jackStrokes } from "./jackStrokes.ts";
import { lockOff } from "./lockOffResult.ts";
import { stressingTable } from "./stressingTable.ts";
import { tendonElongation } from "./tendonElongation.ts";

export const stressingFormulas = [
  elongationUniform,
  tendonElongation,
  lockOff,
  jackForce,
  jackForceCalibrated,
  gaugePressure,
  gaugePressureCalibrated,
  elongationStage,
  jackStrokes,
  elongationFromReadings,
  elongationAtJack,
  elongationDeviation,
  elongationDeviationUtilisation,
  forceDeviation,
];
export const stressingSpills = [stressingTable];
