import { adjustedBondRatioEn1992 } from "./bondRatioEn1992.ts";
import { crackWidthEn1992 } from "./crackWidthEn1992.ts";
import { minClearSpacingEn1992, nominalCoverEn1992 } from "./detailingEn1992.ts";
import { effectiveTensionHeightEn1992, equivalentTendonDiameterEn1992 } from "./effectiveZoneEn1992.ts";
import { minCrackReinforcementEn1992 } from "./minReinforcementEn1992.ts";

/** Reinforcement and width of cracks; cover and spacing. */
export const crackingFormulas = [
  minCrackReinforcementEn1992,
  adjustedBondRatioEn1992,
  crackWidthEn1992,
  nominalCoverEn1992,
  effectiveTensionHeightEn1992,
  equivalentTendonDiameterEn1992,
  minClearSpacingEn1992,
];
