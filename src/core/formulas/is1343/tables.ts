/** IS 1343:1980 5.2.5.1: creep coefficient over the logarithm of the age at loading in days. */
export const creepByAge = [
  [Math.log10(7), 2.2],
  [Math.log10(28), 1.6],
  [Math.log10(365), 1.1],
] as const;

/** IS 1343:1980 Table 4: loss in MPa after 1000 h over initial stress by strength. */
export const relaxationByStress = [
  [0.5, 0],
  [0.6, 35],
  [0.7, 70],
  [0.8, 90],
] as const;
