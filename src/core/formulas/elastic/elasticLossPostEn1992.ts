import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** The mean over equal tendons, as the standard's coefficient j. */
export const elasticLossPostEn1992 = formula({
  id: "ELASTIC_LOSS_POST_EN1992_2004",
  family: "elastic",
  summary: "Mean loss of stress of n equal post-tensioned tendons by elastic shortening; loss positive",
  notes: [
    "σ_c is the concrete stress at the tendons under all of them and the self-weight; j = (n − 1)/2n, about 1/2 for many tendons.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "5.10.5.1 (5.44)", basis: "seen", readIn: "CE:2021" },
  params: {
    n: q.tendonCount,
    E_p: q.tendonModulus,
    E_cm: as(q.elasticModulusConcrete, { symbol: "E_cm(t)", text: "secant modulus of the concrete at stressing" }),
    sigma_c: as(q.fibreStress, { text: "concrete stress at the tendons, compression positive" }),
  },
  result: q.elasticLoss,
  equation: "E_p / E_cm * (n - 1) / (2 * n) * sigma_c",
  compute: ({ n, sigma_c, E_p, E_cm }) => ((E_p / E_cm) * (n - 1) * sigma_c) / (2 * n),
  unpublished: "The result found is recalled, not read; the one read takes the limit 1/2 of many tendons.",
});
