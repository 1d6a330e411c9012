import {
  expand,
  RefusedSheet,
  withoutLocked,
  type Inputs,
  type InputValue,
  type Plan,
  type SourceSheet,
  type Template,
} from "../sheet/index.ts";
import { Refused } from "./refused.ts";
import { memberWord, partedBy, type Settings } from "./settings.ts";

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

/** What a setting puts on the sheet: a list or a part of it without anything leaves every place of it empty. */
function settled(value: InputValue, like: InputValue | undefined): InputValue {
  if (!isList(like)) return value;
  if (value === null) return like.map((one) => settled(null, one));
  return isList(value) ? value.map((one, i) => settled(one, like[i])) : value;
}

const counted = (count: number, word: string): string => `${count} ${word}${count === 1 ? "" : "s"}`;

const placesIn = (value: InputValue): number =>
  isList(value) ? value.reduce<number>((sum, one) => sum + placesIn(one), 0) : 1;

/** Over how many dimensions a list runs. */
const levelsOf = (value: InputValue | undefined): number => (isList(value) ? 1 + levelsOf(value[0]) : 0);

/** What an input takes, and how its values are kept apart: "3 are needed, one for each tendon, with “,” between them". */
function takes(template: Template, id: string, like: readonly InputValue[], depth: number): string {
  const word = memberWord(template, id, depth);
  const [first] = like;
  if (!isList(first)) return `${like.length} are needed, one for each ${word}, with “,” between them`;
  const inner = (part: readonly InputValue[], at: number): string => {
    const name = memberWord(template, id, at);
    if (!isList(part[0])) return `${part.length}, one for each ${name}, with “,” between them`;
    const apart = `a part for each ${name}, with “${partedBy(levelsOf(part))}” between ${name}s`;
    return `${apart}, and in each part ${inner(part[0], at + 1)}`;
  };
  return `${placesIn(like)} are needed, in ${counted(like.length, "part")}: ${inner(like, depth)}`;
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
  if (value.length !== like.length) {
    const inParts = isList(like[0]) ? ` in ${counted(value.length, "part")}` : "";
    return [
      `input ${id}${where} lists ${counted(placesIn(value), "value")}${inParts}; ` +
        `${takes(template, id, like, depth)} (a place may be left empty)`,
    ];
  }
  return value.flatMap((one, i) => lengthFaults(template, id, one, like[i], depth + 1, `${where}, ${word} ${i + 1}`));
}

/**
 * Settings as a sheet of this shape takes them, without those that it has no place for. Throws Refused where a list is
 * longer or shorter than its places: nothing that somebody gives is ever left out in silence.
 */
export function settledFor(template: Template, settings: Settings, empty: Plan): Inputs {
  const placed = [...settings].filter(([id]) => id in empty.inputs);
  const faults = placed.flatMap(([id, value]) => lengthFaults(template, id, value, empty.inputs[id]));
  if (faults.length > 0) throw new Refused(faults);
  return Object.fromEntries(placed.map(([id, value]) => [id, settled(value, empty.inputs[id])]));
}

export function expanded(template: Template, inputs: Inputs, source?: SourceSheet): Plan {
  try {
    return expand(template, inputs, source);
  } catch (error) {
    if (error instanceof RefusedSheet) throw new Refused(error.problems);
    throw error;
  }
}

/** Settings that a sheet does not ask for. An input that is not asked for is as empty as it is said to be. */
export function withoutPlace(settings: Settings, empty: Plan): readonly string[] {
  return [...settings].flatMap(([id, value]) => (id in empty.inputs || value === null || value === "" ? [] : [id]));
}

/**
 * The sheet for some settings, on top of what it starts from: the template's example, the office's defaults or nothing.
 * Lists of the start are cut to the shape that is asked for, and what has no place there is left out; so is what is
 * given in common to several sheets, but not a part of its lists. Throws Refused with every message where a setting is
 * wrong or has no place on a sheet of that shape.
 */
export function planFor(template: Template, settings: Settings, start: Inputs, common: Settings = new Map()): Plan {
  const shape = Object.fromEntries(
    template.shape.flatMap(({ id }) => {
      const value = settings.get(id) ?? common.get(id) ?? start[id];
      return value === undefined || value === null ? [] : [[id, value]];
    }),
  );
  const empty = expanded(template, shape);
  const faults = withoutPlace(settings, empty).map(
    (id) => `input ${id} has no place on a sheet of this shape: ${shapeText(template, empty)}`,
  );
  if (faults.length > 0) throw new Refused(faults);
  const own = settledFor(template, new Map([...common, ...settings]), empty);
  return expanded(template, { ...startFor(withoutLocked(template, start), empty), ...own });
}

/** "shape = T, tendons = 2". */
export function shapeText(template: Template, plan: Plan): string {
  return template.shape.map(({ id }) => `${id} = ${String(plan.inputs[id])}`).join(", ");
}
