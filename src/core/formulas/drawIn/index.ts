import { alongTendon } from "./alongTendon.ts";
import { drawInGeneral } from "./general.ts";
import { releaseFormulas } from "./release.ts";
import { stressAfterDrawIn } from "./stressAfterDrawIn.ts";
import { drawInLengthUniform, drawInLossUniform } from "./uniform.ts";

export const drawInFormulas = [
  drawInLengthUniform,
  drawInLossUniform,
  ...drawInGeneral,
  stressAfterDrawIn,
  ...alongTendon,
  ...releaseFormulas,
];
