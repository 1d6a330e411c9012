import { InputError } from "../../errors.ts";
import { choosing, choosingRows } from "../../choosing.ts";
import { spilling, stepwise, type Formula, type Limits, type Spill, type Steps } from "../../formula.ts";
import { as, format, table, type Parameters, type Values } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { creepFactor, History, type Member, type State } from "./history.ts";
import type { TimeLaw } from "./law.ts";
import { lawAci209 } from "./lawAci209.ts";
import { cementOfLaw, timeLawChoice } from "./lawChoice.ts";
import { lawEn1992 } from "./lawEn1992.ts";
import { lawIs1343 } from "./lawIs1343.ts";
import { lawModelCode1990 } from "./lawModelCode.ts";

const events = table({
  key: "loadEvents",
  symbol: "events",
  text: "what acts on the section and from when: the first row is the anchoring of the tendons",
  minRows: 1,
  maxRows: 50,
  columns: {
    age: as(q.ageAtLoading, { symbol: "t_i", text: "age of concrete" }),
    M: as(q.moment, { symbol: "ΔM_i", text: "moment that begins to act then, sagging positive" }),
  },
});

const memberParams = {
  events,
  sigma_p0: as(q.tendonStress, {
    symbol: "σ_pm0",
    text: "tendon stress after immediate losses, at the first event",
    above: 0,
  }),
  A_p: q.tendonArea,
  e: q.eccentricity,
  A: as(q.area, { symbol: "A_c", text: "area of the concrete section" }),
  I: as(q.secondMoment, { symbol: "I_c", text: "second moment of area of the concrete section" }),
  E_p: q.tendonModulus,
} as const;
const optionalParams = {
  earlier: as(q.relaxationLoss, {
    symbol: "ΣΔσ_pr",
    text: "relaxation before the first event, as in a pre-tensioning bed",
    default: 0,
  }),
  n: as(q.stepsPerDecade, { default: 10 }),
} as const;
const age = as(q.concreteAge, { text: "age of concrete at which the value is wanted" });

/** Of every function of every law; beside them stand the law's own. */
type MemberParameters = Parameters & typeof memberParams & typeof optionalParams & { readonly t: typeof age };
type MemberValues = Values<MemberParameters>;

/** Histories of late, so that the cells of a table do not each compute the same one. */
const recent = new Map<string, History>();
const kept = 64;

function historyOf(law: TimeLaw, values: MemberValues): History {
  const { t, ...rest } = values;
  values.events.forEach((event, i) => {
    const before = values.events[i - 1];
    // Later loads of one day are one load; the first row's moment belongs to the stress at anchoring and stays by itself.
    const isLate = !before || (i === 1 ? event.age > before.age : event.age >= before.age);
    if (!isLate)
      throw new InputError(
        "events",
        `ti (age of concrete) in row ${i + 1} of the range = ${format(event.age)} days ` +
          (i === 1
            ? `does not lie after row 1, the anchoring at ${format(before.age)} days; allowed: later ages`
            : `lies before row ${i}, ${format(before.age)} days; ages must not decrease`),
      );
  });
  const first = values.events[0]!.age;
  if (t < first)
    throw new InputError(
      "t",
      `t (age of concrete) = ${format(t)} days lies before the first event at ${format(first)} days; ` +
        `allowed: at least ${format(first)} days`,
    );
  const key = law.name + JSON.stringify(rest);
  let history = recent.get(key);
  if (history) recent.delete(key);
  else history = new History(values, law.materials(values, first), values.n);
  recent.set(key, history);
  if (recent.size > kept) recent.delete(recent.keys().next().value!);
  return history;
}

const strainTex =
  "\\varepsilon_c(t) = \\int_{t_1}^{t} J(t,t')\\,d\\sigma_c(t') + \\sigma_c(t_1)\\left[J(t,t_1) - " +
  "J(t_1,t_1)\\right] + \\varepsilon_{cs}(t) - \\varepsilon_{cs}(t_1)";
