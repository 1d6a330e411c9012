import { drawInLength } from "./drawInLength.ts";
import { drawInLengthTable } from "./drawInLengthTable.ts";
import { drawInLengthUniform } from "./drawInLengthUniform.ts";
import { drawInLevelStress } from "./drawInLevelStress.ts";
import { drawInLevelStressTable } from "./drawInLevelStressTable.ts";
import { drawInLossUniform } from "./drawInLossUniform.ts";
import { stressAfterDrawIn } from "./stressAfterDrawIn.ts";
import { tendonMeanStress } from "./tendonMeanStress.ts";
import { tendonStressDrawIn } from "./tendonStressDrawIn.ts";

export const drawInFormulas = [
  drawInLengthUniform,
  drawInLossUniform,
  drawInLevelStress,
  drawInLength,
  drawInLevelStressTable,
  drawInLengthTable,
  stressAfterDrawIn,
  tendonStressDrawIn,
  tendonMeanStress,
];
