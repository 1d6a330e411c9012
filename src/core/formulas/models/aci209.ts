/** Notes and words that the functions of ACI 209R-92 share. */
export const aciFit = "a fit to tests, with ages in days, sizes in mm and humidity and shares in per cent";
export const aciReadIn =
  "Equations as ACI 209.2R-08 prints them in SI units beside its numeric example; those for steam curing are from memory.";
export const aciMix =
  "The mix factors are 1 or nearly 1 for the report's standard concrete, which stands where an argument " +
  "is left out: slump 70 mm, fine aggregate 50 %, air up to 6 %, cement 410 kg/m³.";
export const aciHumidity = "Relative humidity below 40 % is refused: the report gives no factor for it.";
/** part of the final creep after a duration in days. */
export function creepDevelopment(days: number): number {
  const under = days ** 0.6;
  return under / (10 + under);
}
/** Earliest age of loading that the report's factor covers, by curing. */
export const earliestLoading = { MOIST: 7, STEAM: 1 };
