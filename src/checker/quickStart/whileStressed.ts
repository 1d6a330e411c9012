import type { Layout } from "./layout.ts";
import { eccentricities, type Member } from "./member.ts";
import { isBar } from "./steelKind.ts";
import type { Task } from "./task.ts";
import { abreast, endBelow, stack } from "./tendonLayout.ts";
import type { Trial } from "./trial.ts";

/** Stress that a tendon in one web of a box adds until its partner is stressed, MPa: about what sections of usual proportions have. */
const oneSided = 1;

/** Shares of the moment and of the drape at midspan and at places towards the ends; a straight bar pulls as low there. */
const alongSpan = [1, 0.75, 0.5];

const alongBar = [...alongSpan, 0];

/**
 * Whether the limits hold between the stressing of one tendon and the next, when the uppermost are stressed first: with
 * none of the member's weight, which formwork may still carry, and with as much of it as the prestress can lift.
 * `kept`: distance from the limits, MPa.
 */
export function holdsWhileStressed(
  task: Task,
  member: Member,
  trial: Trial,
  layout: Layout,
  e: number,
  kept: number,
): boolean {
  const [fc, ft] = [Math.min(...trial.numbers("utFc")), Math.max(...trial.numbers("utFt"))];
  // A limit that is missing is no limit yet.
  if (ft === 0) return true;
  const factors = [...trial.numbers("rsup"), ...trial.numbers("rinf")];
  const { lifts } = stack(layout, task.answers, task.dimensions);
  const bar = isBar(task.answers);
  const beside = abreast(layout.strands, task.answers, task.dimensions);
  const mean = (of: readonly number[]): number => of.reduce((sum, one) => sum + one, 0) / of.length;
  const atEnd = endBelow * member.h;
  return lifts.slice(1).every((_, i) => {
    const stressed = i + 1;
    const force = layout.strands * stressed * member.perStrand;
    const higher = mean(lifts.slice(-stressed)) - mean(lifts);
    const lifted = Math.max(0, (2 * force * (e - higher)) / 1000);
    const spare = kept + (stressed % beside !== 0 ? oneSided : 0);
    return (bar ? alongBar : alongSpan).every((share) => {
      const here = (bar ? e : atEnd + (e - atEnd) * share) - higher;
      const weights = [0, Math.min(member.selfWeightMoment * share, lifted)];
      const conditions = factors.flatMap((r) => weights.map((M) => ({ M, r, fc: fc - spare, ft: ft + spare })));
      const [from, to] = eccentricities(member, force, conditions);
      return here >= from && here <= to;
    });
  });
}
