import { drawIn, drawInStations, drawInUniform } from "./drawIn.ts";
import { stressAfterDrawIn } from "./stressAfterDrawIn.ts";
import { tendonMeanStress } from "./tendonMeanStress.ts";
import { tendonStressDrawIn } from "./tendonStressDrawIn.ts";

export const drawInFormulas = [
  drawIn,
  drawInUniform,
  drawInStations,
  stressAfterDrawIn,
  tendonStressDrawIn,
  tendonMeanStress,
];
