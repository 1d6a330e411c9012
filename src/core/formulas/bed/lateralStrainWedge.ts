import { cautions } from "../../cautions.ts";
import { choosing } from "../../choosing.ts";
import { stepwise } from "../../formula.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

const steel = {
  E_p: q.tendonModulus,
  sigma_r: as(q.tendonStress, { symbol: "σ_pr", text: "stress just before release", min: 0 }),
};
const left = {
  sigma: as(q.tendonStress, {
    symbol: "σ_p",
    text: "stress left at the place; 0 at the very end of the member",
    min: 0,
    default: 0,
  }),
  nu_p: as(q.transverseStrain, { symbol: "ν_p", text: "transverse strain of the steel", default: 0.3 }),
};
const phi = as(q.strandDiameter, { text: "diameter of the strand or wire" });
const below = ({ sigma_r }: { readonly sigma_r: number }) => ({
  sigma: { max: sigma_r, because: "the stress before release" },
});
const strain = {
  symbol: "ε_r",
  unit: "–",
  text: "radial strain that the fall of stress sets free",
  equation: "nu_p * (sigma_r - sigma) / E_p",
} as const;
const shared = {
  id: "LATERAL_STRAIN_WEDGE",
  family: "bed",
  source: mechanics,
  unpublished: "elasticity of a cylinder in a large body; no published number was found, limits are tested",
} as const;

const swelling = stepwise({
  ...shared,
  summary: "Growth of the diameter of a free strand or wire as its stress falls",
  params: { phi, ...steel, ...left },
  limits: below,
  result: q.swelling,
  steps: { eps: strain, grown: { symbol: "Δφ", unit: "mm", equation: "eps * phi" } },
  compute: ({ phi: diameter, E_p, sigma_r, sigma, nu_p }) => {
    const eps = (nu_p * (sigma_r - sigma)) / E_p;
    return { eps, grown: eps * diameter };
  },
});

const pressure = stepwise({
  ...shared,
  summary: "Radial pressure of the swelling strand or wire on uncracked concrete around it",
  notes: [
    "Cylinder in a large elastic body: ε_r = p (1 − ν_p)/E_p + p (1 + ν_c)/E_c. An upper bound: the concrete beside the " +
      "strand cracks radially well before, and creeps.",
  ],
  params: {
    ...steel,
    E_c: as(q.elasticModulusConcrete, { text: "modulus of the concrete at release" }),
    ...left,
    nu_c: as(q.transverseStrain, { symbol: "ν_c", text: "transverse strain of the concrete", default: 0.2 }),
  },
  limits: below,
  result: q.radialPressure,
  steps: {
    eps: strain,
    p: { symbol: "p", unit: "MPa", equation: "eps / ((1 - nu_p) / E_p + (1 + nu_c) / E_c)" },
  },
  compute: ({ E_p, sigma_r, E_c, sigma, nu_p, nu_c }) => {
    const eps = (nu_p * (sigma_r - sigma)) / E_p;
    return { eps, p: eps / ((1 - nu_p) / E_p + (1 + nu_c) / E_c) };
  },
});

/** Why a released strand grips at its end. */
export const lateralStrainWedge = choosing({
  ...shared,
  summary:
    "Swelling of a strand or wire where its stress falls at the end of a member, or the radial pressure it causes",
  notes: [
    "Stretched steel is thinner. Towards the end of the member its stress falls to nothing, it regains its thickness, and " +
      "wedges itself in the concrete: friction then holds what bond alone would not. It explains the transmission length; " +
      "it decides no verdict.",
    cautions.release,
  ],
  by: {
    result: choice({
      key: "wedgeResultName",
      symbol: "result",
      text: "what is wanted",
      values: [
        { value: "SWELLING", text: "growth of the free diameter, mm" },
        { value: "PRESSURE", text: "radial pressure on the concrete, elastic, MPa" },
      ],
    }),
  },
  as: { SWELLING: swelling, PRESSURE: pressure },
  order: ["phi", "E_p", "sigma_r", "E_c", "result", "sigma", "nu_p", "nu_c"],
  ignored: "one call serves both results",
  result: q.wedgeResult,
});
