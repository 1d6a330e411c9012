import { faultOfInput, says, type InputSpec, type Saying, type Template } from "../sheet/index.ts";

interface Asked {
  readonly saying: Saying;
  readonly spec: InputSpec;
}

/** The places at which a template asks for an input; they exclude each other. */
function askedAt(template: Template, id: string): readonly Asked[] {
  return template.blocks
    .flatMap(({ items }) => items)
    .flatMap((item): readonly (Saying & { readonly input?: InputSpec })[] => {
      if ("table" in item) return item.columns.filter((column) => column.id === id);
      return "id" in item && item.id === id ? [item] : [];
    })
    .flatMap((one) => (one.input ? [{ saying: one, spec: one.input }] : []));
}

/** Whether an input has no choices, or this one among them. */
export function isChoosable(template: Template, id: string, value: number | string): boolean {
  const shape = template.shape.filter((input) => input.id === id);
  const choices = [...shape, ...askedAt(template, id).map(({ spec }) => spec)].map((one) => one.choices);
  return choices.some((all) => all === undefined || all.some((choice) => choice.value === value));
}

/** Why no place of an input may hold a value, whatever the shape of the sheet; undefined where it may, or there is none. */
export function faultOfValue(template: Template, id: string, value: number | string): string | undefined {
  const shape = template.shape.find((input) => input.id === id);
  if (shape) {
    if (shape.choices)
      return shape.choices.some((choice) => choice.value === value)
        ? undefined
        : `it is none of the choices: ${shape.choices.map((choice) => choice.value).join(", ")}`;
    const inRange = typeof value === "number" && value >= (shape.min ?? 1) && value <= (shape.max ?? 100);
    return inRange ? undefined : `allowed: whole numbers, ${shape.min ?? 1} to ${shape.max ?? 100}`;
  }
  const faults = askedAt(template, id).map(({ saying, spec }) =>
    faultOfInput(value, { id, index: 0, of: 1, at: { row: 0, column: 0 }, spec, says: says(saying) }),
  );
  // One of the places has to take it.
  return faults.includes(undefined) ? undefined : faults[0];
}
