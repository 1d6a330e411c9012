import { anchorageCheckEn1992, anchoredStressEn1992, crackedSectionStressEn1992 } from "./anchorageUltimateEn1992.ts";
import { bondStrengthEn1992 } from "./bondStrengthEn1992.ts";
import { bondFraction, transmissionEnd } from "./buildUp.ts";
import {
  anchorageLengthEn1992,
  dispersionLengthEn1992,
  transmissionLengthBoundEn1992,
  transmissionLengthEn1992,
} from "./transmissionLengthEn1992.ts";

export const transmissionFormulas = [
  bondFraction,
  transmissionEnd,
  bondStrengthEn1992,
  transmissionLengthEn1992,
  transmissionLengthBoundEn1992,
  dispersionLengthEn1992,
  anchorageLengthEn1992,
  anchorageCheckEn1992,
  anchoredStressEn1992,
  crackedSectionStressEn1992,
] as const;
