import type { Column, InputSpec, Row, Template } from "./template.ts";

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
