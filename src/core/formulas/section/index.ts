import { compositeSection, toppingStress } from "./composite.ts";
import { kernDistance, sectionModulus } from "./derived.ts";
import { hollowSlab } from "./hollowSlab.ts";
import { coverFormulas } from "./cover.ts";
import { crackedSection } from "./cracked.ts";
import { outlineAtLevel, outlineSection } from "./levels.ts";
import { narrowestWidth } from "./narrowest.ts";
import { netSection, transformedSection } from "./net.ts";
import { boxSection, iSection, rectangleSection, tSection } from "./shapes.ts";

export const sectionFormulas = [
  rectangleSection,
  tSection,
  iSection,
  boxSection,
  hollowSlab,
  outlineSection,
  outlineAtLevel,
  narrowestWidth,
  ...coverFormulas,
  sectionModulus,
  kernDistance,
  netSection,
  transformedSection,
  compositeSection,
  toppingStress,
  crackedSection,
];
