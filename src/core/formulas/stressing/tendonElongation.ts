import { cautions } from "../../cautions.ts";
import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { letDown } from "../drawIn/letDown.ts";
import { rubbing, rubbingNotes, withExponent } from "../friction/alongPath.ts";
import { followsFriction } from "../friction/wobble.ts";
import {
  endOf,
  idle,
  jackedFrom,
  jacking,
  jackNotes,
  letDownLimit,
  oneJack,
  pulledFrom,
} from "../jacking/arguments.ts";
import { mechanics } from "../mechanics.ts";
import { bySimpson, integrate } from "../tendon/integrate.ts";
import { stretched } from "./stretched.ts";

export const tendonElongation = stepwise({
  id: "TENDON_ELONGATION",
  family: "stressing",
  summary: "Elongation of a tendon at a jack before lock-off; after letting down what is left of it",
  notes: [
    "Strain summed along the true curve of the tendon. Strands' slack and the length in the jack are not counted.",
    "With both jacks each draws out what lies between it and the null point, when both pull at once. " +
      "Fully at one end first, that jack draws out the whole of its own and the second only the difference; " +
      "the sum is the same.",
    jackNotes.letDown,
    ...rubbingNotes,
    jackNotes.overstress,
    cautions.stressing,
  ],
  source: mechanics,
  sourceFollows: followsFriction,
  params: {
    ...rubbing,
    E_p: q.tendonModulus,
    jacks: jacking.jacks,
    sigma0: jacking.sigma0,
    anchorage: jacking.anchorage,
    sigma_lo: jacking.sigma_lo,
    sigma_r: jacking.sigma_r,
  },
  limits: letDownLimit,
  cautions: idle,
  result: q.elongation,
  steps: {
    full: {
      symbol: "Δl_1",
      unit: "mm",
      text: "elongation at the jacking stress; with both jacks up to the null point",
      ...withExponent(
        "\\Delta l_1 = \\int_0^L \\frac{\\sigma(s)}{E_p}\\,dl,\\quad \\sigma = \\sigma_{p0}\\,e^{-\\lambda}",
      ),
    },
    back: {
      symbol: "Δl_12",
      unit: "mm",
      text: "what letting down gives back",
      governing:
        "\\Delta l_{12} = \\frac{2}{E_p}\\int_0^{l_1}\\left(\\sigma - \\tfrac{\\sigma_{p0} + \\sigma_{lo}}{2}\\right)dl",
    },
    elongation: { symbol: "Δl", unit: "mm", equation: "full - back" },
  },
  compute: (v) => {
    const end = endOf(v);
    if (!oneJack(v)) {
      const both = jackedFrom(v);
      const full = stretched(both.at[end], integrate, both.own[end]) / v.E_p;
      return { full, back: 0, elongation: full };
    }
    const tendon = pulledFrom(v, end);
    const { stress, stretch, breaks } = tendon;
    const full = stretched(tendon, integrate) / v.E_p;
    const down = letDown(tendon, v.sigma_lo ?? v.sigma0);
    const back = (2 * integrate((s) => (stress(s) - down.level) * stretch(s), 0, down.length, breaks)) / v.E_p;
    return { full, back, elongation: full - back };
  },
  /** One jack: the strain left, summed by another rule. Both: the difference of the whole length and what lies beyond the null point. */
  proof: (v, { elongation }) => {
    const end = endOf(v);
    if (!oneJack(v)) {
      const both = jackedFrom(v);
      const { stress, stretch, breaks, length } = both.at[end];
      const strain = (s: number): number => stress(s) * stretch(s);
      const beyond = bySimpson(strain, both.own[end], length, breaks);
      const own = bySimpson(strain, 0, length, breaks) - beyond;
      return (elongation * v.E_p - own) / (v.sigma0 * length);
    }
    const tendon = pulledFrom(v, end);
    const { stress, stretch, breaks, length } = tendon;
    const down = letDown(tendon, v.sigma_lo ?? v.sigma0);
    const left = (s: number): number => Math.min(stress(s), 2 * down.level - stress(s)) * stretch(s);
    const again =
      bySimpson(
        left,
        0,
        length,
        [...breaks, down.length].sort((a, b) => a - b),
      ) / v.E_p;
    return (elongation - again) / ((v.sigma0 * length) / v.E_p);
  },
  unpublished:
    "Integration of the friction law along the tendon; tests compare it with the closed form for uniform curvature.",
});
