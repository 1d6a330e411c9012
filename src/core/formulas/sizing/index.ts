import { depthFromSpan } from "./depthFromSpan.ts";
import { requiredPrestress } from "./requiredPrestress.ts";
import { tendonCount } from "./tendonCount.ts";
import { usualSection } from "./usualSection.ts";

export const sizingFormulas = [depthFromSpan, usualSection, requiredPrestress, tendonCount];
