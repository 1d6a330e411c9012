import { elasticLossAtLevel } from "./atLevel.ts";
import { elasticShorteningPretension } from "./pretension.ts";
import { programmeFormulas } from "./programme.ts";
import { stepFormulas } from "./step.ts";
import { elasticShorteningPostEn1992, elasticShorteningSequence } from "./sequence.ts";

export const elasticFormulas = [
  elasticShorteningPretension,
  elasticLossAtLevel,
  elasticShorteningSequence,
  elasticShorteningPostEn1992,
  ...programmeFormulas,
  ...stepFormulas,
];
