import { kernDistance, sectionModulus } from "./derived.ts";
import { netFormulas, transformedFormulas } from "./net.ts";
import { outlineFormulas } from "./outline.ts";
import { boxSection, iSection, rectangle, tSection } from "./shapes.ts";

export const sectionFormulas = [...rectangle, ...tSection, ...iSection, ...boxSection, ...outlineFormulas, sectionModulus, kernDistance, ...netFormulas, ...transformedFormulas];
