import type { Recognised } from "../../checker/index.ts";
import { says, type InputSpec, type InputValue, type Saying } from "../../sheet/index.ts";
import type { Draft, TemplateCopy } from "./copyOf.ts";

/** An input of the sheet whose value could become the default of the template. */
export interface InputToKeep {
  readonly id: string;
  readonly text: string;
  readonly value: string | number;
  /** The template's own; undefined where it has none, so that every member has to give a value. */
  readonly was?: string | number;
}

type Asking = Saying & { readonly input?: InputSpec };

function askingIn({ template }: Recognised): readonly Asking[] {
  return template.blocks.flatMap(({ items }) =>
    items.flatMap((item): readonly Asking[] => {
      if ("table" in item) return item.columns.filter(({ input }) => input);
      return "id" in item && item.input ? [item] : [];
    }),
  );
}

/** The one value of an input; undefined where it is empty, or has several. */
function single(value: InputValue | undefined): string | number | undefined {
  if (Array.isArray(value)) {
    const all = (value as readonly InputValue[]).map(single);
    return all.every((one) => one === all[0]) ? all[0] : undefined;
  }
  return value === null || value === "" ? undefined : (value as string | number | undefined);
}

/** Inputs, those that decide the configuration first, that stand otherwise than the template's defaults. */
export function inputsToKeep(recognised: Recognised): readonly InputToKeep[] {
  const { template, inputs } = recognised;
  const shaped = template.shape.flatMap(({ id, text, default: was }): readonly InputToKeep[] => {
    const value = single(inputs[id]);
    return value === undefined || value === was ? [] : [{ id, text, value, was }];
  });
  const seen = new Set<string>();
  const others = askingIn(recognised).flatMap((spec): readonly InputToKeep[] => {
    const value = single(inputs[spec.id]);
    const was = spec.input!.default;
    if (value === undefined || value === was || seen.has(spec.id)) return [];
    seen.add(spec.id);
    return [{ id: spec.id, text: says(spec).text, value, ...(was !== undefined && { was }) }];
  });
  return [...shaped, ...others];
}

/** Puts the sheet's values into the template's example, and those that were chosen into its defaults. */
export function withInputs(
  copy: TemplateCopy,
  recognised: Recognised,
  defaults: ReadonlySet<string>,
  sheet: string,
): void {
  const { template, inputs } = recognised;
  for (const spec of template.shape) {
    const value = single(inputs[spec.id]);
    // The shape of a linked sheet is its source's.
    if (defaults.has(spec.id) && value !== undefined && !template.source?.template.shape.includes(spec))
      copy.of(spec).default = value;
  }
  for (const spec of askingIn(recognised)) {
    const value = single(inputs[spec.id]);
    if (defaults.has(spec.id) && value !== undefined) copy.of(spec.input!).default = value;
  }
  const known = new Set<string>();
  const { file } = copy;
  for (const { id } of file.shape as Draft[]) known.add(String(id));
  for (const block of file.blocks as Draft[])
    for (const item of block.items as Draft[]) {
      if (item.input) known.add(String(item.id));
      for (const column of (item.columns as Draft[] | undefined) ?? []) if (column.input) known.add(String(column.id));
    }
  const example = file.example as { inputs: Record<string, unknown>; name: string; note: string };
  example.inputs = Object.fromEntries(Object.entries(inputs).filter(([id]) => known.has(id)));
  example.name = sheet;
  example.note =
    "Values of the sheet that this template was made from. Replace them with your own before using any result.";
}
