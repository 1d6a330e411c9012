import { InputError, NoResult } from "../../errors.ts";
import { format } from "../../parameters.ts";

/** How the materials answer, in days and MPa; shortening and compression positive. */
export interface Materials {
  /** Strain at age `now` by a unit stress applied at age `loaded`: elastic and creep together. Given `loaded`, a function of `now`. */
  readonly compliance: (loaded: number) => (now: number) => number;
  /** By how much creep of a load that leaves the concrete under this stress exceeds linear creep; absent where the law has no such rule. */
  readonly highStressFactor?: (stress: number, age: number) => number;
  /** Free shrinkage at an age. */
  readonly shrinkage: (age: number) => number;
  /** Further relaxation over a duration, from the stress that constant length would have kept and the relaxation before. */
  readonly relaxation: (stress: number, earlier: number, days: number) => number;
}

/** One station of a member: its section, the tendons at one level, and what acts on it when. */
export interface Member {
  readonly A: number;
  readonly I: number;
  readonly e: number;
  readonly A_p: number;
  readonly E_p: number;
  /** Tendon stress just after the first event, immediate losses taken off. */
  readonly sigma_p0: number;
  /** Relaxation that came before the first event. */
  readonly earlier: number;
  /** Moments by the age at which each begins to act; the first one is there when the tendons are anchored. */
  readonly events: readonly { readonly age: number; readonly M: number }[];
}

export interface State {
  readonly age: number;
  /** Tendon stress. */
  readonly sigma_p: number;
  /** Concrete stress at the tendons. */
  readonly sigma_c: number;
  /** Relaxation since the tendons were anchored. */
  readonly relaxed: number;
  /** Shortening of the concrete at the tendons since then. */
  readonly shortened: number;
  /** Rise of tendon stress at the moments when later loads came on. */
  readonly gained: number;
}

/** By how much a load that comes on at once creeps more than linearly: compression up to a high stress does, relief never. */
export const creepFactor = ({ highStressFactor }: Materials, amount: number, stress: number, age: number): number =>
  amount > 0 && highStressFactor ? highStressFactor(stress, age) : 1;

/** The work grows with the square of the steps. */
const mostSteps = 1200;

/** First step after an event, in days. */
const firstStep = 0.01;

/** Stress applied at an age, as it strains later: `weight` by the compliance, `kept` whatever the time. */
interface Load {
  readonly weight: number;
  readonly kept: number;
}

/** A state with what the next step goes out from. */
interface Mark {
  readonly state: State;
  /** Of a stress applied then. */
  readonly compliance: (now: number) => number;
  /** Stress applied then, half of the step before and loads; not yet of the step after. */
  readonly load: Load;
  /** All moments acting. */
  readonly M: number;
  /** The last event, by number. */
  readonly event: number;
}

/**
 * The state of tendon and concrete through time, step by step. In each step creep by all increments of stress before (superposition),
 * shrinkage and relaxation are balanced by a change of force that keeps tendon and concrete together. Increments within a step act with the
 * mean of the compliances of its ends (trapezoidal rule): half of each increment counts as applied at either end, so that one sum over the
 * ages is enough. Steps grow in proportion to the time since the last event. States once reached are kept, so that asking for many ages
 * costs no more than the last of them.
 */
export class History {
  readonly #member: Member;
  readonly #materials: Materials;
  readonly #growth: number;
  readonly #stepsPerDecade: number;
  readonly #marks: Mark[];
  /** What strains for good, of all marks but the last: stress applied at each, halves of the steps on both sides included. */
  readonly #applied: Load[] = [];
  /** Just before each event. */
  readonly #before: State[];
  /** Concrete stress at the tendons by a tendon stress of 1. */
  readonly #stiffness: number;
  readonly #firstElastic: number;

