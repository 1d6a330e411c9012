import { cautions } from "../../cautions.ts";
import { formula, stepwise } from "../../formula.ts";
import { as, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

const none = "Hooke's law and a straight line through two readings; no published number found.";
const readings = {
  p_1: as(q.gaugePressure, { symbol: "p_1", text: "pressure at the first reading, after the slack is out" }),
  l_1: as(q.readElongation, { symbol: "Δl_1", text: "elongation read at p_1" }),
  p_2: as(q.gaugePressure, { symbol: "p_2", text: "pressure at the last reading", above: 0 }),
  l_2: as(q.readElongation, { symbol: "Δl_2", text: "elongation read at p_2" }),
};
const line = [
  "Between the two readings the elongation grows with the pressure: friction takes the same part at every force. The first reading must lie above the slack, the last below where the steel yields.",
  "Both readings are of the same mark, both while the pressure rises.",
];
const order = ({ p_1, l_1 }: { readonly p_1: number; readonly l_1: number }) => ({
  p_2: { min: p_1 * (1 + 1e-9) + 1e-9, because: "it must be above p1" },
  l_2: { min: l_1, because: "Δl1" },
});

export const elongationWithoutSlack = formula({
  id: "ELONGATION_MEASURED_WITHOUT_SLACK",
  family: "stressing",
  summary: "Elongation from no force to the last reading without slack, extrapolated from two readings",
  notes: [...line, cautions.stressing],
  source: mechanics,
  params: readings,
  limits: order,
  result: { ...q.elongation, max: 1e9 },
  equation: "(l_2 - l_1) * p_2 / (p_2 - p_1)",
  compute: ({ p_1, l_1, p_2, l_2 }) => ((l_2 - l_1) * p_2) / (p_2 - p_1),
  unpublished: none,
});

export const slackTakeUp = formula({
  id: "SLACK_TAKE_UP",
  family: "stressing",
  summary: "Slack in the readings: what the line through both says at no force",
  notes: [
    ...line,
    "Below 0: the zero of the readings was set after tendon had already been drawn, or the line is not straight.",
    cautions.stressing,
  ],
  source: mechanics,
  params: readings,
  limits: order,
  result: { ...q.elongation, text: "slack taken up", min: -1e9, max: 1e9 },
  equation: "l_1 - (l_2 - l_1) * p_1 / (p_2 - p_1)",
  compute: ({ p_1, l_1, p_2, l_2 }) => l_1 - ((l_2 - l_1) * p_1) / (p_2 - p_1),
  unpublished: none,
});

export const elongationAtJack = formula({
  id: "ELONGATION_AT_JACK",
  family: "stressing",
  summary: "Elongation to be read at the jack before lock-off: tendon, length in the jack and pull-in at the dead end",
  notes: [
    "Measured where the jack grips the tendon. Slack comes on top and is taken out by two readings.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    elongation: as(q.elongation, { text: "elongation of the tendon between the anchorages", min: 0 }),
    sigma0: q.jackingStress,
    L_j: as(q.tendonLength, {
      symbol: "L_j",
      text: "length of tendon from the anchorage to the grip of the jack",
      min: 0,
      max: 10,
      typical: [0, 2],
      smallest: 0.05,
    }),
    E_p: q.tendonModulus,
    slip_d: as(q.drawIn, { symbol: "Δ_d", text: "pull-in of the dead-end anchorage while stressing" }),
  },
  result: { ...q.elongation, max: 1e9 },
  equation: "elongation + sigma0 * L_j / E_p + slip_d",
  compute: ({ elongation, sigma0, L_j, E_p, slip_d }) => elongation + (sigma0 * L_j) / E_p + slip_d,
  unpublished: none,
});

export const elongationAfterSeating = formula({
  id: "ELONGATION_AFTER_SEATING",
  family: "stressing",
  summary: "Elongation of the tendon at the anchorage after lock-off: less the draw-in",
  notes: [
    "From the elongation of the tendon between the anchorages just before lock-off. Where it is measured on a mark beyond the jack, the length in the jack loses its elongation as well.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { elongation: as(q.elongation, { text: "elongation before lock-off", min: 0 }), slip: q.drawIn },
  result: q.elongation,
  equation: "elongation - slip",
  compute: ({ elongation, slip }) => elongation - slip,
  unpublished: none,
});

const calculated = as(q.elongation, { symbol: "Δl_c", text: "calculated elongation", above: 0 });
const measured = as(q.elongation, { symbol: "Δl_m", text: "measured elongation, without slack" });
const comparable = "Both over the same length, from the same force and before the same lock-off.";
const tolerances =
  "Tolerances differ between specifications; take that of the work. Recalled, not read, and so without a default: EN 13670 about 15 % for one tendon and 5 % for the mean of a section; Indian practice 5 %; American specifications 5 to 7 %.";

export const elongationDeviation = formula({
  id: "ELONGATION_DEVIATION",
  family: "stressing",
  summary: "Measured against calculated elongation of one tendon, in per cent; positive where more was measured",
  notes: [
    comparable,
    "More than expected: less friction, a broken wire or strand, slack left in. Less: more friction or a blockage. Stop and find the cause beyond the tolerance.",
    cautions.stressing,
  ],
  source: mechanics,
  params: { measured, calculated },
  result: q.elongationDeviation,
  equation: "100 * (measured / calculated - 1)",
  compute: ({ measured: m, calculated: c }) => 100 * (m / c - 1),
});

export const elongationDeviationMean = stepwise({
  id: "ELONGATION_DEVIATION_MEAN",
  family: "stressing",
  summary: "Measured against calculated elongation of all tendons of a section together, in per cent",
  notes: [comparable, "The sums of all tendons are compared, so long tendons count for more.", cautions.stressing],
  source: mechanics,
  params: {
    tendons: table({
      key: "elongationRecord",
      symbol: "tendons",
      text: "measured and calculated elongation of each tendon",
      columns: { measured, calculated },
      minRows: 1,
    }),
  },
  result: q.elongationDeviation,
  steps: {
    delta: {
      symbol: "δ_m",
      unit: "%",
      governing: "\\delta_m = 100\\left(\\frac{\\sum \\Delta l_m}{\\sum \\Delta l_c} - 1\\right)",
    },
  },
  compute: ({ tendons }) => ({
    delta:
      100 * (tendons.reduce((sum, t) => sum + t.measured, 0) / tendons.reduce((sum, t) => sum + t.calculated, 0) - 1),
  }),
  /** The mean of each tendon's deviation, weighted by its calculated elongation. */
  proof: ({ tendons }, { delta }) => {
    const weights = tendons.reduce((sum, t) => sum + t.calculated, 0);
    const terms = tendons.map((t) => ((100 * (t.measured - t.calculated)) / t.calculated) * (t.calculated / weights));
    return (delta - terms.reduce((sum, t) => sum + t, 0)) / (100 + terms.reduce((sum, t) => sum + Math.abs(t), 0));
  },
  unpublished: "The same comparison as for one tendon, for sums.",
});

export const elongationUtilisation = formula({
  id: "ELONGATION_DEVIATION_UTILISATION",
  family: "stressing",
  summary: "How much of the tolerance a deviation of elongation uses; above 1 stressing must stop",
  notes: [tolerances, cautions.stressing],
  source: mechanics,
  params: { delta: q.elongationDeviation, tolerance: q.elongationTolerance },
  cautions: ({ delta, tolerance }) =>
    Math.abs(delta) > tolerance
      ? ["elongation and pressure disagree beyond tolerance: stop stressing and find the cause"]
      : [],
  result: q.utilisation,
  equation: "abs(delta) / tolerance",
  compute: ({ delta, tolerance }) => Math.abs(delta) / tolerance,
  unpublished: "A ratio; the tolerance is the user's.",
});

export const measuredFormulas = [
  elongationWithoutSlack,
  slackTakeUp,
  elongationAtJack,
  elongationAfterSeating,
  elongationDeviation,
  elongationDeviationMean,
  elongationUtilisation,
];
