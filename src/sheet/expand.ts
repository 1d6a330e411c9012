import { inputValues, shapeValues, type Inputs } from "./inputs.ts";
import { KeptByTemplate } from "./keptByTemplate.ts";
import type { SourceSheet } from "./links.ts";
import { lintedExpansion } from "./lint.ts";
import type { Plan } from "./plan.ts";
import { Problems, RefusedSheet } from "./problems.ts";
import type { ShapedSheet } from "./shape.ts";
import { filled, skeletonFrom, type Skeleton } from "./skeleton.ts";
import type { Template } from "./template.ts";
import { schemaProblems } from "./validate.ts";

interface Linted {
  readonly sheet: ShapedSheet;
  readonly skeleton: Skeleton;
}
const linted = new KeptByTemplate<Linted>();

/**
 * Template and inputs as a plan; `source`: the sheet that a linked one takes its values from. Throws RefusedSheet with
 * every message where the template does not lint or an input is wrong. In one configuration sheets differ in nothing
 * but the inputs' values, so that it is linted and laid out once.
 */
export function expand(template: Template, inputs: Inputs = {}, source?: SourceSheet): Plan {
  const ofSchema = schemaProblems(template);
  if (ofSchema.length > 0) throw new RefusedSheet(ofSchema);
  const wrong = new Problems();
  const shape = shapeValues(template, inputs, wrong);
  const key = JSON.stringify([source?.sheet, shape]);
  const { sheet, skeleton } = linted.of(template, source?.names ?? template, key, () => {
    const { expansion, problems } = lintedExpansion(template, inputs, source);
    if (problems.length > 0) throw new RefusedSheet(problems);
    return { sheet: expansion.sheet, skeleton: skeletonFrom(expansion, expansion.sheet) };
  });
  const values = inputValues(sheet, inputs, wrong);
  if (wrong.list.length > 0) throw new RefusedSheet(wrong.list);
  return filled(
    skeleton,
    skeleton.inputs.map(({ id, index }) => values.get(id)![index] ?? null),
  );
}
