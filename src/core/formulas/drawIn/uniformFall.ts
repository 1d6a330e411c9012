import type { Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

const { min: _, ...unbounded } = q.stressGradient;
/** Without friction there is no affected length. */
export const fallAboveZero: Quantity = { ...unbounded, above: 0 };

/** Why the closed forms stand beside the general rule. */
export const closedForm =
  "The closed form for a uniform fall, for a check by hand; a function of its own beside that of a path, because it takes the fall itself.";
