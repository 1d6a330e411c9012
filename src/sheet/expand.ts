import { expandLoosely } from "./builder.ts";
import { configurationOf } from "./configuration.ts";
import { logoOf, withLogo } from "./logo.ts";
import { inputValues, shapeValues, type Inputs } from "./inputs.ts";
import type { SourceSheet } from "./links.ts";
import { problemsOf } from "./lint.ts";
import { lockedFaults } from "./lockedValues.ts";
import type { Plan } from "./plan.ts";
import { Problems, RefusedSheet } from "./problems.ts";
import { filled } from "./skeleton.ts";
import type { Template } from "./template.ts";
import { schemaProblems } from "./validate.ts";

/**
 * Template and inputs as a plan; `source`: the sheet that a linked one takes its values from. Throws RefusedSheet with
 * every message where the template does not lint, an input is wrong or the template locks another value. In one
 * configuration sheets differ in nothing but the inputs' values, so that it is linted and laid out once.
 */
export function expand(template: Template, inputs: Inputs = {}, source?: SourceSheet): Plan {
  const ofSchema = schemaProblems(template);
  if (ofSchema.length > 0) throw new RefusedSheet(ofSchema);
  const wrong = new Problems();
  const shape = shapeValues(template, inputs, wrong);
  if (wrong.list.length > 0) throw new RefusedSheet(problemsOf(template, expandLoosely(template, inputs, source)));
  const configuration = configurationOf(template, shape, source);
  if (configuration.faults.length > 0) throw new RefusedSheet(configuration.faults);
  const { sheet, skeleton } = configuration;
  const values = inputValues(sheet, inputs, wrong);
  const refused = [...lockedFaults(template, inputs), ...wrong.list];
  if (refused.length > 0) throw new RefusedSheet(refused);
  const plan = filled(
    skeleton,
    skeleton.inputs.map(({ id, index }) => values.get(id)![index] ?? null),
  );
  return withLogo(plan, logoOf(template));
}
