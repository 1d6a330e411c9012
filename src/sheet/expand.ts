import type { Inputs } from "./inputs.ts";
import type { SourceSheet } from "./links.ts";
import { lintedExpansion } from "./lint.ts";
import type { Plan } from "./plan.ts";
import { RefusedSheet } from "./problems.ts";
import type { Template } from "./template.ts";
import { schemaProblems } from "./validate.ts";

/**
 * Template and inputs as a plan; `source`: the sheet that a linked one takes its values from. Throws RefusedSheet with
 * every message where the template does not lint or an input is wrong.
 */
export function expand(template: Template, inputs: Inputs = {}, source?: SourceSheet): Plan {
  const ofSchema = schemaProblems(template);
  if (ofSchema.length > 0) throw new RefusedSheet(ofSchema);
  const { expansion, problems } = lintedExpansion(template, inputs, source);
  if (problems.length > 0) throw new RefusedSheet(problems);
  return expansion.plan();
}
