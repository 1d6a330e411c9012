/** r_sup and r_inf of EN 1992-1-1:2004 5.10.9(1), by kind of tendon. */
export const upperFactors = { PRE_TENSIONED: 1.05, UNBONDED: 1.05, BONDED: 1.1, MEASURED: 1 };
export const lowerFactors = { PRE_TENSIONED: 0.95, UNBONDED: 0.95, BONDED: 0.9, MEASURED: 1 };

export const factorNote = "r is nationally determined; the value by kind of tendon is the recommended one.";
