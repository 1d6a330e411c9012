import { deflectedEccentricity } from "./deflectedEccentricity.ts";
import { tendonFormulas as ofControlPoints } from "./geometry.ts";

export const tendonFormulas = [...ofControlPoints, deflectedEccentricity];
