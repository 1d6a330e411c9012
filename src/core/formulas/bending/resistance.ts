import { stepwise, type Formula, type Steps } from "../../formula.ts";
import { as, choice, orBlank, type Quantity, type Values } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Source } from "../../sources.ts";
import { mechanics } from "../mechanics.ts";
import { outline } from "../section/outline.ts";
import { polygon } from "../section/polygon.ts";
import { blockNarrows, concreteLawEn1992 } from "./concreteEn1992.ts";
import type { ConcreteLaw } from "./concreteLaw.ts";
import {
  bendingSense,
  displacedConcrete,
  effectiveDepth,
  prestressMeaning,
  steelBranch,
  strengthLayers,
  turned,
  ultimateLayers,
  type LayerArguments,
} from "./layers.ts";
import { concreteForceByStrips } from "./strips.ts";
import {
  forcesOf,
  stateAt,
  steelStress,
  strainFor,
  ultimateState,
  type UltimateSection,
  type UltimateState,
} from "./ultimateState.ts";

const block = choice({
  key: "concreteLaw",
  symbol: "block",
  text: "stress of the concrete in the ultimate state",
  values: [
    { value: "PARABOLA_RECTANGLE", text: "parabola and rectangle, 3.1.7(1)" },
    { value: "RECTANGLE", text: "rectangular block, 3.1.7(3)" },
  ],
});

/** What both sets of functions ask of the steel and of the section. */
const place = { outline, layers: strengthLayers };
const stress = { prestress: prestressMeaning };
const besides = {
  E_c: orBlank(
    as(q.elasticModulusConcrete, { text: "modulus of the concrete for a stress after transfer", min: 1 }),
    "not needed",
  ),
  M_0: orBlank(
    as(q.moment, { symbol: "M_0", text: "moment that acts with a stress after transfer, sagging positive" }),
    "not needed",
  ),
  increase: orBlank(
    as(q.stressChange, {
      symbol: "Δσ_p",
      text: "stress increase of tendons without bond; EN 1992-1-1:2004 5.10.8(2), as recalled, allows 100 MPa",
    }),
    "there are no tendons without bond",
  ),
  sense: bendingSense,
  displaced: displacedConcrete,
};
const factors = {
  gamma_S: as(q.steelPartialFactor, {
    text: "partial factor for steel; nationally determined, 2.4.2.4(1) recommends 1.15",
    default: 1.15,
  }),
  gamma_P: as(q.prestressPartialFactor, {
    text: "partial factor for the prestress; nationally determined, 2.4.2.2(1) recommends 1.0 where it is favourable",
    default: 1,
  }),
  k_ud: as(q.strainShare, {
    text: "ε_ud over ε_uk; nationally determined, 3.2.7(2) and 3.3.6(7) recommend 0.9",
    default: 0.9,
  }),
};

const asked = { ...place, f_ck: q.concreteStrength, ...stress, block, branch: steelBranch };
const options = {
  ...besides,
  alpha_cc: as(q.longTermFactor, {
    text: "coefficient for long-term effects; nationally determined, 3.1.6(1) recommends 1.0",
    default: 1,
  }),
  gamma_C: as(q.concretePartialFactor, {
    text: "partial factor for concrete; nationally determined, 2.4.2.4(1) recommends 1.5",
    default: 1.5,
  }),
  ...factors,
};
const paramsEn = { ...asked, ...options };
const paramsOfLayer = {
  ...asked,
  row: as(q.tendonCount, { symbol: "no.", text: "number of the layer, in the order of the range" }),
  ...options,
};
const paramsStated = {
  ...place,
  sigma_b: q.blockStress,
  lambda: q.blockShare,
  eps_cu: q.ultimateStrain,
  ...stress,
  branch: steelBranch,
  ...besides,
};
type ArgumentsEn = Values<typeof paramsEn>;
type ArgumentsStated = Values<typeof paramsStated>;

interface Found {
  readonly section: UltimateSection;
  readonly state: UltimateState;
}

function sectionOf(v: LayerArguments & { readonly displaced: string }, law: ConcreteLaw): UltimateSection {
  polygon(v.outline, "outline", "the outline");
  return { points: turned(v), layers: ultimateLayers(v), law, displaced: v.displaced === "DEDUCTED" };
}

/** The block takes a tenth less where the zone it compresses narrows; with it the zone only grows. */
function foundEn(v: ArgumentsEn): Found {
  const f_cd = (v.alpha_cc * v.f_ck) / v.gamma_C;
  const section = sectionOf(v, concreteLawEn1992(v.block, v.f_ck, f_cd, false));
  const state = ultimateState(section);
  if (!blockNarrows(section.points, section.law, state.x)) return { section, state };
  const reduced = { ...section, law: concreteLawEn1992(v.block, v.f_ck, f_cd, true) };
  return { section: reduced, state: ultimateState(reduced) };
}

