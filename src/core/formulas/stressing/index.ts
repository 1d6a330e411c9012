import { barFormulas } from "./bar.ts";
import { elongationFormulas } from "./elongation.ts";
import { measuredFormulas } from "./measured.ts";
import { pressureFormulas } from "./pressure.ts";

export const stressingFormulas = [...elongationFormulas, ...barFormulas, ...pressureFormulas, ...measuredFormulas];
export { stressingSpills } from "./stages.ts";
