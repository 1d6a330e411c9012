import { elasticShorteningPretension } from "./pretension.ts";
import { elasticShorteningPostEn1992, elasticShorteningSequence } from "./sequence.ts";

export const elasticFormulas = [elasticShorteningPretension, elasticShorteningSequence, elasticShorteningPostEn1992];
