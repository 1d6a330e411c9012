import type { Agreement, Match } from "./match.ts";
import { shownName, shownNumber } from "./said.ts";

/** "agrees only where f_cm is up to 35 MPa", where one input tells the agreeing points from the others. */
export function whereItAgrees({ rule }: Match, { agreeing }: Agreement): string {
  for (const [j, { quantity }] of rule.inputs.entries()) {
    const at = (agrees: boolean): readonly number[] =>
      rule.points.flatMap((p, k) => (agreeing[k] === agrees ? [p[j]!] : []));
    const [yes, no] = [at(true), at(false)];
    const unit = quantity.unit === "–" ? "" : ` ${quantity.unit}`;
    if (yes.length > 0 && Math.max(...yes) < Math.min(...no))
      return `Agrees only up to about ${shownName(quantity)} = ${shownNumber(Math.max(...yes))}${unit}; beyond, the rule goes on otherwise`;
    if (Math.min(...yes) > Math.max(...no))
      return `Agrees only from about ${shownName(quantity)} = ${shownNumber(Math.min(...yes))}${unit} on; below, the rule is another`;
  }
  return "Agrees in a part of the range only: a limit or a case of the rule is missing";
}
