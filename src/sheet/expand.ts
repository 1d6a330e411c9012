import type { Inputs } from "./inputs.ts";
import { lintedExpansion } from "./lint.ts";
import type { Plan } from "./plan.ts";
import { RefusedSheet } from "./problems.ts";
import type { Template } from "./template.ts";
import { schemaProblems } from "./validate.ts";

/** Template and inputs as a plan. Throws RefusedSheet with every message where the template does not lint or an input is wrong. */
export function expand(template: Template, inputs: Inputs = {}): Plan {
  const ofSchema = schemaProblems(template);
  if (ofSchema.length > 0) throw new RefusedSheet(ofSchema);
  const { expansion, problems } = lintedExpansion(template, inputs);
  if (problems.length > 0) throw new RefusedSheet(problems);
  return expansion.plan;
}
