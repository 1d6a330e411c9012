import { drawInGeneral } from "./general.ts";
import { stressAfterDrawIn } from "./stressAfterDrawIn.ts";
import { drawInLengthUniform, drawInLossUniform } from "./uniform.ts";

export const drawInFormulas = [drawInLengthUniform, drawInLossUniform, ...drawInGeneral, stressAfterDrawIn];