const steps = {
  relaxed: {
    symbol: "Δσ_pr",
    unit: "MPa",
    text: "relaxation since the first event",
    governing:
      "\\Delta\\sigma_{pr}(t) = \\int_{t_1}^{t} \\dot\\sigma_{pr}\\left(\\sigma_p + \\Delta\\sigma_{pr}\\right) dt",
  },
  shortened: {
    symbol: "ε_c",
    unit: "–",
    text: "shortening of the concrete at the tendons since the first event",
    governing: strainTex,
  },
  gained: {
    symbol: "Δσ_p,el",
    unit: "MPa",
    text: "rise of tendon stress when later loads came on",
    governing:
      "\\Delta\\sigma_{p,el} = \\sum_i \\frac{E_p J(t_i,t_i)\\,\\Delta M_i\\,e/I_c}{1 + E_p J(t_i,t_i) A_p\\left(1/A_c + e^2/I_c\\right)}",
  },
  sigma_c: {
    symbol: "σ_c",
    unit: "MPa",
    text: "concrete stress at the tendons, compression positive",
    governing:
      "\\sigma_c(t) = \\sigma_p(t) A_p \\left(\\frac{1}{A_c} + \\frac{e^2}{I_c}\\right) - \\frac{e}{I_c}\\sum_{t_i \\le t}\\Delta M_i",
  },
  sigma_p: { symbol: "σ_p", unit: "MPa", text: "tendon stress", equation: "sigma_p0 - relaxed - E_p * shortened" },
} as const satisfies Steps;
const loss = {
  symbol: "Δσ_p,c+s+r",
  unit: "MPa",
  text: "loss of stress by creep, shrinkage and relaxation",
  equation: "sigma_p0 + gained - sigma_p",
} as const;

/**
 * Where the laws do not reach or change: creep beyond linear, concrete in tension. At every event and at the end; what
 * comes first is told.
 */
function cautionsOf(law: TimeLaw, values: MemberValues): readonly string[] {
  const first = values.events[0]!.age;
  const out = [...(law.cautions?.(values, first) ?? [])];
  const history = historyOf(law, values);
  const after = [...history.around(values.t).map((event) => event.after), history.at(values.t)];
  const slack = after.find(({ sigma_p }) => sigma_p <= 0);
  if (slack) out.push(`no tendon stress is left at ${format(slack.age)} days: the losses are more than the prestress`);
  const pulled = after.find(({ sigma_c }) => sigma_c < 0);
  if (pulled)
    out.push(
      `the concrete at the tendons is in tension, ${format(pulled.sigma_c)} MPa at ${format(pulled.age)} ` +
        "days: this integration knows no cracks",
    );
  for (const { age: at, sigma_c } of after) {
    const limit = law.linearTo?.(values, at, first);
    if (!limit || sigma_c <= limit.stress) continue;
    const what =
      `the concrete stress at the tendons, ${format(sigma_c)} MPa at ${format(at)} days, is above ` +
      `${limit.named}, ${format(limit.stress)} MPa`;
    out.push(`${what}: ${limit.beyond ?? "creep is no longer linear there and more is lost than this says"}`);
    break;
  }
  return out;
}

type Found = { readonly [K in keyof typeof steps]: number } & { readonly loss?: number };

/** The greatest miss, relative: of superposition over all states, of compatibility, of equilibrium, of the sum. */
function residual(law: TimeLaw, values: MemberValues, found: Found): number {
  const materials = law.materials(values, values.events[0]!.age);
  const { compliance, shrinkage } = materials;
  const history = historyOf(law, values);
  const states = history.upTo(values.t);
  const jumps = new Map(
    history.around(values.t).map(({ before, after }) => [before.age, after.sigma_c - before.sigma_c]),
  );
  const first = states[0]!;
  const [start, now] = [first.age, values.t];
  /** Strain by unit of a load that comes on at once. */
  const atOnce = (amount: number, stress: number, age: number): ((at: number) => number) => {
    const factor = creepFactor(materials, amount, stress, age);
    const of = compliance(age);
    return (at) => of(age) + factor * (of(at) - of(age));
  };
  const initial = atOnce(first.sigma_c, first.sigma_c, start);
  let strain = first.sigma_c * (initial(now) - initial(start)) + shrinkage(now) - shrinkage(start);
  let scale = Math.abs(strain) + found.sigma_p / values.E_p;
  states.forEach((state, i) => {
    const before = states[i - 1];
    if (!before) return;
    const jump = jumps.get(state.age) ?? 0;
    const gradual = state.sigma_c - jump - before.sigma_c;
    const part =
      gradual * ((compliance(before.age)(now) + compliance(state.age)(now)) / 2) +
      jump * atOnce(jump, state.sigma_c, state.age)(now);
    strain += part;
    scale += Math.abs(part);
  });
  const { A, I, e, A_p, E_p, sigma_p0, events: all } = values;
  const moment = all.reduce((sum, { age: at, M }) => (at <= now ? sum + M : sum), 0);
  const bending = (found.sigma_p * A_p * e - moment) * (e / I);
  const misses = [
    (strain - found.shortened) / scale,
    (sigma_p0 - found.relaxed - E_p * found.shortened - found.sigma_p) / (sigma_p0 + E_p * scale),
    ((found.sigma_p * A_p) / A + bending - found.sigma_c) /
      (Math.abs(bending) + (sigma_p0 * A_p) / A + Math.abs(moment * e) / I),
    found.loss === undefined ? 0 : (sigma_p0 + found.gained - found.sigma_p - found.loss) / sigma_p0,
  ];
  return Math.max(...misses.map(Math.abs));
}

