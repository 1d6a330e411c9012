import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** Bonded steel shortens as the concrete at its level. */
export const elasticLossAtLevel = formula({
  id: "ELASTIC_LOSS_AT_LEVEL",
  family: "elastic",
  summary: "Loss of stress of a bonded tendon from the concrete stress that arises at its level; loss positive",
  notes: [
    "For several rows, each with the stress at its own level.",
    "The concrete stress goes with the force just before release on the transformed section, or with the " +
      "force after the loss on the gross section; never mixed.",
    cautions.release,
  ],
  source: mechanics,
  params: {
    E_p: q.tendonModulus,
    E_c: as(q.elasticModulusConcrete, { text: "modulus of elasticity of the concrete at release" }),
    sigma_c: as(q.fibreStress, { text: "concrete stress at the level of the tendon, compression positive" }),
  },
  result: q.elasticLoss,
  equation: "E_p / E_c * sigma_c",
  compute: ({ sigma_c, E_p, E_c }) => (E_p / E_c) * sigma_c,
});
