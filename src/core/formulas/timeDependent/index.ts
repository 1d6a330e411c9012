import { timeDependentLossCreepEn1992 } from "./timeDependentLossCreepEn1992.ts";
import { timeDependentLossEn1992 } from "./timeDependentLossEn1992.ts";
import { timeDependentLossRelaxationEn1992 } from "./timeDependentLossRelaxationEn1992.ts";
import { timeDependentLossShrinkageEn1992 } from "./timeDependentLossShrinkageEn1992.ts";

/** Creep, shrinkage and relaxation acting together. */
export const timeDependent = [
  timeDependentLossEn1992,
  timeDependentLossCreepEn1992,
  timeDependentLossShrinkageEn1992,
  timeDependentLossRelaxationEn1992,
] as const;
