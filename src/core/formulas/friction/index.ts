import { frictionStress } from "./frictionStress.ts";
import { frictionStressEn1992 } from "./frictionStressEn1992.ts";
import { frictionStressLinear } from "./frictionStressLinear.ts";

export const frictionFormulas = [frictionStress, frictionStressEn1992, frictionStressLinear];
