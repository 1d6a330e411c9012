import type { Formula } from "../formula.ts";
import { frictionStress } from "./friction/frictionStress.ts";
import { frictionStressEn1992 } from "./friction/frictionStressEn1992.ts";

/** Every formula, in the order people meet them. */
export const formulas: readonly Formula[] = [frictionStress, frictionStressEn1992] as unknown as readonly Formula[];
