import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { as, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

const losses = { eta_j: q.jackLoss, eta_a: q.anchorageLoss };
const notes = [
  "The force in the tendon behind the anchorage is p A_ram (1 − η_j)(1 − η_a). Take A_ram and η_j from the calibration of this jack with this gauge; 0 where the calibration counts a loss already.",
  "While the jack lets down, friction in it acts the other way.",
];
const none = "Pressure times area; no published number found.";

export const jackForce = formula({
  id: "JACK_FORCE",
  family: "stressing",
  summary: "Force in the tendon behind the anchorage, from the pressure on the gauge",
  notes: [...notes, cautions.stressing],
  source: mechanics,
  params: { p: q.gaugePressure, A_ram: q.ramArea, ...losses },
  result: q.prestressForce,
  equation: "p * A_ram * (1 - eta_j) * (1 - eta_a)",
  compute: ({ p, A_ram, eta_j, eta_a }) => p * A_ram * (1 - eta_j) * (1 - eta_a),
  unpublished: none,
});

/** 2000 bar: above it no gauge of the trade reads. */
const highestReading = 200;
/** 700 bar: what jacks and pumps usually bear. */
const usualRating = 70;

interface Hydraulics {
  readonly A_ram: number;
  readonly eta_j: number;
  readonly eta_a: number;
}
const transmitted = ({ A_ram, eta_j, eta_a }: Hydraulics): number => A_ram * (1 - eta_j) * (1 - eta_a);

/** Force and pressure that no equipment of the trade stands for point to a slip in the ram's area. */
export const forceLimit = (v: Hydraulics) => ({
  P: { max: highestReading * transmitted(v), because: "the force that takes 2000 bar with this ram: check the area" },
});
export const ratingCaution = (v: Hydraulics & { readonly P: number }): readonly string[] =>
  v.P > usualRating * transmitted(v)
    ? [
        `the gauge comes to ${format((10 * v.P) / transmitted(v))} bar, above the usual 700 bar: compare with what jack, hoses and pump are rated for`,
      ]
    : [];

export const gaugePressure = formula({
  id: "GAUGE_PRESSURE",
  family: "stressing",
  summary: "Pressure on the gauge for a force in the tendon behind the anchorage",
  notes: [...notes, cautions.stressing],
  source: mechanics,
  params: {
    P: as(q.prestressForce, { text: "force wanted in the tendon behind the anchorage" }),
    A_ram: q.ramArea,
    ...losses,
  },
  limits: forceLimit,
  cautions: ratingCaution,
  result: q.gaugePressure,
  equation: "P / (A_ram * (1 - eta_j) * (1 - eta_a))",
  compute: ({ P, A_ram, eta_j, eta_a }) => P / (A_ram * (1 - eta_j) * (1 - eta_a)),
  unpublished: none,
});

const share = { P_i: as(q.forceShare, { symbol: "P_i/P", text: "part of the jacking force at this stage" }) };

export const stageGaugePressure = formula({
  id: "GAUGE_PRESSURE_STAGE",
  family: "stressing",
  summary: "Pressure on the gauge at a stage of the jacking force",
  notes: ["A row of a stressing table: the same share goes into ELONGATION_STAGE.", ...notes, cautions.stressing],
  source: mechanics,
  params: {
    P_i: share.P_i,
    P: as(q.prestressForce, { symbol: "P_0", text: "jacking force behind the anchorage at the last stage" }),
    A_ram: q.ramArea,
    ...losses,
  },
  limits: forceLimit,
  cautions: ratingCaution,
  result: q.gaugePressure,
  equation: "P_i * P / (A_ram * (1 - eta_j) * (1 - eta_a))",
  compute: ({ P_i, P, A_ram, eta_j, eta_a }) => (P_i * P) / (A_ram * (1 - eta_j) * (1 - eta_a)),
  unpublished: none,
});

export const stageElongation = formula({
  id: "ELONGATION_STAGE",
  family: "stressing",
  summary: "Elongation expected between the first reading and a stage of the jacking force",
  notes: [
    "Friction takes the same part at every force, so the elongation grows with the force. The first reading is taken once the slack is out; the share of force there is ψ_0.",
    "A value below 0 belongs to a stage before the first reading.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    P_i: share.P_i,
    psi_0: as(q.forceShare, { symbol: "ψ_0", text: "part of the jacking force at the first reading", min: 0 }),
    elongation: as(q.elongation, { symbol: "Δl", text: "elongation calculated for the whole jacking force", min: 0 }),
  },
  result: { ...q.elongation, symbol: "Δl_i", min: -12000, max: 12000 },
  equation: "(P_i - psi_0) * elongation",
  compute: ({ P_i, psi_0, elongation }) => (P_i - psi_0) * elongation,
  unpublished: none,
});

export const jackStrokes = formula({
  id: "JACK_STROKES",
  family: "stressing",
  summary: "Number of strokes of the jack for an elongation",
  notes: [
    "Each regrip takes a draw-in into the jack's own grips: use the stroke that is left for the tendon.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    elongation: as(q.elongation, { text: "elongation to be drawn, with slack and length in the jack", min: 0 }),
    stroke: q.jackStroke,
  },
  result: q.strokeCount,
  equation: "ceil(elongation / stroke)",
  compute: ({ elongation, stroke }) => {
    const strokes = elongation / stroke;
    const whole = Math.round(strokes);
    // What exceeds whole strokes by the last bits of a division alone takes no further stroke.
    return Math.abs(strokes - whole) <= 1e-12 * whole ? whole : Math.ceil(strokes);
  },
  unpublished: none,
});

export const pressureFormulas = [jackForce, gaugePressure, stageGaugePressure, stageElongation, jackStrokes];
