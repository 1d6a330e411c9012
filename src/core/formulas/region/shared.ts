import { as, choice, type ValueOf } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { checkedHalfPlanes, conditions, halfPlanes } from "./conditions.ts";
import { eccentricityBounds, forceBounds, type HalfPlane } from "./halfPlane.ts";
import { cornersByPairs, outline, region, type Bounds } from "./polygon.ts";
import type { Point } from "./halfPlane.ts";

/** The room for the tendon, as inputs. */
export const room = {
  e_min: as(q.eccentricityBound, {
    symbol: "e_min",
    text: "least eccentricity there is room for, positive below the centroid",
  }),
  e_max: as(q.eccentricityBound, {
    symbol: "e_max",
    text: "greatest eccentricity there is room for: the cover bounds it",
  }),
};
/** The forces considered, as inputs. */
export const forces = {
  P_min: as(q.regionForce, {
    symbol: "P_min",
    text: "least force considered; 1 kN where left out",
    default: 1,
    typical: [1, 20000],
  }),
  P_max: as(q.regionForce, {
    symbol: "P_max",
    text: "greatest force considered; 1 000 000 kN where left out",
    default: 1e6,
    typical: [100, 1e6],
  }),
};
export const regionParams = { conditions, ...room, ...forces };

export interface RegionValues {
  readonly conditions: ValueOf<typeof conditions>;
  readonly e_min: number;
  readonly e_max: number;
  readonly P_min: number;
  readonly P_max: number;
}

/** Bounds of one argument that follow from others. */
export const roomLimits = ({ e_min }: { readonly e_min: number }) => ({
  e_max: { min: e_min, because: "the least eccentricity" },
});
export const forceLimits = ({ P_min }: { readonly P_min: number }) => ({
  P_max: { min: P_min, because: "the least force considered" },
});
export const regionLimits = (v: { readonly e_min: number; readonly P_min: number }) => ({
  ...roomLimits(v),
  ...forceLimits(v),
});

function boundsOf({ e_min, e_max, P_min, P_max }: RegionValues): Bounds {
  const [low, high] = eccentricityBounds(e_min, e_max) as [HalfPlane, HalfPlane];
  const [most, least] = forceBounds(P_min, P_max) as [HalfPlane, HalfPlane];
  return { e: [low, high], u: [most, least] };
}

/** All half-planes of a region, bounds included. */
export const allPlanes = (v: RegionValues): readonly HalfPlane[] => [
  ...checkedHalfPlanes(v.conditions),
  ...eccentricityBounds(v.e_min, v.e_max),
  ...forceBounds(v.P_min, v.P_max),
];
export const cornersOf = (v: RegionValues): readonly Point[] => region(checkedHalfPlanes(v.conditions), boundsOf(v));
export const cornersAgain = (v: RegionValues): readonly Point[] => cornersByPairs(allPlanes(v), v.e_max - v.e_min);

/** Does the region reach to the least force considered, so that no stress bounds the force below? */
export function leastForceIsBound(v: RegionValues): readonly string[] {
  const bounds = boundsOf(v);
  const corners = outline(halfPlanes(v.conditions), bounds);
  return corners.length >= 3 && Math.max(...corners.map(({ u }) => u)) >= (1 - 1e-11) / v.P_min
    ? [boundDecides(bounds.u[0].name)]
    : [];
}

/** Said where a result is no limit of stress but the bound that was given. */
export const boundDecides = (what: string): string => `${what} decides, not a limit of stress`;

/** The half-planes as an equation, for every function that searches among them. */
export const inequality =
  "f_{t,i} \\le \\frac{r_i P}{A_i} + \\frac{r_i P\\,(e+\\delta_i)\\,y}{I_i} - \\frac{M_i\\,y}{I_i} \\le f_{c,i}";
export const unpublishedSearch = "Geometry of linear inequalities; tests compare it with the stresses of FIBRE_STRESS.";

/** Which end of what is feasible. */
export const feasibleBound = choice({
  key: "feasibleBound",
  symbol: "bound",
  text: "bound that is wanted",
  values: [
    { value: "MIN", text: "min." },
    { value: "MAX", text: "max." },
  ],
});
