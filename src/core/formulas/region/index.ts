import { cableZone } from "./cableZone.ts";
import { feasibleEccentricity } from "./eccentricity.ts";
import { feasibleForce } from "./force.ts";
import { regionMinForce } from "./leastForce.ts";
import { regionMargin } from "./margin.ts";
import { regionVertex } from "./outline.ts";

/** Which forces and eccentricities keep the limits of all stages. */
export const regionFormulas = [
  feasibleEccentricity,
  feasibleForce,
  regionMinForce,
  regionVertex,
  regionMargin,
  cableZone,
] as const;
