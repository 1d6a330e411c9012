import { frictionStress } from "./frictionStress.ts";
import { frictionStressLinear } from "./frictionStressLinear.ts";
import { nullPoint } from "./nullPoint.ts";
import { tendonStressFriction } from "./tendonStressFriction.ts";

export const frictionFormulas = [frictionStress, frictionStressLinear, tendonStressFriction, nullPoint];