/** A stated block: strengths are entered as they are to be used. */
function foundStated(v: ArgumentsStated): Found {
  const law: ConcreteLaw = { kind: "BLOCK", lambda: v.lambda, eps_c: v.eps_cu, eps_cu: v.eps_cu, f: v.sigma_b };
  const section = sectionOf({ ...v, gamma_S: 1, gamma_P: 1, k_ud: 1 }, law);
  return { section, state: ultimateState(section) };
}

type Value = (section: UltimateSection, state: UltimateState, row: number) => number;

interface Kind {
  readonly id: string;
  readonly stated?: true;
  readonly summary: string;
  readonly pick: string;
  readonly result: Quantity;
  readonly governing: string;
  readonly value: Value;
  readonly row?: true;
}

const axis = as(q.compressionDepth, { text: "depth of the neutral axis below the compressed edge", max: 1e8 });
const stressesOf = (section: UltimateSection, state: UltimateState): readonly number[] =>
  section.layers.map((layer) => steelStress(layer, state));

const kinds: readonly Kind[] = [
  {
    id: "MOMENT_RESISTANCE",
    stated: true,
    summary: "Moment resistance of any section with layers of steel, by strain compatibility",
    pick: "M",
    result: as(q.moment, { symbol: "M_R", text: "moment resistance, a positive number in either sense" }),
    governing: "M_R = \\sum A_i\\sigma_i d_i - \\int \\sigma_c\\,\\zeta\\,dA",
    value: (_, { M }) => M,
  },
  {
    id: "NEUTRAL_AXIS_DEPTH",
    stated: true,
    summary: "Depth of the neutral axis in the ultimate state, by strain compatibility",
    pick: "x",
    result: axis,
    governing: "\\int \\sigma_c(\\varepsilon)\\,dA = \\sum A_i\\,\\sigma_i(\\varepsilon_{0,i} + \\kappa(d_i - x))",
    value: (_, { x }) => x,
  },
  {
    id: "NEUTRAL_AXIS_RATIO",
    summary: "Depth of the neutral axis over the effective depth in the ultimate state, the measure of ductility",
    pick: "ratio",
    result: q.axisRatio,
    governing:
      "\\frac{x}{d}, \\quad d = \\frac{\\sum A_i\\langle\\sigma_i\\rangle d_i}{\\sum A_i\\langle\\sigma_i\\rangle}",
    value: (section, state) => state.x / effectiveDepth(section.layers, stressesOf(section, state)),
  },
  {
    id: "STEEL_STRESS_ULTIMATE",
    summary: "Stress of one layer of steel in the ultimate state, tension positive",
    pick: "sigma",
    result: as(q.steelStress, { symbol: "σ_i" }),
    governing: "\\sigma_i(\\varepsilon_{0,i} + \\kappa(d_i - x))",
    value: (section, state, no) => steelStress(section.layers[no - 1]!, state),
    row: true,
  },
  {
    id: "CURVATURE_ULTIMATE",
    summary: "Curvature in the ultimate state",
    pick: "kappa",
    result: q.curvature,
    governing: "\\kappa = \\varepsilon_{edge} / x",
    value: (_, { kappa }) => kappa,
  },
];

const axisGoverning = kinds.find(({ pick }) => pick === "x")!.governing;
function stepsOf({ pick, result, governing }: Kind): Steps {
  const before: Steps = {
    x: { symbol: "x", unit: "mm", text: "depth of the neutral axis", governing: axisGoverning },
    edge: {
      symbol: "ε_edge",
      unit: "–",
      text: "strain of the compressed edge",
      governing:
        "\\varepsilon_{edge} = \\min_i\\left(\\varepsilon_{cu},\\ \\frac{(\\varepsilon_{ud} - " +
        "\\varepsilon_{0,i})\\,x}{d_i - x}\\right)",
    },
    F_c: {
      symbol: "F_c",
      unit: "kN",
      text: "compression of the concrete",
      governing: "F_c = \\int \\sigma_c(\\varepsilon)\\,dA",
    },
  };
  const last = { symbol: result.symbol, unit: result.unit, governing };
  return { ...Object.fromEntries(Object.entries(before).filter(([name]) => name !== pick)), [pick]: last };
}

/**
 * What is left over with the concrete summed in another way, and the difference of the value that follows from x so.
 */
function proofOf(kind: Kind, section: UltimateSection, steps: Readonly<Record<string, number>>, no: number): number {
  const x = steps["x"]!;
  const again = stateAt(section, x, concreteForceByStrips);
  const left = again.N / forcesOf(section, strainFor(section, x));
  const value = kind.value(section, again, no);
  return Math.abs(left) + Math.abs(steps[kind.pick]! - value) / (1 + Math.abs(value));
}

