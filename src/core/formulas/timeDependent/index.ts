import { timeDependentLoss } from "./timeDependentLoss.ts";

/** Creep, shrinkage and relaxation acting together. */
export const timeDependent = [timeDependentLoss] as const;
