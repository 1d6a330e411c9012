import { expand, isPost, type Inputs, type Template } from "../../sheet/index.ts";
import { sheetSection, type SectionType } from "./sections.ts";
import { lean, shapeOnly } from "./shaping.ts";
import { trialsOf } from "./task.ts";

/** Long enough for what was typed meanwhile to be shown. */
const pause = (): Promise<void> => new Promise((next) => setTimeout(next, 60));

/** Numbers of tendons, or rows of strands, that most members have; the likeliest first. */
const usualCounts = [2, 1, 3, 4];

/**
 * Lays out and reads the sheets of a template in its usual configurations while its questions are still being answered,
 * in steps between which the page lives on; until the signal says that another section is asked for.
 */
export async function prepareQuickStart(template: Template, section: SectionType, signal?: AbortSignal): Promise<void> {
  const trials = trialsOf(template);
  const rows = usualCounts.flatMap((count) => ["NO", "YES"].map((deflected) => ({ rows: count, deflected })));
  const steel: readonly Inputs[] = isPost(template) ? usualCounts.map((tendons) => ({ tendons, points: 3 })) : rows;
  for (const layout of steel) {
    const shape = shapeOnly(template, { ...lean, section: sheetSection(section), ...layout });
    const steps = [() => expand(template, shape), () => trials.prepare(shape), () => trials.with(shape)];
    for (const step of steps) {
      await pause();
      if (signal?.aborted) return;
      step();
    }
  }
}
