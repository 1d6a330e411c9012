import {
  as,
  formulas,
  inForce,
  NoResult,
  outside,
  q,
  readFactor,
  type Formula,
  type Label,
  type Quantity,
} from "../../core/index.ts";

/** How the arguments that a particular case fixes are written, from how its own inputs are. */
type Written = (of: Readonly<Record<string, string>>) => Readonly<Record<string, string>>;

/**
 * A function of the library in a particular case, as people write it by hand: arguments tied to each other (the moment at
 * midspan: x = L/2), fixed (no eccentricity at the ends) or in another quantity's place (a section modulus for I and y).
 */
export interface Particular {
  readonly id: string;
  /** The case as a formula of its own inputs; what it gives is computed by the function. */
  readonly formula: Formula;
  readonly choices: Readonly<Record<string, Label>>;
  readonly written: Written;
  /** What stands around the function's call; the call itself where absent. */
  readonly around?: (call: string, of: Readonly<Record<string, string>>) => string;
  /** What was fixed and where it holds, as a sentence. */
  readonly says: string;
  /** Where it is the function in a part of its range alone: what part, and what is left out. */
  readonly onlyWhere?: string;
}

type Numbers = Readonly<Record<string, number>>;

interface Spec {
  readonly id: string;
  readonly choices?: Readonly<Record<string, Label>>;
  /** Names of the function's own arguments that stay, and quantities that take others' place. */
  readonly takes: readonly string[];
  readonly more?: Readonly<Record<string, Quantity>>;
  readonly result?: Quantity;
  readonly equation: string;
  /** The function's other arguments from the inputs, in the units the equations work in. */
  readonly fixed: (of: Numbers) => Numbers;
  readonly written: Written;
  /** The value from the function's, where it is not that itself. */
  readonly value?: (result: number, of: Numbers) => number;
  readonly around?: Particular["around"];
  readonly says: string;
  readonly onlyWhere?: string;
}

function functionOf(id: string): Formula {
  const found = formulas.find((f) => f.id === id);
  if (!found) throw new Error(`there is no function ${id}`);
  return found;
}

/** Refuses what the function refuses. */
function refuseAsFunction(whole: Formula, all: Readonly<Record<string, Label>>): void {
  const limits = whole.limits?.(all) ?? {};
  for (const [name, parameter] of Object.entries(whole.params)) {
    const own = parameter.kind === "number" ? inForce(parameter, all) : undefined;
    const given = all[name];
    if (!own || typeof given !== "number") continue;
    const { min = -Infinity, max = Infinity } = limits[name] ?? {};
    if (outside(own, given / readFactor(own)) !== undefined || given < min || given > max)
      throw new NoResult(`${whole.id} does not take ${name} = ${given}`);
  }
}

function particular(spec: Spec): Particular {
  const { id, choices = {}, takes, more = {}, equation, fixed, value = (result) => result, written, says } = spec;
  const whole = functionOf(id);
  const own = Object.entries(whole.params).flatMap(([name, parameter]) =>
    name in choices || takes.includes(name) ? [[name, inForce(parameter, choices)] as const] : [],
  );
  const result = spec.result ?? whole.result;
  const compute = (given: Numbers): number => {
    const all = { ...choices, ...given, ...fixed(given) };
    refuseAsFunction(whole, all);
    return value(whole.compute(all), given);
  };
  const formula: Formula = {
    id,
    family: whole.family,
    summary: whole.summary,
    source: whole.source,
    ...(whole.sourceFollows && { sourceFollows: whole.sourceFollows }),
    params: { ...Object.fromEntries(own), ...more },
    result,
    steps: { result: { symbol: result.symbol, unit: result.unit, text: result.text, equation } },
    stepwise: (given) => ({ result: compute(given as Numbers) }),
    compute: (given) => compute(given as Numbers),
  };
  const { around, onlyWhere } = spec;
  return {
    id,
    formula,
    choices,
    written,
    says,
    ...(around && { around }),
    ...(onlyWhere !== undefined && { onlyWhere }),
  };
}

const sized = {
  h: q.sectionHeight,
  y_b: as(q.fibreDistance, { symbol: "y_b", text: "centroid above the soffit", min: 0 }),
};

/** Any fibre of a section with this modulus has the same stress; one has to be named. */
const fibre = 500;
const modulus = (of: "bottom" | "top"): Spec => {
  const sign = of === "bottom" ? 1 : -1;
  const [prestress, load] = of === "bottom" ? ["+", "-"] : ["-", "+"];
  return {
    id: "FIBRE_STRESS",
    takes: ["A", "e", "P", "M"],
    more: { Z: q.sectionModulus },
    equation: `P / A ${prestress} P * e / Z ${load} M / Z`,
    fixed: ({ Z }) => ({ I: Z! * fibre, y: sign * fibre }),
    written: ({ Z }) => ({ I: `${Z!}*${fibre}`, y: String(sign * fibre) }),
    says:
      `The formula has the section modulus Z of the ${of} fibre where the function asks for I and y. Any fibre with this ` +
      `modulus gives the same: y = ${sign * fibre} mm is chosen here, and I = Z·${fibre} mm goes with it`,
  };
};

const noTendonLength =
  "The formula leaves the length of the tendon out. The function asks for it: 1000 m is put in; set the real one. Where " +
  "the draw-in reaches the dead end the function gives another value";
const longTendon = 1000;

