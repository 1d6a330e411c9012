import { compositeFormulas, toppingStress } from "./composite.ts";
import { kernDistance, sectionModulus } from "./derived.ts";
import { hollowSlab } from "./hollowSlab.ts";
import { coverFormulas } from "./cover.ts";
import { crackedFormulas } from "./cracked.ts";
import { levelFormulas } from "./levels.ts";
import { netFormulas, transformedFormulas } from "./net.ts";
import { outlineFormulas } from "./outline.ts";
import { boxSection, iSection, rectangle, tSection } from "./shapes.ts";

export const sectionFormulas = [
  ...rectangle,
  ...tSection,
  ...iSection,
  ...boxSection,
  ...hollowSlab,
  ...outlineFormulas,
  ...levelFormulas,
  ...coverFormulas,
  sectionModulus,
  kernDistance,
  ...netFormulas,
  ...transformedFormulas,
  ...compositeFormulas,
  toppingStress,
  ...crackedFormulas,
];
