import { stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { method } from "../is1343/choices.ts";
import { concreteWeight } from "../models/choices.ts";

const byMethod = { PRE: 2, POST: 1.6 };
const byWeight = { NORMAL: 1, SAND_LIGHT: 0.8 };

/** Creep loss of the component method. */
export const creepLossComponent = stepwise({
  id: "CREEP_LOSS_COMPONENT",
  family: "creep",
  summary: "Final loss of tendon stress by creep of the concrete, by the component method, bonded tendons; positive",
  notes: [
    "f_cir: stress beside the tendon right after transfer; f_cds: what the superimposed permanent loads " +
      "take off it. Both compression positive.",
    "Unbonded tendons: give the mean compression along the member as f_cir, and 0 as f_cds.",
    "E_c is the modulus at 28 days.",
  ],
  source: { key: "ZIA:1979", clause: "creep of concrete (CR)", basis: "memory-high" },
  params: {
    E_s: as(q.tendonModulus, { symbol: "E_s" }),
    E_c: q.elasticModulusConcrete,
    f_cir: as(q.concreteStressAtTendon, {
      symbol: "f_cir",
      text: "concrete stress beside the tendon right after transfer, compression positive",
    }),
    f_cds: as(q.concreteStressAtTendon, {
      symbol: "f_cds",
      text: "compression that permanent loads applied later take off beside the tendon, positive",
    }),
    method,
    weight: concreteWeight,
  },
  cautions: ({ f_cir, f_cds }) =>
    f_cds > f_cir
      ? ["the loads applied later take off more than there is: creep gives a gain, which the method was not made for"]
      : [],
  result: as(q.timeDependentLoss, { symbol: "CR", text: "loss by creep, positive" }),
  steps: {
    K: {
      symbol: "K_cr",
      unit: "–",
      text: "factor of the way of prestressing",
      lookup: { of: "method", values: byMethod },
    },
    light: {
      symbol: "c",
      unit: "–",
      text: "factor of the concrete's weight",
      lookup: { of: "weight", values: byWeight },
    },
    loss: { symbol: "CR", unit: "MPa", equation: "K * light * E_s / E_c * (f_cir - f_cds)" },
  },
  compute: (v) => {
    const K = valueFor(byMethod, v.method),
      light = valueFor(byWeight, v.weight);
    return { K, light, loss: ((K * light * v.E_s) / v.E_c) * (v.f_cir - v.f_cds) };
  },
  unpublished: "one product; no published result was found",
});
