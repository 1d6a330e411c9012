import { NoResult } from "../../errors.ts";
import type { Point } from "../section/polygon.ts";
import {
  bottomOf,
  concreteForce,
  concreteStressAt,
  topOf,
  type ConcreteForce,
  type ConcreteLaw,
  type UltimateStrain,
} from "./concreteLaw.ts";

/**
 * Steel at one depth below the compressed edge, with its design law: straight to the yield stress, then straight to
 * f_t at e_u. Tension positive.
 */
export interface UltimateLayer {
  readonly A: number;
  readonly d: number;
  readonly E: number;
  readonly f_y: number;
  readonly f_t: number;
  readonly e_u: number;
  /** Strain at which the steel fails; without a limit infinite. */
  readonly e_ud: number;
  /** Strain of the steel where the concrete beside it has none. */
  readonly pre: number;
  /** Stress of a layer without bond, whatever the strain. */
  readonly fixed?: number;
}
export interface UltimateSection {
  /** The outline with the compressed edge on top. */
  readonly points: readonly Point[];
  readonly layers: readonly UltimateLayer[];
  readonly law: ConcreteLaw;
  /** Whether steel in compressed concrete takes the place of concrete. */
  readonly displaced: boolean;
}

const heightOf = ({ points }: UltimateSection): number => topOf(points) - bottomOf(points);

/** The strain with this depth of the neutral axis at which concrete or steel reaches its limit. */
export function strainFor(section: UltimateSection, x: number): UltimateStrain {
  const { eps_c, eps_cu } = section.law;
  const height = heightOf(section);
  if (x > height) return { x, edge: eps_c / (1 - ((1 - eps_c / eps_cu) * height) / x) };
  const edge = section.layers.reduce(
    (least, { A, d, e_ud, pre, fixed }) =>
      A > 0 && fixed === undefined && d > x ? Math.min(least, ((e_ud - pre) * x) / (d - x)) : least,
    eps_cu,
  );
  return { x, edge };
}

const steelStrain = ({ pre, d }: UltimateLayer, { x, edge }: UltimateStrain): number => pre + (edge * (d - x)) / x;

/** Stress of a layer, tension positive. */
export function steelStress(layer: UltimateLayer, strain: UltimateStrain): number {
  if (layer.fixed !== undefined) return layer.fixed;
  const { E, f_y, f_t, e_u } = layer;
  const eps = steelStrain(layer, strain);
  const size = Math.abs(eps);
  const yielded = f_y / E;
  if (size <= yielded) return E * eps;
  return Math.sign(eps) * (f_y + ((f_t - f_y) * (size - yielded)) / (e_u - yielded));
}

/** Tension of the steel less the concrete it displaces, and its moment about the compressed edge. */
function steelForce(section: UltimateSection, strain: UltimateStrain): ConcreteForce {
  const height = heightOf(section);
  return section.layers.reduce(
    ({ F, S }, layer) => {
      const inPlace = section.displaced && layer.fixed === undefined;
      const instead = inPlace ? concreteStressAt(section.law, strain, layer.d, height) : 0;
      const force = layer.A * (steelStress(layer, strain) + instead);
      return { F: F + force, S: S + force * layer.d };
    },
    { F: 0, S: 0 },
  );
}

export interface UltimateState extends UltimateStrain {
  readonly kappa: number;
  /** Compression of the concrete. */
  readonly F_c: number;
  /** Moment resistance. */
  readonly M: number;
}

/** All that follows from a depth of the neutral axis; `concrete` adds up the concrete. */
export function stateAt(
  section: UltimateSection,
  x: number,
  concrete: typeof concreteForce = concreteForce,
): UltimateState & { readonly N: number } {
  const strain = strainFor(section, x);
  const compressed = concrete(section.points, section.law, strain);
  const steel = steelForce(section, strain);
  return {
    ...strain,
    kappa: strain.edge / x,
    F_c: compressed.F,
    N: compressed.F - steel.F,
    M: steel.S - compressed.S,
  };
}

/** The size of the forces at play. */
export const forcesOf = (section: UltimateSection, strain: UltimateStrain): number =>
  section.layers.reduce((sum, layer) => sum + layer.A * Math.abs(steelStress(layer, strain)), 1);

/** Depth of the neutral axis at which compression and tension are equal; the compression grows with it. */
export function ultimateState(section: UltimateSection): UltimateState {
  const height = heightOf(section);
  let [low, high] = [1e-9 * height, 1e3 * height];
  if (stateAt(section, low).N >= 0)
    throw new NoResult("no layer of steel is in tension: the section resists no moment");
  if (stateAt(section, high).N < 0)
    throw new NoResult(
      "the whole section in compression does not balance the tension of the steel; less steel or prestress, or " +
        "more concrete",
    );
  for (let step = 0; step < 200 && high - low > 4e-16 * high; step++) {
    // From far apart the middle of the orders of magnitude, then the middle.
    const x = high > 4 * low ? Math.sqrt(low * high) : (low + high) / 2;
    if (stateAt(section, x).N < 0) low = x;
    else high = x;
  }
  return stateAt(section, (low + high) / 2);
}
