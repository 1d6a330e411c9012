import { relaxationLossEn1992 } from "./relaxationLossEn1992.ts";
import { relaxationLossStagedEn1992 } from "./relaxationLossStagedEn1992.ts";

/** Relaxation of prestressing steel. */
export const relaxation = [relaxationLossEn1992, relaxationLossStagedEn1992] as const;