const common = [
  "Time-step integration with compatibility of tendon and concrete at every step; creep by " +
    "superposition of all increments of concrete stress. A cross-check beside the total of the standard, " +
    "not the standard's own formula.",
  "One level of bonded tendons in a section that stays whole; no ordinary reinforcement, no topping. " +
    "Self-weight acts from the first event on; moments are those added at each event. Rows of the same age after the " +
    "first act together.",
  "Steps grow in proportion to the time since the last event, n of them in each power of ten; more of " +
    "them change the result by less than the laws are known.",
];
const unpublished =
  "no published integration with all inputs was found; the tests compare it with closed forms of ageing " +
  "and non-ageing creep, with pure relaxation, and with itself under refinement";

/** What the functions of one set of laws have in common. */
function ofLaw(law: TimeLaw) {
  const { notes, source, empirical } = law;
  const params: MemberParameters = { ...memberParams, ...law.needed, t: age, ...optionalParams, ...law.optional };
  return {
    family: "timeDependent",
    source,
    notes,
    empirical,
    unpublished,
    params,
    limits: (v: MemberValues): Limits<MemberParameters> => law.limits(v, v.earlier),
    cautions: (v: MemberValues) => cautionsOf(law, v),
  } as const;
}
const stateOf = (law: TimeLaw, v: MemberValues): State => historyOf(law, v).at(v.t);
const pick = ({ relaxed, shortened, gained, sigma_c, sigma_p }: State) => ({
  relaxed,
  shortened,
  gained,
  sigma_c,
  sigma_p,
});
const stress = (law: TimeLaw): Formula =>
  stepwise({
    ...ofLaw(law),
    id: "TENDON_STRESS_BY_STEPS",
    summary: `Tendon stress left at an age, by time-step integration ${law.says}`,
    result: q.tendonStress,
    steps,
    compute: (v) => pick(stateOf(law, v)),
    proof: (v, s) => residual(law, v, s),
  });
const total = (law: TimeLaw): Formula =>
  stepwise({
    ...ofLaw(law),
    id: "TIME_DEPENDENT_LOSS_BY_STEPS",
    summary: `Loss of tendon stress by creep, shrinkage and relaxation up to an age, by time-step integration ${law.says}`,
    result: q.timeDependentLoss,
    steps: { ...steps, loss },
    compute: (v) => {
      const s = stateOf(law, v);
      return { ...pick(s), loss: v.sigma_p0 + s.gained - s.sigma_p };
    },
    proof: (v, s) => residual(law, v, s),
  });
const row = (v: Member, s: State) => ({
  t: s.age,
  sigma_p: s.sigma_p,
  sigma_c: s.sigma_c,
  loss: v.sigma_p0 + s.gained - s.sigma_p,
  relaxed: s.relaxed,
});
const columns = {
  t: q.concreteAge,
  sigma_p: q.tendonStress,
  sigma_c: as(q.fibreStress, { text: "concrete stress at the tendons, compression positive" }),
  loss: as(q.timeDependentLoss, { text: "loss by creep, shrinkage and relaxation so far" }),
  relaxed: as(q.relaxationLoss, { text: "relaxation so far" }),
} as const;
const everyStep = (law: TimeLaw): Spill =>
  spilling({
    ...ofLaw(law),
    id: "TENDON_STRESS_HISTORY",
    summary: `Every step of the time-step integration up to an age, ${law.says}`,
    columns,
    governing: `${steps.sigma_p.symbol.replace("σ", "\\sigma")}(t) = \\sigma_{pm0} - \\Delta\\sigma_{pr}(t) - E_p\\,\\varepsilon_c(t)`,
    compute: (v) =>
      historyOf(law, v)
        .upTo(v.t)
        .map((s) => row(v, s)),
  });
