import { InputError } from "../../errors.ts";
import { choice, format, table, as, type Values } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { polygon, type Point } from "../section/polygon.ts";
import { bottomOf, topOf } from "./concreteLaw.ts";
import type { UltimateLayer } from "./ultimateState.ts";

const layerKind = choice({
  key: "layerKind",
  symbol: "kind",
  text: "how the steel is built in",
  values: [
    { value: "BONDED", text: "tendons in bond with the concrete" },
    { value: "UNBONDED", text: "tendons without bond" },
    { value: "BAR", text: "reinforcing bars" },
  ],
});

/** Steel by layers, each with its own law and prestress. */
export const strengthLayers = table({
  key: "strengthLayers",
  symbol: "layers",
  text: "steel by layers: tendons and bars",
  columns: {
    kind: layerKind,
    A_s: as(q.barArea, { text: "area of the layer" }),
    y: as(q.heightAboveSoffit, { text: "height of the layer in the coordinates of the outline" }),
    E: q.steelModulus,
    f_yk: q.layerYield,
    f_tk: q.layerTensile,
    eps_uk: q.uniformStrain,
    sigma_p: q.layerPrestress,
  },
  minRows: 1,
  maxRows: 500,
});

/** Which stress is meant by the effective prestress: there is no usual one. */
export const prestressMeaning = choice({
  key: "prestressMeaning",
  symbol: "prestress",
  text: "which stress σ_p is",
  values: [
    { value: "ZERO_STRAIN", text: "the stress where the concrete beside the tendon has no strain" },
    {
      value: "AFTER_TRANSFER",
      text: "the stress with the prestress on the concrete and the moment M_0 acting, after losses",
    },
  ],
});

export const steelBranch = choice({
  key: "steelBranch",
  symbol: "branch",
  text: "stress of the steel beyond its design yield stress",
  values: [
    { value: "INCLINED", text: "rising to f_tk/γ_S at ε_uk, strain limited to ε_ud" },
    { value: "HORIZONTAL", text: "constant, no limit of strain" },
  ],
});

export const bendingSense = choice({
  key: "bendingSense",
  symbol: "sense",
  text: "sense of the moment",
  default: "SAGGING",
  values: [
    { value: "SAGGING", text: "sagging: the top edge is compressed" },
    { value: "HOGGING", text: "hogging: the bottom edge is compressed" },
  ],
});

export const displacedConcrete = choice({
  key: "displacedConcrete",
  symbol: "displaced",
  text: "concrete whose place is taken by steel in compressed concrete",
  default: "DEDUCTED",
  values: [
    { value: "DEDUCTED", text: "deducted; a layer counts as a band of 1 % of the height" },
    { value: "IGNORED", text: "not deducted" },
  ],
});

/** What the layers need besides their table. */
export interface LayerArguments {
  readonly outline: readonly Point[];
  readonly layers: Values<{ readonly layers: typeof strengthLayers }>["layers"];
  readonly prestress: string;
  readonly branch: string;
  readonly sense: string;
  readonly E_c: number | undefined;
  readonly M_0: number | undefined;
  readonly increase: number | undefined;
  readonly gamma_S: number;
  readonly gamma_P: number;
  readonly k_ud: number;
}

/** The outline with the compressed edge on top. */
export const turned = ({ outline, sense }: Pick<LayerArguments, "outline" | "sense">): readonly Point[] =>
  sense === "SAGGING" ? outline : outline.map(({ x, y }) => ({ x, y: -y }));

/**
 * Concrete stress at a height under the prestress and M_0, by which the tendon stress is brought back to zero strain.
 * Compression positive.
 */
function stressBesides(v: LayerArguments): (y: number) => number {
  if (v.prestress === "ZERO_STRAIN") return () => 0;
  const { A, y: y_b, I } = polygon(v.outline, "outline", "the outline");
  const forces = v.layers.map(({ A_s, y, sigma_p }) => ({ P: v.gamma_P * A_s * sigma_p, e: y_b - y }));
  const P = forces.reduce((sum, f) => sum + f.P, 0);
  const bending = forces.reduce((sum, f) => sum + f.P * f.e, 0) - (v.M_0 ?? 0);
  return (y) => P / A + (bending * (y_b - y)) / I;
}

