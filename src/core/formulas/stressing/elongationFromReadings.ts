import { cautions } from "../../cautions.ts";
import { byChoice, stepwise } from "../../formula.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

export const elongationFromReadings = stepwise({
  id: "ELONGATION_FROM_READINGS",
  family: "stressing",
  summary: "Elongation without slack from no force to the last reading, or the slack itself, from two readings",
  notes: [
    "Between the two readings the elongation grows with the pressure: friction takes the same part at " +
      "every force. The first reading must lie above the slack, the last below where the steel yields.",
    "Both readings are of the same mark, both while the pressure rises.",
    "Slack below 0: the zero of the readings was set after tendon had already been drawn, or the line is not straight.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    p_1: as(q.gaugePressure, { symbol: "p_1", text: "pressure at the first reading, after the slack is out" }),
    l_1: as(q.readElongation, { symbol: "Δl_1", text: "elongation read at p_1" }),
    p_2: as(q.gaugePressure, { symbol: "p_2", text: "pressure at the last reading", above: 0 }),
    l_2: as(q.readElongation, { symbol: "Δl_2", text: "elongation read at p_2" }),
    part: choice({
      key: "readingsGive",
      symbol: "part",
      text: "what the readings are to give",
      values: [
        { value: "TENDON", text: "elongation of the tendon from no force to the last reading" },
        { value: "SLACK", text: "slack: what the line through both says at no force" },
      ],
    }),
  },
  limits: ({ p_1, l_1 }) => ({
    p_2: { min: p_1 * (1 + 1e-9) + 1e-9, because: "it must be above p1" },
    l_2: { min: l_1, because: "Δl1" },
  }),
  result: { ...q.elongation, min: -1e9, max: 1e9 },
  steps: {
    elongation: {
      symbol: "Δl",
      unit: "mm",
      ...byChoice("part", {
        TENDON: "(l_2 - l_1) * p_2 / (p_2 - p_1)",
        SLACK: "l_1 - (l_2 - l_1) * p_1 / (p_2 - p_1)",
      }),
    },
  },
  compute: ({ p_1, l_1, p_2, l_2, part }) => ({
    elongation: part === "TENDON" ? ((l_2 - l_1) * p_2) / (p_2 - p_1) : l_1 - ((l_2 - l_1) * p_1) / (p_2 - p_1),
  }),
  unpublished: "Hooke's law and a straight line through two readings; no published number found.",
});
