import { cautions } from "../../cautions.ts";
import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { sectionBase } from "../section/net.ts";
import { mechanics } from "../mechanics.ts";

const filled = { NET: 0, GROSS: 1 };

/** Release of bonded tendons: compatibility between steel and concrete, solved at once. */
export const elasticLossPretension = stepwise({
  id: "ELASTIC_LOSS_PRETENSION",
  family: "elastic",
  summary: "Loss of stress of pre-tensioned tendons by elastic shortening at release; loss positive",
  notes: [
    "A and I are of the concrete alone (NET) or of the outline with the steel's place filled (GROSS): say " +
      "which. The steel's own place stiffens the gross section, so that n − 1 takes the place of n in the " +
      "denominator.",
    "P_r is the force just before release. The self-weight moment acts as soon as the member cambers off " +
      "its bed; 0 leaves it out, a declared simplification.",
    "All tendons at one eccentricity, released together.",
    cautions.release,
  ],
  source: mechanics,
  params: {
    A: q.area,
    I: q.secondMoment,
    e: q.eccentricity,
    A_p: q.tendonArea,
    E_p: q.tendonModulus,
    E_c: as(q.elasticModulusConcrete, { text: "modulus of elasticity of the concrete at release" }),
    P: as(q.prestressForce, { symbol: "P_r", text: "force of all tendons just before release" }),
    M_g: as(q.moment, { symbol: "M_g", text: "self-weight moment acting at release" }),
    base: sectionBase,
  },
  result: q.elasticLoss,
  steps: {
    n: { symbol: "n", unit: "–", equation: "E_p / E_c", text: "ratio of moduli" },
    c: {
      symbol: "c",
      unit: "–",
      equation: "A_p * (1 / A + e^2 / I)",
      text: "shortening of the concrete at the tendons by their force",
    },
    place: {
      symbol: "b",
      unit: "–",
      text: "1 where the steel's place is filled with concrete in A and I",
      lookup: { of: "base", values: filled },
    },
    loss: { symbol: "Δσ_el", unit: "MPa", equation: "n * (P / A_p * c - M_g * e / I) / (1 + (n - place) * c)" },
  },
  compute: ({ P, e, M_g, A, I, A_p, E_p, E_c, base }) => {
    const n = E_p / E_c;
    const c = A_p * (1 / A + (e * e) / I);
    const place = valueFor(filled, base);
    return { n, c, place, loss: (n * ((P / A_p) * c - (M_g * e) / I)) / (1 + (n - place) * c) };
  },
});
