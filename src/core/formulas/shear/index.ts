import { shearCrackedEn1992, shearUncrackedEn1992 } from "./concrete.ts";
import { linkSpacingIs1343, shearCrackedIs1343, shearUncrackedIs1343 } from "./is1343.ts";
import {
  addedTensionEn1992,
  linkSpacingEn1992,
  shearLinksEn1992,
  strutCotangentEn1992,
  tendonShear,
  webWidthLessDuctsEn1992,
} from "./links.ts";
import { strutResistanceEn1992 } from "./strutResistance.ts";
import { shearWebEn1992 } from "./web.ts";

export const shearFormulas = [
  shearUncrackedEn1992,
  shearWebEn1992,
  shearCrackedEn1992,
  tendonShear,
  webWidthLessDuctsEn1992,
  strutCotangentEn1992,
  shearLinksEn1992,
  strutResistanceEn1992,
  linkSpacingEn1992,
  addedTensionEn1992,
  shearUncrackedIs1343,
  shearCrackedIs1343,
  linkSpacingIs1343,
];