function refuseMissing({ prestress, E_c, M_0, increase, layers }: LayerArguments): void {
  if (prestress === "AFTER_TRANSFER" && E_c === undefined)
    throw new InputError("E_c", "E_c is missing; a stress after transfer is brought back to zero strain with it");
  if (prestress === "AFTER_TRANSFER" && M_0 === undefined)
    throw new InputError("M_0", "M_0 is missing; the moment that acts with σ_p is needed, 0 where none does");
  if (increase === undefined && layers.some(({ kind }) => kind === "UNBONDED"))
    throw new InputError(
      "increase",
      "Δσ_p is missing; tendons without bond need their stress increase, 0 where none is counted",
    );
}

function refuseRow(row: LayerArguments["layers"][number], i: number, [bottom, top]: readonly [number, number]): void {
  const at = `layer ${i + 1}`;
  if (row.f_tk < row.f_yk)
    throw new InputError(
      "layers",
      `${at}: f_tk = ${format(row.f_tk)} MPa is less than f_yk = ${format(row.f_yk)} MPa; the strength ` +
        "must be no less than the yield stress",
    );
  if (row.kind === "BAR" && row.sigma_p !== 0)
    throw new InputError(
      "layers",
      `${at} is a bar with σ_p = ${format(row.sigma_p)} MPa; bars have 0, stressed bars are BONDED or UNBONDED`,
    );
  if (row.kind !== "UNBONDED" && (row.y < bottom || row.y > top))
    throw new InputError(
      "layers",
      `${at} lies at y = ${format(row.y)} mm, outside the section; allowed: ${format(bottom)} to ${format(top)} mm, else UNBONDED`,
    );
}

/** The layers by depth below the compressed edge, with their design law. */
export function ultimateLayers(v: LayerArguments): readonly UltimateLayer[] {
  refuseMissing(v);
  const ends = [bottomOf(v.outline), topOf(v.outline)] as const;
  const sigma_c = stressBesides(v);
  return v.layers.map((row, i): UltimateLayer => {
    refuseRow(row, i, ends);
    const f_y = row.f_yk / v.gamma_S;
    const inclined = v.branch === "INCLINED";
    const e_ud = inclined ? v.k_ud * row.eps_uk : Infinity;
    const pre = row.kind === "BAR" ? 0 : (v.gamma_P * row.sigma_p) / row.E + sigma_c(row.y) / (v.E_c ?? Infinity);
    if (inclined && e_ud <= f_y / row.E)
      throw new InputError(
        "layers",
        `layer ${i + 1}: its strain limit ${format(e_ud)} lies below the yield strain ${format(f_y / row.E)}`,
      );
    if (row.kind !== "UNBONDED" && pre >= e_ud)
      throw new InputError(
        "layers",
        `layer ${i + 1}: the strain of its prestress, ${format(pre)}, reaches the strain limit ${format(e_ud)}`,
      );
    return {
      A: row.A_s,
      d: v.sense === "SAGGING" ? ends[1] - row.y : row.y - ends[0],
      E: row.E,
      f_y,
      f_t: inclined ? row.f_tk / v.gamma_S : f_y,
      e_u: row.eps_uk,
      e_ud,
      pre,
      ...(row.kind === "UNBONDED" && { fixed: Math.min(v.gamma_P * row.sigma_p + (v.increase ?? 0), f_y) }),
    };
  });
}

/** Effective depth: that of the resultant of the tension. */
export function effectiveDepth(layers: readonly UltimateLayer[], stresses: readonly number[]): number {
  const pulls = layers.map(({ A, d }, i) => ({ F: A * Math.max(0, stresses[i]!), d }));
  return pulls.reduce((sum, { F, d }) => sum + F * d, 0) / pulls.reduce((sum, { F }) => sum + F, 0);
}
