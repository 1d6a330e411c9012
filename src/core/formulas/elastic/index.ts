import { afterStressingStep } from "./afterStressingStep.ts";
import { elasticLossAtLevel } from "./elasticLossAtLevel.ts";
import { elasticLossPostEn1992 } from "./elasticLossPostEn1992.ts";
import { elasticLossPretension } from "./elasticLossPretension.ts";
import { elasticLossProgramme } from "./elasticLossProgramme.ts";
import { elasticLossSequence } from "./elasticLossSequence.ts";
import { jackingForceCompensated } from "./jackingForceCompensated.ts";

export const elasticFormulas = [
  elasticLossPretension,
  elasticLossAtLevel,
  elasticLossSequence,
  elasticLossPostEn1992,
  elasticLossProgramme,
  jackingForceCompensated,
  afterStressingStep,
];
