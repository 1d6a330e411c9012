import { quantities } from "./define.ts";

/** Stressing on site, tendons by segments, external tendons and bars. Tension positive. */
export const stressing = quantities({
  segmentLength: { symbol: "l", unit: "m", text: "length of the segment along the tendon; 0 for an angle at one place, as a deviator", min: 0, max: 1000, typical: [1, 25] },
  segmentAngleElevation: { symbol: "α_v", unit: "rad", text: "angle change of the segment in elevation, without sign", min: 0, max: 20, typical: [0, 0.5] },
  segmentAnglePlan: { symbol: "α_h", unit: "rad", text: "angle change of the segment in plan, without sign", min: 0, max: 20, typical: [0, 0.5] },
  tendonLevelStress: { symbol: "σ_a", unit: "MPa", text: "stress at which the draw-in ends", min: -2500, max: 2500 },
  unintendedAngle: { symbol: "Δθ", unit: "rad", text: "unintended angle at each deviator, added to the intended one; 0 where none is taken", min: 0, max: 0.2, typical: [0, 0.05] },
  deviatorAngle: { symbol: "θ", unit: "rad", text: "angle in space by which the deviator turns the tendon", min: 0, max: Math.PI, typical: [0, 0.5] },
  directionAngle: { symbol: "β", unit: "rad", text: "direction of the tendon", min: -1.5, max: 1.5, typical: [-0.6, 0.6] },
  deviatorForce: { symbol: "F", unit: "kN", text: "force of the tendon on the deviator", min: -2e6, max: 2e6 },
  gaugePressure: { symbol: "p", unit: "bar", reads: "MPa", text: "pressure on the gauge of the jack", min: 0, max: 2000, typical: [20, 700] },
  ramArea: { symbol: "A_ram", unit: "mm²", text: "area of the ram of the jack", sort: "ram area", above: 0, max: 1e6, typical: [2000, 200000] },
  jackLoss: { symbol: "η_j", unit: "–", text: "part of the force lost inside the jack, from its calibration", sort: "force lost in jack", min: 0, max: 0.3, typical: [0, 0.06] },
  anchorageLoss: { symbol: "η_a", unit: "–", text: "part of the force lost by friction in the anchorage", sort: "force lost in anchorage", min: 0, max: 0.3, typical: [0, 0.06] },
  readElongation: { symbol: "Δl", unit: "mm", text: "elongation as read", min: 0, max: 10000, typical: [5, 1000] },
  jackStroke: { symbol: "s_j", unit: "mm", text: "working stroke of the jack", above: 0, max: 2000, typical: [100, 500] },
  strokeCount: { symbol: "n", unit: "–", text: "number of strokes of the jack", min: 0, max: 1e6, whole: true },
  elongationDeviation: { symbol: "δ", unit: "%", text: "measured elongation against the calculated one, positive where more was measured", min: -1e6, max: 1e6 },
  elongationTolerance: { symbol: "δ_tol", unit: "%", text: "tolerance of the elongation, either way, by the specification of the work", above: 0, max: 50, typical: [3, 15] },
  forceShare: { symbol: "ψ_P", unit: "–", text: "part of the jacking force reached at the stage", min: 0, max: 1.2, typical: [0.05, 1.1] },
  nutTakeUp: { symbol: "Δ", unit: "mm", text: "take-up of the nut and its seat when the jack lets go", min: 0, max: 20, typical: [0, 3] },
  roundCount: { symbol: "m", unit: "–", text: "rounds in which every tendon is brought to its force in order, the first stressing included", min: 1, max: 20, whole: true },
});
