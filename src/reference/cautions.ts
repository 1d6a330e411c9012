import { cautions, type Family } from "../core/index.ts";
import type { WorksheetFunction } from "../../functions/index.ts";

/** Subjects whose results are used while tendons are stressed or stand stressed without bond. */
const whileStressing: ReadonlySet<Family> = new Set<Family>(["friction", "drawIn", "bed", "stressing"]);
/** Subjects whose results decide about the release of a pre-tensioned member. */
const atRelease: ReadonlySet<Family> = new Set<Family>(["bed", "transmission"]);
/** Functions of other subjects that say how far a tendon may be stressed. */
const byName =
  /JACKING|^TENDON_FORCE$|^TENDON_STRESS$|TENDON_STRESS_LIMIT|ELASTIC_LOSS_SEQUENCE|ELASTIC_LOSS_PROGRAMME/;

/** What must be said beside a function: first what can kill. */
export function cautionsFor({ id, formula, spill }: WorksheetFunction): readonly string[] {
  const family = (formula ?? spill)?.family;
  if (family === undefined) return [];
  return [
    ...(whileStressing.has(family) || byName.test(id) ? [cautions.stressing] : []),
    ...(atRelease.has(family) ? [cautions.release] : []),
    cautions.competence,
  ];
}
