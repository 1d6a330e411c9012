import { choosing } from "../../choosing.ts";
import { formula, stepwise, type Formula, type Steps } from "../../formula.ts";
import { as, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import {
  base,
  changed,
  difference,
  shown,
  wantedOfChanged,
  whyApart,
  withAdditions,
  type Addition,
  type ChangedKind,
} from "./net.ts";

const toppings = table({
  key: "toppings",
  symbol: "topping",
  text: "rectangles of later concrete: topping, haunch",
  minRows: 1,
  columns: { b: q.sectionWidth, t: q.sectionThickness, y_0: q.toppingUnderside, E_t: q.toppingModulus },
});
interface Composite {
  readonly A: number;
  readonly y_b: number;
  readonly I: number;
  readonly toppings: readonly { readonly b: number; readonly t: number; readonly y_0: number; readonly E_t: number }[];
  readonly E_c: number;
}
/** Each rectangle with its width in the ratio of the moduli. */
const added = ({ toppings: all, E_c }: Composite): readonly Addition[] =>
  all.map(({ b, t, y_0, E_t }) => {
    const width = (b * E_t) / E_c;
    return { area: width * t, y: y_0 + t / 2, own: (width * t ** 3) / 12 };
  });
const widened = {
  symbol: "A_t",
  unit: "mm²",
  text: "topping in terms of the member's concrete: its width times the ratio of the moduli",
  governing: "A_t = \\sum a_i,\\quad a_i = \\frac{E_{t,i}}{E_c}\\,b_i t_i",
} as const;
const withTopping = (steps: Steps): Steps => ({ A_t: widened, ...steps });

const compositeProperty = ({ property, pick, steps, text, result }: ChangedKind): Formula =>
  stepwise({
    id: "COMPOSITE_SECTION",
    family: "section",
    summary: `Composite section: ${text}, later concrete counted by the ratio of moduli`,
    source: mechanics,
    params: { ...base, toppings, E_c: q.elasticModulusConcrete },
    result: as(result, { text: `${text}, later concrete included` }),
    steps: withTopping(steps),
    compute: (v) => {
      const all = added(v);
      return {
        A_t: all.reduce((sum, { area }) => sum + area, 0),
        ...shown(steps, withAdditions({ A: v.A, y: v.y_b, I: v.I }, all, "toppings")),
      };
    },
    proof: (v, found) => difference(pick, found[pick]!, { A: v.A, y: v.y_b, I: v.I }, added(v)),
    ...(property !== "AREA" && {
      unpublished:
        "Parallel-axis rule with a changed width; no published composite section whose data and result were both read was found.",
    }),
  });

/** The member with the concrete cast onto it, in terms of the member's own concrete. */
export const compositeSection = choosing({
  ...wantedOfChanged,
  id: "COMPOSITE_SECTION",
  summary: "Composite section: area, centroid or second moment with later concrete by the ratio of moduli",
  notes: [
    "Each rectangle of later concrete counts with its width times E_t/E_c; b is the width that takes part (effective width).",
    "y_b stays the height above the soffit of the member; the moduli go by SECTION_MODULUS, the stress in the topping by TOPPING_STRESS.",
    "Full bond between the two concretes is assumed; loads before the topping has hardened act on the member alone.",
    whyApart,
  ],
  as: changed(compositeProperty),
  order: ["A", "y_b", "I", "toppings", "E_c", "property"],
});

/** In the topping the same strain makes another stress. */
export const toppingStress = formula({
  id: "TOPPING_STRESS",
  family: "section",
  summary: "Stress in later concrete of a composite section by a moment that acts on the whole; compression positive",
  notes: [
    "The stress of the composite section at that height times the ratio of the moduli. y is positive " +
      "below the centroid of the composite section: y_b' − y for a fibre at height y above the soffit, so " +
      "negative in a topping above it.",
    "Stresses by unequal shrinkage and creep of the two concretes come on top.",
  ],
  source: mechanics,
  params: {
    I: as(q.secondMoment, { symbol: "I'", text: "second moment of area of the composite section" }),
    E_t: q.toppingModulus,
    E_c: q.elasticModulusConcrete,
    M: q.moment,
    y: q.fibreDistance,
  },
  result: as(q.fibreStress, { symbol: "σ_t", text: "stress in the topping, compression positive" }),
  equation: "-(E_t / E_c) * M * y / I",
  compute: ({ M, I, y, E_t, E_c }) => (-(E_t / E_c) * M * y) / I,
  unpublished: "Equal strains at one height; tests compare it with FIBRE_STRESS.",
});