const atEvents = (law: TimeLaw): Spill =>
  spilling({
    ...ofLaw(law),
    id: "TENDON_STRESS_AT_EVENTS",
    summary: `Final values at the events by time-step integration ${law.says}`,
    columns: {
      t: columns.t,
      sigma_before: as(q.tendonStress, { symbol: "σ_p⁻", text: "tendon stress just before" }),
      sigma_p: as(q.tendonStress, { text: "tendon stress just after" }),
      sigma_c: columns.sigma_c,
      loss: columns.loss,
    },
    governing: "\\sigma_p(t_i^+) = \\sigma_p(t_i^-) + \\Delta\\sigma_{p,el,i}",
    compute: (v) => {
      const of = historyOf(law, v);
      const { t } = v;
      const around = of.around(t);
      const end = of.at(t);
      const all = around.at(-1)!.after.age === t ? around : [...around, { before: end, after: end }];
      return all.map(({ before, after }) => {
        const { t: at, sigma_p, sigma_c, loss: lost } = row(v, after);
        return { t: at, sigma_before: before.sigma_p, sigma_p, sigma_c, loss: lost };
      });
    },
  });

const laws = { EN1992_2004: lawEn1992, IS1343_1980: lawIs1343, CEBFIP_1990: lawModelCode1990, ACI209R_1992: lawAci209 };
const byLaw = <D>(of: (law: TimeLaw) => D): Readonly<Record<string, D>> =>
  Object.fromEntries(Object.entries(laws).map(([name, law]) => [name, of(law)]));

/** How the functions ask for the law. */
const asked = {
  family: "timeDependent",
  source: mechanics,
  notes: [
    ...common,
    "Each law takes data of its own; leave blank what it does not take: a value there is refused. " +
      "Trace shows the notes and the source of the law in force.",
  ],
  by: { law: timeLawChoice },
  joint: {
    h_0: as(q.notionalSize, { text: "notional size 2A_c/u" }),
    f_pk: q.tendonTensileStrength,
    E_c: as(q.elasticModulusConcrete, { text: "modulus of elasticity of the concrete at 28 days" }),
    cement: cementOfLaw,
    RH: q.relativeHumidity,
    t_s: q.ageAtEndOfCuring,
  },
  order: [
    "A",
    "I",
    "A_p",
    "e",
    "h_0",
    "VS",
    "E_p",
    "f_pk",
    "relaxationClass",
    "E_c",
    "E_ci",
    "f_ck",
    "f_cm",
    "cement",
    "curing",
    "events",
    "sigma_p0",
    "RH",
    "t_s",
    "eps_cs",
    "t",
    "law",
    "earlier",
    "n",
    "rho_1000",
    "r",
    "t_0T",
    "f_ckt0",
    "s",
    "psi",
    "c",
    "a",
  ],
} as const;

export const tendonStressBySteps = choosing({
  ...asked,
  id: "TENDON_STRESS_BY_STEPS",
  summary: "Tendon stress left at an age, by time-step integration with the creep, shrinkage and relaxation of a law",
  as: byLaw(stress),
});
export const lossBySteps = choosing({
  ...asked,
  id: "TIME_DEPENDENT_LOSS_BY_STEPS",
  summary:
    "Loss of tendon stress by creep, shrinkage and relaxation up to an age, by time-step integration; " +
    "positive, the rise under later loads not counted",
  as: byLaw(total),
});
export const tendonStressHistory = choosingRows({
  ...asked,
  id: "TENDON_STRESS_HISTORY",
  summary:
    "Every step of the time-step integration up to an age: age, tendon stress, concrete stress at the tendons, loss and relaxation so far",
  as: byLaw(everyStep),
});
export const tendonStressAtEvents = choosingRows({
  ...asked,
  id: "TENDON_STRESS_AT_EVENTS",
  summary:
    "Tendon stress at the events by time-step integration: a row for each age of events up to the age wanted and " +
    "one for that age; age, stress just before and just after, concrete stress after, loss so far",
  as: byLaw(atEvents),
});