const frictionLoss = (wobble: "1/m" | "rad/m"): Spec => ({
  id: "FRICTION_STRESS",
  choices: { wobble },
  takes: ["alpha", "mu", "k", "sigma0", "x"],
  result: as(q.lockOffLoss, { symbol: "Δσ_μ", text: "loss of tendon stress by friction, loss positive" }),
  equation:
    wobble === "1/m" ? "sigma0 * (1 - exp(-(mu * alpha + k * x)))" : "sigma0 * (1 - exp(-mu * (alpha + k * x)))",
  fixed: () => ({}),
  written: () => ({}),
  value: (left, { sigma0 }) => sigma0! - left,
  around: (call, { sigma0 }) => `(${sigma0!}-${call})`,
  says: "The formula gives the loss: the stress at the jack less what the function gives",
});

const specs: readonly Spec[] = [
  {
    id: "MOMENT_UNIFORM",
    choices: { supports: "ENDS" },
    takes: ["L", "w"],
    equation: "w * L^2 / 8",
    fixed: ({ L }) => ({ x: L! / 2 }),
    written: ({ L }) => ({ x: `${L!}/2` }),
    says: "The formula is the function at midspan: x = L/2",
  },
  {
    id: "DRAW_IN_UNIFORM",
    choices: { result: "LENGTH" },
    takes: ["E_p", "p", "slip"],
    result: as(q.controlX, { symbol: "l_a", text: "length of tendon affected by the draw-in (set) of the anchorage" }),
    equation: "sqrt(slip * E_p / p)",
    fixed: () => ({ L: longTendon * 1000 }),
    written: () => ({ L: String(longTendon) }),
    says: noTendonLength,
  },
  {
    id: "DRAW_IN_UNIFORM",
    choices: { result: "LOSS" },
    takes: ["E_p", "p", "slip"],
    result: as(q.lockOffLoss, { text: "loss of tendon stress at the anchorage by the draw-in at lock-off" }),
    equation: "2 * sqrt(p * slip * E_p)",
    fixed: () => ({ L: longTendon * 1000 }),
    written: () => ({ L: String(longTendon) }),
    says: noTendonLength,
  },
  {
    id: "BURSTING_FORCE_EN1992_2004",
    takes: ["a", "b", "F"],
    result: as(q.pullForce, { symbol: "T", text: "tension across the strut: bursting force" }),
    equation: "F / 4 * (b - a) / b",
    fixed: ({ b }) => ({ H: 2 * b! }),
    written: ({ b }) => ({ H: `${b!}*2` }),
    says:
      "The formula is the case of (6.58), in which the strut spreads to b. The height H stands nowhere: 2·b is put in; set " +
      "the real one",
    onlyWhere: "Right only where b is up to H/2; (6.59), which the rule has for a wider b, is left out",
  },
  modulus("bottom"),
  modulus("top"),
  {
    id: "FIBRE_STRESS",
    takes: ["A", "I", "e", "P", "M"],
    more: sized,
    equation: "P / A - P * e * (h - y_b) / I + M * (h - y_b) / I",
    fixed: ({ h, y_b }) => ({ y: y_b! - h! }),
    written: ({ h, y_b }) => ({ y: `${y_b!}-${h!}` }),
    says: "The formula is the function for the top fibre: y = yb − h",
  },
  {
    id: "PRESTRESS_CAMBER",
    choices: { profile: "PARABOLA" },
    takes: ["L", "I", "E_c", "P", "e_m"],
    equation: "5 / 48 * P * e_m * L^2 / (E_c * I)",
    fixed: () => ({ e_e: 0 }),
    written: () => ({ e_e: "0" }),
    says: "The formula is the function for a parabola without eccentricity at the ends: e_e = 0",
  },
  {
    id: "JACK_FORCE",
    takes: ["A_ram", "p"],
    equation: "p * A_ram",
    fixed: () => ({ eta_j: 0, eta_a: 0 }),
    written: () => ({ eta_j: "0", eta_a: "0" }),
    says: "The formula counts no loss in the jack and none in the anchorage: both are 0 in the function",
  },
  {
    id: "ELASTIC_LOSS_AT_LEVEL",
    takes: ["E_p", "E_c"],
    more: Object.fromEntries(
      ["A", "I", "e", "P", "M"].map((name) => [name, functionOf("CONCRETE_STRESS_AT_TENDON").params[name] as Quantity]),
    ),
    equation: "E_p / E_c * (P / A + P * e^2 / I - M * e / I)",
    fixed: (given) => ({ sigma_c: functionOf("CONCRETE_STRESS_AT_TENDON").compute(given) }),
    written: ({ A, I, e, P, M }) => ({
      sigma_c: `KERN.CONCRETE_STRESS_AT_TENDON(${[A, I, e, P, M].join(",")})`,
    }),
    says: "The concrete stress at the tendon is what CONCRETE_STRESS_AT_TENDON gives",
  },
  {
    id: "ELONGATION_UNIFORM",
    choices: { wobble: "1/m" },
    takes: ["L", "E_p"],
    more: { P: q.prestressForce, A_p: q.tendonArea },
    equation: "P * L / (A_p * E_p)",
    fixed: ({ P, A_p }) => ({ alpha: 0, mu: 0, k: 0, sigma0: P! / A_p! }),
    written: ({ P, A_p }) => ({ alpha: "0", mu: "0", k: "0", sigma0: `${P!}*1000/${A_p!}` }),
    says: "The formula counts no friction: α, μ and k are 0 in the function, and the stress at the jack is P/Ap",
  },
  frictionLoss("1/m"),
  frictionLoss("rad/m"),
];

let made: readonly Particular[] | undefined;

/** Particular cases of functions, made when they are first asked for. */
export const particulars = (): readonly Particular[] => (made ??= specs.map(particular));
