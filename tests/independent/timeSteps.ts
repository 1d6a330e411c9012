import { bisect } from "./en1992.ts";

/**
 * The prestress through time, computed a second time by another scheme: increments of concrete stress act at the
 * middle of their step, relaxation is taken
 * in small explicit parts, steps are many and even in the logarithm. It imports nothing of the product. Units: N, mm,
 * MPa, days; compression positive.
 */
interface Ageing {
  /** Creep coefficient at `now` of a load of age `loaded`, and the moduli that go with it. */
  readonly phi: (now: number, loaded: number) => number;
  readonly creepModulus: number;
  readonly modulus: (age: number) => number;
  readonly shrinkage: (age: number) => number;
  /** Relaxation at constant length over the initial stress, after hours. */
  readonly relaxation: (stress: number, hours: number) => number;
}
interface Station {
  readonly A: number;
  readonly I: number;
  readonly e: number;
  readonly Ap: number;
  readonly Ep: number;
  readonly sigma: number;
  readonly relaxedBefore: number;
  readonly loads: readonly { readonly age: number; readonly M: number }[];
}

/** Hours after which `stress` would have lost `lost`. */
function hoursFor(lost: number, stress: number, relaxation: Ageing["relaxation"]): number {
  return lost <= 0 ? 0 : 10 ** bisect((lg) => relaxation(stress, 10 ** lg) * stress - lost, -12, 12);
}

/** Loss by creep, shrinkage and relaxation up to `end`; what later loads give the tendon at once is not counted. */
export function lossByTimeSteps(s: Station, a: Ageing, end: number, stepsPerDecade = 12): number {
  const k = s.Ap * (1 / s.A + s.e ** 2 / s.I);
  const start = s.loads[0]!.age;
  const stops: number[] = [];
  s.loads.forEach(({ age }, i) => {
    const until = s.loads[i + 1]?.age ?? end;
    for (let d = 1e-3; age + d < until; d *= 10 ** (1 / stepsPerDecade)) stops.push(age + d);
    stops.push(until);
  });
  const sigma_c0 = s.sigma * k - (s.loads[0]!.M * s.e) / s.I;
  const increments: { amount: number; at: number }[] = [];
  const strainOf = (now: number, extra: readonly { amount: number; at: number }[] = []): number =>
    (sigma_c0 * a.phi(now, start)) / a.creepModulus +
    a.shrinkage(now) -
    a.shrinkage(start) +
    [...increments, ...extra].reduce(
      (sum, { amount, at }) => sum + amount * (1 / a.modulus(at) + a.phi(now, at) / a.creepModulus),
      0,
    );
  let tendon = s.sigma,
    relaxed = s.relaxedBefore,
    gained = 0,
    before = start;
  for (const now of stops) {
    // Relaxation in parts, at the stress of the step's beginning and what it loses itself.
    const stress = tendon + relaxed;
    const parts = 4;
    for (let p = 0; p < parts; p++) {
      const hours = hoursFor(relaxed, stress, a.relaxation) + ((now - before) * 24) / parts;
      relaxed = Math.max(relaxed, a.relaxation(stress, hours) * stress);
    }
    const at = (before + now) / 2;
    // One unknown: the increment of concrete stress. Linear, so two trials give it.
    const miss = (amount: number): number =>
      s.sigma - (relaxed - s.relaxedBefore) - s.Ep * strainOf(now, [{ amount, at }]) - (tendon + amount / k);
    const [m0, m1] = [miss(0), miss(1)];
    const amount = m0 / (m0 - m1);
    increments.push({ amount, at });
    tendon += amount / k;
    before = now;
    for (const { age, M } of s.loads.slice(1)) {
      if (age !== now) continue;
      const n = s.Ep / a.modulus(now);
      const gain = (n * M * s.e) / s.I / (1 + n * k);
      increments.push({ amount: gain * k - (M * s.e) / s.I, at: now });
      tendon += gain;
      gained += gain;
    }
  }
  return s.sigma + gained - tendon;
}
