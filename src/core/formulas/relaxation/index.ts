import { relaxationLossEn1992 } from "./relaxationLossEn1992.ts";

/** Relaxation of prestressing steel. */
export const relaxation = [relaxationLossEn1992] as const;
