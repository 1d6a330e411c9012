import { choosing } from "../../choosing.ts";
import { choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { timeDependentLossCreepEn1992 } from "./timeDependentLossCreepEn1992.ts";
import { timeDependentLossEn1992 } from "./timeDependentLossEn1992.ts";
import { timeDependentLossRelaxationEn1992 } from "./timeDependentLossRelaxationEn1992.ts";
import { timeDependentLossShrinkageEn1992 } from "./timeDependentLossShrinkageEn1992.ts";

/** The combined loss, or what one cause contributes to it. */
export const timeDependentLoss = choosing({
  id: "TIME_DEPENDENT_LOSS_EN1992_2004",
  family: "timeDependent",
  summary: "Long-term loss of tendon stress by creep, shrinkage and relaxation together, or one part of it, positive",
  by: {
    part: choice({
      key: "lossPart",
      symbol: "part",
      text: "part of the combined loss that is wanted",
      default: "ALL",
      values: [
        { value: "ALL", text: "creep, shrinkage and relaxation together" },
        { value: "CREEP", text: "the part from creep" },
        { value: "SHRINKAGE", text: "the part from shrinkage" },
        { value: "RELAXATION", text: "the part from relaxation" },
      ],
    }),
  },
  ignored: "so that one call serves the whole and its parts",
  as: {
    ALL: timeDependentLossEn1992,
    CREEP: timeDependentLossCreepEn1992,
    SHRINKAGE: timeDependentLossShrinkageEn1992,
    RELAXATION: timeDependentLossRelaxationEn1992,
  },
  order: ["A_p", "A_c", "I_c", "z_cp", "E_p", "E_cm", "phi", "changes", "eps_cs", "dsigma_pr", "part"],
  result: q.timeDependentLoss,
});
