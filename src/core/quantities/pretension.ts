import { quantities } from "./define.ts";

/** Pre-tensioning: the bed, heat curing, bond and transmission. Losses positive. */
export const pretension = quantities({
  strandDiameter: { symbol: "φ", unit: "mm", text: "nominal diameter of the strand or wire", above: 0, max: 40, typical: [3, 18] },
  bondStrength: { symbol: "f_bp", unit: "MPa", text: "bond strength of the prestressing steel", sort: "bond strength", above: 0, max: 30 },
  transmissionLength: { symbol: "l_pt", unit: "mm", text: "length over which the prestress is transmitted to the concrete", sort: "transmission length", min: 0, max: 20000, typical: [150, 2500] },
  debondedLength: { symbol: "a", unit: "m", text: "length debonded from the member's end", min: 0, max: 100, typical: [0, 8] },
  bondFraction: { symbol: "β", unit: "–", text: "part of the full prestress that bond has built up, 0 to 1", min: 0, max: 1 },
  bedLength: { symbol: "L_bed", unit: "m", text: "length of the tendons between the anchorages of the bed", above: 0, max: 1000, typical: [10, 200] },
  bedLoss: { symbol: "Δσ", unit: "MPa", text: "loss of tendon stress on the bed, positive", min: 0, max: 1000 },
  curingHours: { symbol: "Δt", unit: "h", reads: "h", text: "duration of the temperature step", min: 0, max: 2000 },
  equivalentHours: { symbol: "t_eq", unit: "h", reads: "h", text: "time that heat curing adds for the relaxation", sort: "time after tensioning", min: 0 },
  initialConcreteTemperature: { symbol: "T_0", unit: "°C", text: "initial temperature of the concrete near the tendons, when it is placed", min: -20, max: 60, typical: [0, 35] },
  greatestCuringTemperature: { symbol: "T_max", unit: "°C", text: "highest temperature of the concrete while it cures", min: 0, max: 100, typical: [20, 80] },
  expansionCoefficient: { symbol: "α_c", unit: "–", text: "linear expansion of concrete per °C", min: 0, max: 3e-5, typical: [8e-6, 13e-6] },
  deviatorDistance: { symbol: "x_dev", unit: "m", text: "distance of the deviators from the member's ends", above: 0, max: 100 },
  deviationForce: { symbol: "F_v", unit: "kN", text: "vertical force at a deviator", min: 0, max: 1e5 },
});
