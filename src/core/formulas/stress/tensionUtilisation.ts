import { NoResult } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** One measure for tension limits below zero and for decompression: what pulls over what holds. */
export const tensionUtilisation = stepwise({
  id: "TENSION_UTILISATION",
  family: "stress",
  summary:
    "Utilisation of a fibre in tension: the stress that pulls over the stress that holds plus the tension allowed",
  notes: [
    "1 exactly where the stress of the fibre reaches the limit, above 1 where it passes it; 0 where " +
      "nothing pulls. It works for decompression too, where stress over limit would divide by zero.",
    "Prestress counts with r_inf where it compresses the fibre and with r_sup where it pulls.",
    "No result where nothing holds and no tension is allowed.",
  ],
  source: mechanics,
  params: {
    f_t: as(q.fibreStress, { symbol: "f_t", text: "tension limit, zero or negative", max: 0 }),
    sigma_p: as(q.fibreStress, { symbol: "σ_c,p", text: "stress of the fibre by prestress, compression positive" }),
    sigma_M: as(q.fibreStress, { symbol: "σ_c,M", text: "stress of the fibre by loads, compression positive" }),
    r_sup: q.upperFactor,
    r_inf: q.lowerFactor,
  },
  result: q.utilisation,
  steps: {
    p: {
      symbol: "r·σ_c,p",
      unit: "MPa",
      equation: "sigma_p >= 0 ? r_inf * sigma_p : r_sup * sigma_p",
      text: "prestress, the unfavourable value",
    },
    pull: { symbol: "σ_pull", unit: "MPa", equation: "-(min(p, 0) + min(sigma_M, 0))", text: "what pulls" },
    hold: {
      symbol: "σ_hold",
      unit: "MPa",
      equation: "max(p, 0) + max(sigma_M, 0) - f_t",
      text: "what holds, with the tension allowed",
    },
    u: { symbol: "u_t", unit: "–", equation: "pull == 0 ? 0 : pull / hold" },
  },
  compute: ({ sigma_p, sigma_M, r_sup, r_inf, f_t }) => {
    const p = sigma_p >= 0 ? r_inf * sigma_p : r_sup * sigma_p;
    const pull = -(Math.min(p, 0) + Math.min(sigma_M, 0));
    const hold = Math.max(p, 0) + Math.max(sigma_M, 0) - f_t;
    if (pull > 0 && hold <= 0)
      throw new NoResult("neither σ_p nor σ_M holds against the pull, and f_t allows no tension");
    return { p, pull, hold, u: pull === 0 ? 0 : pull / hold };
  },
  unpublished: "Our own measure; tests prove that it passes 1 exactly where the stress passes the limit.",
});
