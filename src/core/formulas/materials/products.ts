import type { Basis } from "../../sources.ts";

/** How a product standard defines the proof load. */
type Proof = "0.1 %" | "0.2 %" | "1 % extension";

/** By its making: how it bonds and what it rubs like go by that. */
export type ProductKind = "STRAND" | "WIRE" | "BAR";

/** One wire, strand or bar as its product standard has it. */
export interface Product {
  readonly text: string;
  readonly kind: ProductKind;
  readonly standard: string;
  /** How the row was established. */
  readonly basis: Basis;
  /** Nominal, mm. */
  readonly diameter: number;
  /** Nominal, mm². */
  readonly area: number;
  /** kg/m. */
  readonly mass: number;
  /** Least, kN. */
  readonly breaking: number;
  /** kN, as `proof` says. */
  readonly proofLoad: number;
  readonly proof: Proof;
  /** GPa. */
  readonly modulus: number;
  /** By EN 1992-1-1 3.3.2(4). */
  readonly relaxationClass: 1 | 2 | 3;
}

type Sizes = readonly (readonly [
  name: string,
  diameter: number,
  area: number,
  mass: number,
  breaking: number,
  proofLoad: number,
])[];
type Kind = Pick<Product, "kind" | "standard" | "basis" | "proof" | "modulus" | "relaxationClass"> & {
  readonly what: string;
};

function group(kind: Kind, sizes: Sizes): Readonly<Record<string, Product>> {
  const { what, ...rest } = kind;
  return Object.fromEntries(
    sizes.map(([name, diameter, area, mass, breaking, proofLoad]) => [
      name,
      { ...rest, text: `${what}, ${diameter} mm, ${kind.standard}`, diameter, area, mass, breaking, proofLoad },
    ]),
  );
}

/** Wire and bar whose standard gives a strength and a diameter: area, loads and mass follow from them, at 7850 kg/m³. */
function round(
  kind: Kind,
  proofShare: number,
  sizes: readonly (readonly [name: string, diameter: number, strength: number])[],
): Readonly<Record<string, Product>> {
  return group(
    kind,
    sizes.map(([name, d, f]) => {
      const area = (Math.PI / 4) * d ** 2;
      return [name, d, area, area * 7.85e-3, (area * f) / 1e3, (proofShare * area * f) / 1e3];
    }),
  );
}

const lowRelaxation = { relaxationClass: 2, modulus: 195 } as const;

/**
 * Read in makers' tables of the draft standards, of 2009 up to 9.3 mm and of 2006 above; the proof loads above 9.3 mm
 * are printed as stresses.
 */
const strandEn = group(
  {
    what: "seven-wire strand",
    kind: "STRAND",
    standard: "prEN 10138-3",
    basis: "second-hand",
    proof: "0.1 %",
    ...lowRelaxation,
  },
  [
    ["Y1860S7-6.9", 6.9, 29, 0.2265, 53.9, 47.4],
    ["Y1860S7-8.0", 8, 38, 0.2968, 70.7, 62.2],
    ["Y1860S7-9.3", 9.3, 52, 0.4061, 96.7, 85.1],
    ["Y1860S7-12.5", 12.5, 93, 0.7263, 173, 152],
    ["Y1860S7-12.9", 12.9, 100, 0.781, 186, 164],
    ["Y1860S7-15.3", 15.3, 140, 1.093, 260, 229],
    ["Y1860S7-15.7", 15.7, 150, 1.172, 279, 246],
  ],
);

/** Read in the same maker's table of the draft of 2009. */
const strandOfThree = group(
  {
    what: "three-wire strand",
    kind: "STRAND",
    standard: "FprEN 10138-3",
    basis: "second-hand",
    proof: "0.1 %",
    ...lowRelaxation,
  },
  [
    ["Y1860S3-6.5", 6.5, 21.2, 0.1656, 39.4, 34.7],
    ["Y1860S3-6.9", 6.9, 23.4, 0.1828, 43.5, 38.3],
    ["Y1860S3-8.6", 8.6, 37.4, 0.2921, 69.6, 61.2],
  ],
);

