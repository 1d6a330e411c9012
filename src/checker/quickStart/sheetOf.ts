import { expand, withEntered, type Plan, type Template } from "../../sheet/index.ts";
import { assumedMarks } from "./assumedMarks.ts";
import type { QuickStart } from "./fromAnswers.ts";

/** The sheet that a quick start is for. */
export interface QuickStartSheet {
  readonly plan: Plan;
  /** The plan with the marks of what is assumed and proposed. */
  readonly marked: Plan;
}

const kept = new WeakMap<QuickStart, { readonly template: Template; readonly sheet: QuickStartSheet }>();

/** Planned once for each quick start. */
export function quickStartSheet(template: Template, of: QuickStart): QuickStartSheet {
  const before = kept.get(of);
  if (before?.template === template) return before.sheet;
  const plan = expand(template, of.inputs);
  const sheet = { plan, marked: withEntered(plan, assumedMarks(plan, of.assumed, of.proposed)) };
  kept.set(of, { template, sheet });
  return sheet;
}