  constructor(member: Member, materials: Materials, stepsPerDecade: number) {
    this.#member = { ...member, events: joined(member.events) };
    this.#materials = materials;
    this.#stepsPerDecade = stepsPerDecade;
    this.#growth = 10 ** (1 / stepsPerDecade);
    const { A, I, e, A_p, sigma_p0, events } = this.#member;
    this.#stiffness = A_p * (1 / A + (e * e) / I);
    const { age, M } = events[0]!;
    const compliance = materials.compliance(age);
    const sigma_c = this.#concreteStress(sigma_p0, M);
    this.#firstElastic = sigma_c * compliance(age);
    const state = { age, sigma_p: sigma_p0, sigma_c, relaxed: 0, shortened: 0, gained: 0 };
    this.#marks = [{ state, compliance, load: this.#loadAtOnce(sigma_c, sigma_c, age, compliance(age)), M, event: 0 }];
    this.#before = [state];
  }

  /** The state at an age; just after whatever begins to act then. */
  at(age: number): State {
    this.#refuseTooManySteps(age);
    for (let stop = this.#nextStop(this.#place()); stop <= age; stop = this.#nextStop(this.#place()))
      this.#advance(stop);
    let i = this.#marks.length - 1;
    while (this.#marks[i]!.state.age > age) i--;
    const mark = this.#marks[i]!;
    return mark.state.age === age ? mark.state : this.#step(i, age).state;
  }

  /** Every state up to an age, that age included. */
  upTo(age: number): readonly State[] {
    const end = this.at(age);
    return [...this.#marks.map(({ state }) => state).filter((state) => state.age < age), end];
  }

  /** Just before and just after each event up to an age. */
  around(age: number): readonly { readonly before: State; readonly after: State }[] {
    this.at(age);
    return this.#before.flatMap((before) => (before.age <= age ? [{ before, after: this.at(before.age) }] : []));
  }

  #concreteStress(sigma_p: number, M: number): number {
    const { e, I } = this.#member;
    return sigma_p * this.#stiffness - (M * e) / I;
  }

  #loadAtOnce(amount: number, stress: number, age: number, elastic: number): Load {
    const factor = creepFactor(this.#materials, amount, stress, age);
    return { weight: amount * factor, kept: amount * (1 - factor) * elastic };
  }

  /** Where the integration stands: the age, and the last event by number. */
  #place(): Place {
    const { state, event } = this.#marks.at(-1)!;
    return { age: state.age, event };
  }

  /** The end of the next step: the next event where the step would come near it. */
  #nextStop({ age, event }: Place): number {
    const { events } = this.#member;
    const step = Math.max(firstStep, (age - events[event]!.age) * (this.#growth - 1));
    const next = events[event + 1]?.age ?? Infinity;
    return age + 1.5 * step >= next ? next : age + step;
  }

  /** Steps follow from the events alone: they are counted before any is computed. */
  #refuseTooManySteps(until: number): void {
    const { events } = this.#member;
    let place = this.#place();
    let marks = this.#marks.length;
    for (let stop = this.#nextStop(place); stop <= until; stop = this.#nextStop(place)) {
      if (++marks > mostSteps + 1)
        throw new InputError(
          "n",
          `n (time steps per decade) = ${this.#stepsPerDecade} makes more than ${mostSteps} steps ` +
            `with ${events.length} events; allowed: at most ${mostSteps} steps. Take fewer steps, ` +
            "or join events that lie close together",
        );
      place = { age: stop, event: events[place.event + 1]?.age === stop ? place.event + 1 : place.event };
    }
  }

  #advance(stop: number): void {
    const last = this.#marks.at(-1)!;
    const { state, amount, compliance } = this.#step(this.#marks.length - 1, stop);
    this.#applied.push({ weight: last.load.weight + amount / 2, kept: last.load.kept });
    this.#marks.push({ ...last, state, compliance, load: { weight: amount / 2, kept: 0 } });
    const next = this.#member.events[last.event + 1];
    if (next?.age === stop) this.#load(next.M);
  }