/** Read in a maker's table. */
const strandIs = group(
  {
    what: "seven-ply strand, low relaxation",
    kind: "STRAND",
    standard: "IS 14268:1995",
    basis: "second-hand",
    proof: "0.2 %",
    ...lowRelaxation,
  },
  [
    ["IS14268-I-9.5", 9.5, 51.6, 0.405, 89, 80.1],
    ["IS14268-I-11.1", 11.11, 69.7, 0.548, 120.1, 108.1],
    ["IS14268-I-12.7", 12.7, 92.9, 0.73, 160.1, 144.1],
    ["IS14268-I-15.2", 15.2, 139.4, 1.094, 240.2, 216.2],
    ["IS14268-II-9.5", 9.5, 54.8, 0.432, 102.3, 92.1],
    ["IS14268-II-11.1", 11.11, 74.2, 0.582, 137.9, 124.1],
    ["IS14268-II-12.7", 12.7, 98.7, 0.775, 183.7, 165.3],
    ["IS14268-II-15.2", 15.2, 140, 1.102, 260.7, 234.6],
  ],
);

/** Read in makers' tables; the load at 1 % extension as printed there, as a stress of 1675 and 1676 MPa. */
const strandAstm = group(
  {
    what: "seven-wire strand of grade 270, low relaxation",
    kind: "STRAND",
    standard: "ASTM A416",
    basis: "second-hand",
    proof: "1 % extension",
    ...lowRelaxation,
  },
  [
    ["A416-270-12.7", 12.7, 98.7, 0.775, 183.7, 165.3],
    ["A416-270-15.2", 15.24, 140, 1.102, 260.7, 234.6],
  ],
);

/** Read in a maker's table. */
const wireBs = group(
  {
    what: "cold-drawn wire, low relaxation",
    kind: "WIRE",
    standard: "BS 5896:2012",
    basis: "second-hand",
    proof: "0.1 %",
    relaxationClass: 2,
    modulus: 205,
  },
  [
    ["BS5896-1670-4", 4, 12.6, 0.0984, 21, 18.5],
    ["BS5896-1770-4", 4, 12.6, 0.0984, 22.3, 19.6],
    ["BS5896-1620-4.5", 4.5, 15.9, 0.1242, 25.8, 22.7],
    ["BS5896-1670-5", 5, 19.6, 0.1531, 32.7, 28.8],
    ["BS5896-1770-5", 5, 19.6, 0.1531, 34.7, 30.5],
    ["BS5896-1670-6", 6, 28.3, 0.221, 47.3, 41.6],
    ["BS5896-1770-6", 6, 28.3, 0.221, 50.1, 44.1],
    ["BS5896-1670-7", 7, 38.5, 0.3007, 64.3, 56.6],
  ],
);

/** Diameters, areas and breaking loads read on a maker's page; proof loads and masses, which include ribs of 3.5 %, from memory. */
const barEn = group(
  {
    what: "hot-rolled ribbed bar",
    kind: "BAR",
    standard: "prEN 10138-4",
    basis: "memory-high",
    proof: "0.1 %",
    relaxationClass: 3,
    modulus: 205,
  },
  [
    ["Y1050H-26.5", 26.5, 552, 4.48, 580, 525],
    ["Y1050H-32", 32, 804, 6.53, 845, 760],
    ["Y1050H-36", 36, 1018, 8.27, 1070, 960],
    ["Y1050H-40", 40, 1257, 10.21, 1320, 1190],
  ],
);

/** Strengths and share of the proof stress from memory. */
const wireIs = round(
  {
    what: "plain cold-drawn stress-relieved wire",
    kind: "WIRE",
    standard: "IS 1785 (Part 1):1983",
    basis: "memory-medium",
    proof: "0.2 %",
    relaxationClass: 1,
    modulus: 210,
  },
  0.85,
  [
    ["IS1785-3", 3, 1865],
    ["IS1785-4", 4, 1715],
    ["IS1785-5", 5, 1570],
    ["IS1785-7", 7, 1470],
    ["IS1785-8", 8, 1375],
  ],
);

/** Strength second-hand, share of the proof stress and sizes from memory. */
const barIs = round(
  {
    what: "bar",
    kind: "BAR",
    standard: "IS 2090:1983",
    basis: "memory-medium",
    proof: "0.2 %",
    relaxationClass: 3,
    modulus: 200,
  },
  0.8,
  [
    ["IS2090-16", 16, 980],
    ["IS2090-20", 20, 980],
    ["IS2090-25", 25, 980],
    ["IS2090-32", 32, 980],
  ],
);

/** Every product by its name; names are promises to old workbooks. */
export const products: Readonly<Record<string, Product>> = {
  ...strandEn,
  ...strandOfThree,
  ...strandIs,
  ...strandAstm,
  ...wireBs,
  ...barEn,
  ...wireIs,
  ...barIs,
};

/** Strand, wire or bar by the product's name; undefined for a name that is not in the table. */
export const kindOfProduct = (name: string): ProductKind | undefined => products[name]?.kind;
