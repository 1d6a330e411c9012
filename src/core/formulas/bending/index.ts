import { crackingMoment, minBendingReinforcementEn1992, minMomentResistanceEn1992 } from "./cracking.ts";
import { momentResistanceIs1343, momentResistanceUnbondedIs1343 } from "./is1343.ts";
import { resistanceFormulas } from "./resistance.ts";

export const bendingFormulas = [
  ...resistanceFormulas,
  momentResistanceIs1343,
  momentResistanceUnbondedIs1343,
  crackingMoment,
  minBendingReinforcementEn1992,
  minMomentResistanceEn1992,
];
