import { choosing } from "../../choosing.ts";
import { stepwise } from "../../formula.ts";
import { as, table, type Quantity, type Values } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { widthAt } from "./around.ts";
import { equilibrium, layerStress, residual, strainAt, type CrackedSection, type Strain } from "./crackedState.ts";
import { outline } from "./outline.ts";
import { polygon } from "./polygon.ts";
import { crackedProperty, oneCallForAll } from "./property.ts";

/** Bonded steel by layers. */
export const steelLayers = table({
  key: "steelLayers",
  symbol: "layers",
  text: "bonded steel by layers: tendons and bars",
  columns: {
    A_s: as(q.barArea, { text: "area of the layer" }),
    y: as(q.heightAboveSoffit, { text: "height of the layer in the coordinates of the outline" }),
    E: q.steelModulus,
    free: q.freeStress,
  },
  minRows: 1,
  maxRows: 500,
});
const params = {
  outline,
  layers: steelLayers,
  E_c: as(q.elasticModulusConcrete, { text: "modulus of the concrete in the cracked section", max: 60 }),
  N: q.axialForce,
  M: q.moment,
};
const layerNumber = as(q.tendonCount, { symbol: "no.", text: "number of the layer, in the order of the range" });
type Arguments = Values<typeof params>;

const notes = [
  "Plane sections; concrete takes no tension; steel and compressed concrete stay elastic. Several " +
    "layers of steel, any outline; steel in compressed concrete takes the place of concrete.",
  "σ_0 is the stress of a tendon where the concrete beside it has NO STRAIN: the stress after losses " +
    "plus E_p/E_c times the concrete stress at the tendon under the actions that go with it. The stress " +
    "after losses itself is less.",
  "N is an external axial force, 0 for prestress by bonded tendons, which comes with σ_0. M refers to " +
    "the centroid of the outline. A section that stays compressed comes out uncracked.",
];
const governing =
  "N = \\int E_c \\langle\\varepsilon\\rangle\\,dA - \\sum A_i\\sigma_i, \\quad M = \\int E_c " +
  "\\langle\\varepsilon\\rangle\\,y\\,dA - \\sum A_i\\sigma_i y_i, \\quad \\sigma_i = \\sigma_{0,i} - " +
  "E_i\\varepsilon_i";

function sectionOf({ outline: points, layers: rows, E_c }: Arguments): CrackedSection {
  const { y } = polygon(points, "outline", "the outline");
  return { points, layers: rows, E_c, y_0: y };
}

interface Kind {
  readonly summary: string;
  readonly result: Quantity;
  readonly value: (section: CrackedSection, strain: Strain, row: number) => number;
}

const ends = (section: CrackedSection): readonly [number, number] => {
  const heights = section.points.map(({ y }) => y);
  return [Math.min(...heights), Math.max(...heights)];
};

/** Depth of the concrete under compression, from the more compressed fibre. */
function depth(section: CrackedSection, strain: Strain): number {
  const [bottom, top] = ends(section);
  const atBottom = strainAt(strain, section, bottom);
  const atTop = strainAt(strain, section, top);
  if (Math.min(atBottom, atTop) >= 0) return top - bottom;
  const most = Math.max(atBottom, atTop);
  return most <= 0 ? 0 : most / Math.abs(strain.bend);
}

const compressionDepth: Kind = {
  summary: "Depth of the compressed concrete of a cracked section; the whole height where nothing is cracked",
  result: q.compressionDepth,
  value: depth,
};
const concreteStress: Kind = {
  summary: "Max. concrete stress of a cracked section, compression positive",
  result: as(q.fibreStress, {
    symbol: "σ_c",
    text: "stress of the most compressed fibre, compression positive",
    min: 0,
    max: 1e5,
  }),
  value: (section, strain) => section.E_c * Math.max(0, ...ends(section).map((y) => strainAt(strain, section, y))),
};
const steelStress: Kind = {
  summary: "Stress of one layer of steel in a cracked section, tension positive",
  result: q.steelStress,
  value: (section, strain, row) => layerStress(strain, section, section.layers[row - 1]!),
};

const shared = { id: "CRACKED_SECTION", family: "section", source: mechanics } as const;
const found = ({ summary, result, value }: Kind) => {
  const of = (v: Arguments, row: number): number => {
    const section = sectionOf(v);
    return value(section, equilibrium(section, v), row);
  };
  /** Equilibrium once more with the concrete added up in strips, and the value again from the strain. */
  const missed = (v: Arguments, row: number, given: number): number => {
    const section = sectionOf(v);
    const strain = equilibrium(section, v);
    const again = value(section, strain, row);
    return residual(section, v, strain, (y) => widthAt(section.points, y)) + (given - again) / (1 + Math.abs(again));
  };
  return {
    said: { summary, result, steps: { value: { symbol: result.symbol, unit: result.unit, governing } } },
    of,
    missed,
  } as const;
};
const ofWhole = (kind: Kind) => {
  const { said, of, missed } = found(kind);
  return stepwise({
    ...shared,
    ...said,
    params,
    compute: (v) => ({ value: of(v, 0) }),
    proof: (v, { value }) => missed(v, 0, value),
  });
};
const ofLayer = (kind: Kind) => {
  const { said, of, missed } = found(kind);
  return stepwise({
    ...shared,
    ...said,
    params: { ...params, row: layerNumber },
    limits: (v) => ({ row: { max: v.layers.length, because: "the number of layers given" } }),
    compute: (v) => ({ value: of(v, v.row) }),
    proof: (v, { value }) => missed(v, v.row, value),
  });
};

/** What bends once the concrete has cracked. */
export const crackedSection = choosing({
  id: "CRACKED_SECTION",
  family: "section",
  summary: "Depth in compression, max. concrete stress or stress of a layer of steel in a cracked section",
  notes,
  by: { property: crackedProperty },
  ignored: oneCallForAll,
  as: {
    COMPRESSION_DEPTH: ofWhole(compressionDepth),
    CONCRETE_STRESS: ofWhole(concreteStress),
    STEEL_STRESS: ofLayer(steelStress),
  },
  order: ["outline", "layers", "E_c", "N", "M", "property", "row"],
  result: q.crackedProperty,
});