  /** A load comes on at once: tendon and concrete take it up elastically, together. */
  #load(added: number): void {
    const { e, I, E_p } = this.#member;
    const { state: before, compliance, load, M: acting, event } = this.#marks.at(-1)!;
    const elastic = compliance(before.age);
    const gain = (E_p * elastic * ((added * e) / I)) / (1 + E_p * elastic * this.#stiffness);
    const M = acting + added;
    const sigma_p = before.sigma_p + gain;
    const sigma_c = this.#concreteStress(sigma_p, M);
    this.#before.push(before);
    const jump = this.#loadAtOnce(sigma_c - before.sigma_c, sigma_c, before.age, elastic);
    const state = {
      ...before,
      sigma_p,
      sigma_c,
      gained: before.gained + gain,
      shortened: before.shortened - gain / E_p,
    };
    this.#marks[this.#marks.length - 1] = {
      state,
      compliance,
      load: { weight: load.weight + jump.weight, kept: load.kept + jump.kept },
      M,
      event: event + 1,
    };
  }

  /** Strain at an age by all stress applied up to a mark, the step that follows it left out. */
  #strainBy(mark: number, age: number): number {
    const { load, compliance } = this.#marks[mark]!;
    let strain = load.weight * compliance(age) + load.kept;
    for (let i = 0; i < mark; i++) {
      const { weight, kept } = this.#applied[i]!;
      strain += weight * this.#marks[i]!.compliance(age) + kept;
    }
    return strain;
  }

  /** One step of creep, shrinkage and relaxation from a mark to an age, with the change of concrete stress in it. */
  #step(
    mark: number,
    age: number,
  ): { readonly state: State; readonly amount: number; readonly compliance: (now: number) => number } {
    const { E_p, sigma_p0, earlier, events } = this.#member;
    const { shrinkage, relaxation } = this.#materials;
    const { state: last, compliance: start, M } = this.#marks[mark]!;
    const end = this.#materials.compliance(age);
    const free = shrinkage(age) - shrinkage(events[0]!.age) - this.#firstElastic + this.#strainBy(mark, age);
    const unit = (start(age) + end(age)) / 2;
    const restraint = 1 + E_p * this.#stiffness * unit;
    const balanced = (relaxed: number): number =>
      (sigma_p0 - relaxed - E_p * (free - this.#stiffness * last.sigma_p * unit)) / restraint;
    // Relaxation depends on the mean stress of the step, which depends on relaxation.
    const again = (relaxed: number): number => {
      const kept = (last.sigma_p + last.relaxed + balanced(relaxed) + relaxed) / 2 + earlier;
      return last.relaxed + relaxation(kept, earlier + last.relaxed, age - last.age);
    };
    // Two rounds show how each goes on from the one before; much steel of high relaxation comes close slowly by rounds alone.
    let relaxed = last.relaxed;
    for (let round = 0, change = Infinity; change > 1e-12 * sigma_p0; round++) {
      if (round === 50) throw new NoResult(`the balance at an age of ${format(age)} days was not found`);
      const once = again(relaxed);
      const twice = again(once);
      const bend = twice - 2 * once + relaxed;
      change = Math.abs(twice - once);
      relaxed = bend === 0 || change <= 1e-12 * sigma_p0 ? twice : relaxed - (once - relaxed) ** 2 / bend;
    }
    const sigma_p = balanced(relaxed);
    const sigma_c = this.#concreteStress(sigma_p, M);
    const amount = sigma_c - last.sigma_c;
    return {
      state: { ...last, age, sigma_p, sigma_c, relaxed, shortened: free + amount * unit },
      amount,
      compliance: end,
    };
  }
}

/** Moments that begin to act at the same age are one. */
function joined(events: Member["events"]): Member["events"] {
  const out: Member["events"][number][] = [];
  for (const { age, M } of events) {
    const last = out.at(-1);
    if (last?.age === age) out[out.length - 1] = { age, M: last.M + M };
    else out.push({ age, M });
  }
  return out;
}

interface Place {
  readonly age: number;
  readonly event: number;
}
