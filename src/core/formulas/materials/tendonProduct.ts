import { choosing } from "../../choosing.ts";
import { stepwise, type Formula, type Step } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as, choice, type Label, type Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { products, type Product } from "./products.ts";

/** Wire, strand and bar by the names of their product standards. */
export const tendonProduct = choice({
  key: "tendonProduct",
  symbol: "product",
  text: "wire, strand or bar by its product standard",
  values: Object.entries(products).map(([value, { text }]) => ({ value, text })),
});

const source = { key: "PRODUCT-PAGES", basis: "second-hand" } as const;
const rows = [
  "Rows of prEN 10138-3, IS 14268, ASTM A416 and BS 5896 were read in makers' tables. Of prEN 10138-4 " +
    "bars the proof loads and masses are from memory; IS 1785 and IS 2090 are from memory (medium): " +
    "compare them with the product's certificate.",
  "The certificate of the delivery decides.",
];

const column = (of: (product: Product) => number): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(products).map(([name, product]) => [name, of(product)]));
const areas = column(({ area }) => area);
/** In N, for the stresses: equations work in coherent units. */
const breakingInN = column((p) => p.breaking * 1e3);
const proofInN = column(({ proofLoad }) => proofLoad * 1e3);

const isFromMemory = (name: Label): boolean => products[name]!.basis.startsWith("memory");
const fromMemory = ({ product }: { readonly product: Label }): readonly string[] =>
  isFromMemory(product)
    ? [`${products[product]!.standard}: from memory, wholly or in part; take the values from the product's certificate`]
    : [];
const proofMeans = ({ product }: { readonly product: Label }): readonly string[] => {
  const { proof: kind, standard } = products[product]!;
  return kind === "0.1 %"
    ? []
    : [
        `${standard} defines it at ${kind === "0.2 %" ? "0.2 % permanent extension" : kind}: it is not the ` +
          "0.1 % proof value that EN 1992-1-1 asks for",
      ];
};

/** One property, read from the table in the unit it is printed in. */
function property(
  result: Quantity,
  summary: string,
  values: Readonly<Record<string, number>>,
  more: {
    readonly notes?: readonly string[];
    readonly cautions?: typeof fromMemory;
    readonly unpublished?: string;
  } = {},
): Formula {
  const step: Step = {
    symbol: result.symbol,
    unit: result.unit,
    reads: result.unit,
    text: result.text,
    lookup: { of: "product", values },
  };
  return stepwise({
    id: "TENDON_PRODUCT",
    family: "materials",
    summary,
    source,
    result: as(result, { reads: result.unit }),
    params: { product: tendonProduct },
    ...(more.notes && { notes: more.notes }),
    cautions: (v) => [...fromMemory(v), ...(more.cautions?.(v) ?? [])],
    steps: { value: step },
    compute: ({ product }) => ({ value: valueFor(values, product) }),
    ...(more.unpublished !== undefined && { unpublished: more.unpublished }),
  });
}

/** A load over the nominal area. */
function stress(
  result: Quantity,
  load: Quantity,
  loads: Readonly<Record<string, number>>,
  summary: string,
  notes: readonly string[],
  more?: typeof fromMemory,
): Formula {
  return stepwise({
    id: "TENDON_PRODUCT",
    family: "materials",
    summary,
    source,
    result,
    params: { product: tendonProduct },
    notes,
    cautions: (v) => [...fromMemory(v), ...(more?.(v) ?? [])],
    steps: {
      F: { symbol: load.symbol, unit: "kN", text: load.text, lookup: { of: "product", values: loads } },
      A: { symbol: "A_p1", unit: "mm²", text: q.productArea.text, lookup: { of: "product", values: areas } },
      f: { symbol: result.symbol, unit: "MPa", equation: "F / A" },
    },
    compute: ({ product }) => {
      const F = valueFor(loads, product),
        A = valueFor(areas, product);
      return { F, A, f: F / A };
    },
    unpublished: "a load over an area, whose table values have published results each",
  });
}

