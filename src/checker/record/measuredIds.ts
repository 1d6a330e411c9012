/** Columns of a stressing record, and the inputs of its stress check that take them. */
export const measuredPairs = [
  { from: "fbStress", to: "sigjM" },
  { from: "fbSlip", to: "slipM" },
] as const;

/** The inputs of a stress check that hold what was measured. */
export const measuredIds: readonly string[] = measuredPairs.map(({ to }) => to);
