import { cableZoneGreatest, cableZoneLeast } from "./cableZone.ts";
import { eccentricityGreatest, eccentricityLeast } from "./eccentricity.ts";
import { forceGreatest, forceLeast } from "./force.ts";
import { leastForce, leastForceEccentricity } from "./leastForce.ts";
import { regionGoverning, regionMargin } from "./margin.ts";
import { vertexCount, vertexFormulas } from "./outline.ts";

/** Which forces and eccentricities keep the limits of all stages. */
export const regionFormulas = [
  eccentricityLeast,
  eccentricityGreatest,
  forceLeast,
  forceGreatest,
  leastForce,
  leastForceEccentricity,
  vertexCount,
  ...vertexFormulas,
  regionMargin,
  regionGoverning,
  cableZoneLeast,
  cableZoneGreatest,
];
