import type { Layout } from "./layout.ts";
import { eccentricities, type Member } from "./member.ts";
import { tendonSteel, type Steel } from "./steel.ts";
import { isBar } from "./steelKind.ts";
import type { Task } from "./task.ts";
import { costOf, mostInTendon, mostTendons, side, stack } from "./tendonLayout.ts";
import type { Trial } from "./trial.ts";
import type { Tried } from "./tried.ts";
import { holdsWhileStressed } from "./whileStressed.ts";

/** From the middle outwards: there neither loads nor losses that differ a little pass a limit. */
const outwards = [0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95];

/**
 * The cheapest tendons with at least so many strands in all whose force and eccentricity keep the limits at midspan, of
 * all stages and while stressed.
 */
export function tendonsFor(
  task: Task,
  member: Member,
  trial: Trial,
  kept: number,
  { atLeast, fewest }: { readonly atLeast: number; readonly fewest: number },
  tried: Tried,
): Steel | undefined {
  const { answers, dimensions } = task;
  const bar = isBar(answers);
  // A straight bar is as low at the ends, where no moment helps.
  const places = bar ? [0, member.L / 4, member.L / 2] : [member.L / 2];
  const conditions = places.flatMap((x) => member.conditionsAt(x));
  const fitting = (layout: Layout): Steel | undefined => {
    const { lowest } = stack(layout, answers, dimensions);
    const [from, to] = eccentricities(member, layout.count * layout.strands * member.perStrand, conditions);
    const [least, most] = [Math.max(from, 0), Math.min(to, member.yb - lowest)];
    if (least > most) return undefined;
    for (const part of outwards) {
      const e = least + part * (most - least);
      if (!holdsWhileStressed(task, member, trial, layout, e, kept)) continue;
      const steel = tendonSteel(task, layout, e);
      if (!tried.has(steel)) return steel;
    }
    return undefined;
  };
  const sides = side(answers);
  const each = bar ? 1 : answers.strands;
  let best: Steel | undefined;
  for (
    let count = answers.tendons ?? Math.max(sides, fewest);
    count <= (answers.tendons ?? mostTendons);
    count += sides
  )
    for (let strands = Math.max(each ?? 1, Math.ceil(atLeast / count)); strands <= (each ?? mostInTendon); strands++) {
      const layout = { count, strands };
      const cost = costOf(layout);
      if (best && cost >= best.cost) break;
      const steel = fitting(layout);
      if (steel) best = steel;
    }
  return best;
}
