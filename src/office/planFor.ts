import {
  expand,
  lockedFault,
  lockedValues,
  RefusedSheet,
  type Inputs,
  type InputValue,
  type Plan,
  type SourceSheet,
  type Template,
} from "../sheet/index.ts";
import { Refused } from "./refused.ts";
import { memberWord, type Settings } from "./settings.ts";

const isList = (value: InputValue | undefined): value is readonly InputValue[] => Array.isArray(value);

/** Lists no longer than the sheet's own, at every depth; a single value in every place of a list. */
function fitted(value: InputValue, like: InputValue | undefined): InputValue {
  if (!isList(like)) return value;
  if (!isList(value)) return like.map((one) => fitted(value, one));
  return value.slice(0, like.length).map((one, i) => fitted(one, like[i]));
}

/** What a sheet starts from, as far as a sheet of this shape has a place for it. */
export function startFor(start: Inputs, empty: Plan): Inputs {
  return Object.fromEntries(Object.entries(start).map(([id, value]) => [id, fitted(value, empty.inputs[id])]));
}

/** What a setting puts on the sheet: a list without anything leaves every place of it empty. */
function settled(value: InputValue, like: InputValue | undefined): InputValue {
  return value === null && isList(like) ? like.map((one) => settled(null, one)) : value;
}

/** Where a list has another length than the sheet; every place once. */
function lengthFaults(
  template: Template,
  id: string,
  value: InputValue,
  like: InputValue | undefined,
  depth = 0,
  where = "",
): readonly string[] {
  if (!isList(value) || !isList(like)) return [];
  const word = memberWord(template, id, depth);
  if (value.length !== like.length)
    return [
      `input ${id}${where} lists ${value.length} ${value.length === 1 ? "value" : "values"}; ${like.length} ` +
        `are needed, one for each ${word} (a place may be left empty)`,
    ];
  return value.flatMap((one, i) => lengthFaults(template, id, one, like[i], depth + 1, `${where}, ${word} ${i + 1}`));
}

export function expanded(template: Template, inputs: Inputs, source?: SourceSheet): Plan {
  try {
    return expand(template, inputs, source);
  } catch (error) {
    if (error instanceof RefusedSheet) throw new Refused(error.problems);
    throw error;
  }
}

/**
 * The sheet for some settings, on top of what it starts from: the template's example, the office's defaults or nothing.
 * Lists of the start are cut to the shape that is asked for, and what has no place there is left out. Throws Refused
 * with every message where a setting is wrong or has no place on a sheet of that shape.
 */
export function planFor(template: Template, settings: Settings, start: Inputs): Plan {
  const given = Object.fromEntries(settings);
  const shape = Object.fromEntries(
    template.shape.flatMap(({ id }) => (id in given || id in start ? [[id, given[id] ?? start[id]!]] : [])),
  );
  const empty = expanded(template, shape);
  const locked = lockedValues(template);
  const faults = [...settings].flatMap(([id, value]) => {
    const only = locked.get(id);
    if (only !== undefined && !isAll(value, only)) return [lockedFault(template, id, only)];
    if (id in empty.inputs) return lengthFaults(template, id, value, empty.inputs[id]);
    // An input that is not asked for is as empty as it is said to be.
    return value === null || value === ""
      ? []
      : [`input ${id} has no place on a sheet of this shape: ${shapeText(template, empty)}`];
  });
  if (faults.length > 0) throw new Refused(faults);
  const placed = Object.entries(given).flatMap(([id, value]) =>
    id in empty.inputs ? [[id, settled(value, empty.inputs[id])] as const] : [],
  );
  const free = Object.fromEntries(Object.entries(start).filter(([id]) => !locked.has(id)));
  return expanded(template, { ...startFor(free, empty), ...Object.fromEntries(placed) });
}

/** Whether every place holds that value. */
function isAll(value: InputValue, only: string | number): boolean {
  return isList(value) ? value.every((one) => isAll(one, only)) : value === only;
}

/** "shape = T, tendons = 2". */
export function shapeText(template: Template, plan: Plan): string {
  return template.shape.map(({ id }) => `${id} = ${String(plan.inputs[id])}`).join(", ");
}
