import type { Column, InputSpec, InputValue, Row, Template } from "./template.ts";

/** The inputs of rows and columns, by id. */
function inputsOf({ blocks }: Template): readonly (readonly [id: string, input: InputSpec])[] {
  return blocks
    .flatMap(({ items }) => items)
    .flatMap((item): readonly (Row | Column)[] => ("table" in item ? item.columns : "id" in item ? [item] : []))
    .flatMap(({ id, input }) => (input ? [[id, input] as const] : []));
}

/**
 * Inputs that the template locks, with the one value that they may have: its default. Those without one are entered when
 * a sheet is built.
 */
export function lockedValues(template: Template): ReadonlyMap<string, string | number> {
  const locked = new Set(template.locked);
  if (locked.size === 0) return new Map();
  return new Map(
    inputsOf(template).flatMap(([id, input]) =>
      locked.has(id) && input.default !== undefined ? [[id, input.default] as const] : [],
    ),
  );
}

/** Why an input may not be what is asked for, since the template locks it. */
export function lockedFault({ office }: Template, id: string, value: string | number): string {
  const whose = office === undefined ? "the template" : `the template of ${office}`;
  return `input ${id} is locked by ${whose}: it is ${value}`;
}

/** Whether every place that something is given for holds that value; what is left out takes the default. */
function isAll(value: InputValue | undefined, only: string | number): boolean {
  if (Array.isArray(value)) return (value as readonly InputValue[]).every((one) => isAll(one, only));
  return value === undefined || value === only;
}

/** Why a sheet with these inputs is not built: each locked one that is to hold something else, nothing too. */
export function lockedFaults(template: Template, inputs: Readonly<Record<string, InputValue>>): readonly string[] {
  return [...lockedValues(template)].flatMap(([id, only]) =>
    isAll(inputs[id], only) ? [] : [lockedFault(template, id, only)],
  );
}

/** Without what nobody says of this sheet in particular and the template does not allow: examples, assumptions. */
export function withoutLocked<T extends InputValue>(
  template: Template,
  start: Readonly<Record<string, T>>,
): Readonly<Record<string, T>> {
  const locked = lockedValues(template);
  return locked.size === 0 ? start : Object.fromEntries(Object.entries(start).filter(([id]) => !locked.has(id)));
}
