import type { Inputs } from "../../src/sheet/index.ts";

/** Profiles by x in m and eccentricity in mm, tendon by tendon; what is left out is that of the invented example. */
export interface Profile {
  readonly cpx?: readonly (readonly number[])[];
  readonly cpe?: readonly (readonly number[])[];
  readonly cps?: readonly (readonly string[])[];
}

const thrice = <T>(one: T): readonly T[] => [one, one, one];
const example: Required<Profile> = {
  cpx: thrice([0, 12, 24]),
  cpe: [
    [520, 550, 520],
    [520, 550, 520],
    [-320, 400, -320],
  ],
  cps: thrice(["TO_LEVEL", "FROM_LEVEL", "LINE"]),
};

/** The same as a template's inputs: x over the span, heights measured from the centroid, each tendon its own points. */
export function profile(given: Profile, L = 24): Inputs {
  const { cpx, cpe, cps } = { ...example, ...given };
  return {
    likeT: cpx.map(() => null),
    lift: cpx.map(() => 0),
    cpL: cpx.map((of) => of.map((x) => x / L)),
    cpFrom: cpx.map((of) => of.map(() => "CENTROID")),
    cpy: cpe,
    cpShape: cps,
  };
}