const notes = [
  "Plane sections; no tension in the concrete; no axial force besides the prestress. Any outline, layers in any " +
    "order. A void is joined to the outside by a slit.",
  "ZERO_STRAIN: σ_p is the stress of a tendon where the concrete beside it has no strain. AFTER_TRANSFER: σ_p is " +
    "the stress on the job, under prestress and M_0; the strain of the concrete beside it is added from the " +
    "outline and E_c. The one taken for the other changes the depth of the neutral axis by several per cent; there " +
    "is no default.",
  "Tendons without bond take σ_p and the stated increase, no more than their design yield stress. Bars have σ_p = 0.",
  "The section fails where the edge reaches its strain or, with the inclined branch, a layer reaches ε_ud. M " +
    "refers to no point: compression and tension are equal.",
];
const noteEn =
  "Strengths are characteristic; design values follow with γ_C, γ_S and γ_P. The block is a tenth weaker where " +
  "the compressed zone narrows towards its edge (3.1.7(3)); chamfers count, so leave small ones out of the " +
  "outline.";
const noteStated =
  "For other standards than EN 1992: stress, depth and strain of the block are entered, and the strengths of " +
  "steel and concrete as they are to be used; a factor on the result is left to you.";

const caution = "no layer of steel reaches its design yield stress: the section fails without warning";
function cautionsOf({ section, state }: Found): readonly string[] {
  const yields = section.layers.some((layer) => {
    const stress = steelStress(layer, state);
    return stress >= layer.f_y * (1 - 1e-9);
  });
  return yields ? [] : [caution];
}

const sourceEn: Source = { key: "EN1992-1-1:2004", clause: "6.1, 3.1.7, 3.2.7, 3.3.6", basis: "memory-high" };
const sourceFollows = {
  argument: "block",
  as: {
    PARABOLA_RECTANGLE: { ...sourceEn, clause: "6.1, 3.1.7(1) (3.17), (3.18), Table 3.1, 3.2.7, 3.3.6" },
    RECTANGLE: { key: "EN1992-1-1:2004", clause: "6.1, 3.1.7(3), 3.2.7, 3.3.6", basis: "seen", readIn: "CE:2021" },
  },
} as const;

const unpublished =
  "No published example with all data was found; tests compare it with fibres and with the closed form of a rectangle.";

/** The steps by name, with that of the result last. */
function solved(kind: Kind, { section, state }: Found, no: number): Readonly<Record<string, number>> {
  const all = { x: state.x, edge: state.edge, F_c: state.F_c };
  return { ...all, [kind.pick]: kind.value(section, state, no) };
}

/** What all these declarations have in common. */
const common = (kind: Kind) =>
  ({ family: "bending", summary: kind.summary, result: kind.result, steps: stepsOf(kind), unpublished }) as const;
const aboutEn = { source: sourceEn, sourceFollows, notes: [...notes, noteEn] };

const ofEn = (kind: Kind) =>
  stepwise({
    id: `${kind.id}_EN1992_2004`,
    ...common(kind),
    ...aboutEn,
    params: paramsEn,
    cautions: (v) => cautionsOf(foundEn(v)),
    compute: (v) => solved(kind, foundEn(v), 0),
    proof: (v, steps) => proofOf(kind, foundEn(v).section, steps, 0),
  });

const ofLayer = (kind: Kind) =>
  stepwise({
    id: `${kind.id}_EN1992_2004`,
    ...common(kind),
    ...aboutEn,
    params: paramsOfLayer,
    limits: ({ layers }) => ({ row: { max: layers.length, because: "the number of layers given" } }),
    cautions: (v) => cautionsOf(foundEn(v)),
    compute: (v) => solved(kind, foundEn(v), v.row),
    proof: (v, steps) => proofOf(kind, foundEn(v).section, steps, v.row),
  });

const ofStated = (kind: Kind) =>
  stepwise({
    id: `${kind.id}_STATED_BLOCK`,
    ...common(kind),
    source: mechanics,
    notes: [...notes, noteStated],
    params: paramsStated,
    cautions: (v) => cautionsOf(foundStated(v)),
    compute: (v) => solved(kind, foundStated(v), 0),
    proof: (v, steps) => proofOf(kind, foundStated(v).section, steps, 0),
  });

/** Bending in the ultimate state by strain compatibility. */
export const resistanceFormulas: readonly Formula[] = [
  ...kinds.map((kind) => (kind.row ? ofLayer(kind) : ofEn(kind))),
  ...kinds.filter(({ stated }) => stated).map(ofStated),
];