const proofNote =
  "Product standards define it differently: 0.1 % permanent extension (EN, BS), 0.2 % (IS), load at 1 % " +
  "extension (ASTM). A caution says where it is not the 0.1 % value.";

const properties = {
  DIAMETER: property(
    q.strandDiameter,
    "Nominal diameter of a wire, strand or bar by its product name",
    column(({ diameter }) => diameter),
    { unpublished: "the diameter stands in the product's name" },
  ),
  AREA: property(q.productArea, "Nominal area of one wire, strand or bar by its product name", areas),
  MASS: property(
    q.massPerLength,
    "Mass per length of one wire, strand or bar by its product name",
    column(({ mass }) => mass),
  ),
  BREAKING_LOAD: property(
    q.breakingLoad,
    "Least breaking load of one wire, strand or bar by its product name",
    column((p) => p.breaking),
  ),
  PROOF_LOAD: property(
    q.proofLoad,
    "Proof load of one wire, strand or bar by its product name",
    column(({ proofLoad }) => proofLoad),
    { notes: [proofNote], cautions: proofMeans },
  ),
  TENSILE_STRENGTH: stress(
    q.tendonTensileStrength,
    q.breakingLoad,
    breakingInN,
    "Tensile strength of a wire, strand or bar by its product name: breaking load over nominal area",
    ["Standards round the breaking loads, so it may differ from the nominal strength of the name by a few MPa."],
  ),
  PROOF_STRESS: stress(
    as(q.tendonProofStress, { symbol: "f_p", text: "proof stress as the product standard defines it" }),
    q.proofLoad,
    proofInN,
    "Proof stress of a wire, strand or bar by its product name: proof load over nominal area",
    [proofNote],
    proofMeans,
  ),
  MODULUS: property(
    q.tendonModulus,
    "Modulus of elasticity of a wire, strand or bar by its product name",
    column((p) => p.modulus),
    {
      notes: [
        "195 GPa for strand and 205 GPa for wire and bar (EN 1992-1-1 3.3.6), 210 GPa for wire and 200 GPa " +
          "for bar of Indian standards (IS 1343). Elongations need the value of the certificate.",
      ],
      unpublished: "design values of EN 1992-1-1 and IS 1343, partly from memory",
    },
  ),
  RELAXATION_CLASS: property(
    q.relaxationClassNumber,
    "Relaxation class of EN 1992-1-1 for a wire, strand or bar by its product name",
    column(({ relaxationClass }) => relaxationClass),
    {
      notes: [
        "2: strand and wire with at most 2.5 % after 1000 h at 70 % of the strength. 1: other wire. 3: bars. " +
          "IS 1785 and IS 2090 do not name classes: theirs are by kind of product.",
      ],
      unpublished: "a class by kind of product",
    },
  ),
};

const wanted = choice({
  key: "productPropertyName",
  symbol: "property",
  text: "property of one wire, strand or bar that is wanted",
  values: [
    { value: "DIAMETER", text: "nominal diameter in mm" },
    { value: "AREA", text: "nominal area in mm²" },
    { value: "MASS", text: "mass per length in kg/m" },
    { value: "BREAKING_LOAD", text: "min. breaking load in kN" },
    { value: "PROOF_LOAD", text: "proof load in kN" },
    { value: "TENSILE_STRENGTH", text: "tensile strength in MPa" },
    { value: "PROOF_STRESS", text: "proof stress in MPa" },
    { value: "MODULUS", text: "modulus of elasticity in GPa" },
    { value: "RELAXATION_CLASS", text: "relaxation class of EN 1992-1-1" },
  ],
});

export const tendonProductProperty = choosing({
  id: "TENDON_PRODUCT",
  family: "materials",
  summary: "A property of a wire, strand or bar by its product name: area, mass, loads, strengths, modulus, class",
  notes: rows,
  by: { property: wanted },
  as: properties,
  order: ["product", "property"],
  result: q.productProperty,
});
