import { quantities } from "./define.ts";
import { stressing } from "./stressing.ts";
import { tendon } from "./tendon.ts";

const alongTheTendon = { "1/m": tendon.wobblePerLength, "rad/m": tendon.wobbleAngle };

/** Wobble in the unit that the argument `wobble` names: the published conventions are different quantities. */
export const wobble = quantities({
  wobbleCoefficient: {
    symbol: "k",
    unit: "1/m or rad/m",
    text: "wobble coefficient, in the unit that “wobble” names",
    follows: { argument: "wobble", as: alongTheTendon },
  },
  wobbleOfPath: {
    symbol: "k",
    unit: "1/m, rad/m or rad",
    text: "wobble coefficient, in the unit that “wobble” names; on deviators the unintended angle at each",
    follows: { argument: "wobble", as: { ...alongTheTendon, rad: stressing.unintendedAngle } },
  },
});
