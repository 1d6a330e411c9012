import { bookOfPlan, computeAhead } from "../../hosts/index.ts";
import { expand, isPost, type Inputs, type Template } from "../../sheet/index.ts";
import type { Answers } from "./answers.ts";
import { sheetSection, type SectionType } from "./sections.ts";
import { lean, shapeOnly } from "./shaping.ts";
import { quickStartSheet } from "./sheetOf.ts";
import { trialsOf } from "./task.ts";
import { underWay } from "./underWay.ts";

/** Time to show what was typed meanwhile, ms, and to type another figure of the same number. */
const toShow = 60;
const toType = 300;

const pause = (ms: number): Promise<void> => new Promise((next) => setTimeout(next, ms));

/** Numbers of tendons, or rows of strands, that most members have; the likeliest first. */
const usualCounts = [2, 1, 3, 4];

/**
 * Makes ready for a quick start while its questions are still being answered, in steps between which the page lives on,
 * until the signal says that something else is answered. With the section alone: lays out and reads the sheets of the
 * template in its usual configurations. With all answers that have to be given: finds what they will be asked for, and
 * computes its sheet; the questions that may stay open are still on the page.
 */
export async function prepareQuickStart(
  template: Template,
  answered: SectionType | Answers,
  signal?: AbortSignal,
): Promise<void> {
  const steps = typeof answered === "string" ? usualSheets(template, answered) : sheetAhead(template, answered);
  await pause(typeof answered === "string" ? toShow : toType);
  while (!signal?.aborted && !steps.next().done) await pause(toShow);
}

function* usualSheets(template: Template, section: SectionType): Generator<void> {
  const trials = trialsOf(template);
  const rows = usualCounts.flatMap((count) => ["NO", "YES"].map((deflected) => ({ rows: count, deflected })));
  const steel: readonly Inputs[] = isPost(template) ? usualCounts.map((tendons) => ({ tendons, points: 3 })) : rows;
  for (const layout of steel) {
    const shape = shapeOnly(template, { ...lean, section: sheetSection(section), ...layout });
    yield void expand(template, shape);
    yield void trials.prepare(shape);
  }
}

function* sheetAhead(template: Template, answers: Answers): Generator<void> {
  const work = underWay(template, answers);
  let found = work.step();
  while (!found) {
    yield;
    if (!work.isLatest) return;
    found = work.step();
  }
  yield;
  const { marked } = quickStartSheet(template, found);
  yield;
  bookOfPlan(marked, template.title);
  yield;
  computeAhead(marked);
}
