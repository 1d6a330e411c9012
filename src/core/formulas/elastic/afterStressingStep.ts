import { choosing } from "../../choosing.ts";
import { choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { eccentricityAfterStressingStep } from "./eccentricityAfterStressingStep.ts";
import { forceAfterStressingStep } from "./forceAfterStressingStep.ts";

/** What acts on the concrete between the stressing of one tendon and the next? */
export const afterStressingStep = choosing({
  id: "AFTER_STRESSING_STEP",
  family: "stressing",
  summary: "Force of all post-tensioned tendons stressed up to a place in the order of stressing, or its eccentricity",
  by: {
    result: choice({
      key: "stressingStepResult",
      symbol: "result",
      text: "what is wanted",
      values: [
        { value: "FORCE", text: "force in kN" },
        { value: "ECCENTRICITY", text: "eccentricity of that force in mm" },
      ],
    }),
  },
  as: { FORCE: forceAfterStressingStep, ECCENTRICITY: eccentricityAfterStressingStep },
  order: ["tendons", "A", "I", "E_p", "E_c", "M_g", "order", "result"],
  result: q.stepResult,
});
