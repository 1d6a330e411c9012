import { kindOfProduct } from "../../core/index.ts";
import {
  faultOfInput,
  lockedFault,
  lockedValues,
  plainSymbol,
  skeletonOf,
  type InputCell,
  type Inputs,
  type InputValue,
  type Skeleton,
  type Template,
} from "../../sheet/index.ts";
import { inputKey } from "../marks/wordMarks.ts";
import { measuredIds } from "../record/measuredIds.ts";
import { steelOfProduct } from "./steelOfProduct.ts";

type Single = string | number | null;

/** A sheet's template with what is typed on it, and what was typed on sheets before and has no place on this one. */
export interface Filled {
  readonly template: Template;
  readonly inputs: Inputs;
  readonly parked?: Parked;
  /** The words that its marks still say of a place of an input, by `inputKey`. */
  readonly words?: ReadonlyMap<string, readonly string[]>;
}

interface ParkedValue {
  readonly value: Single;
  /** What its mark said when it was set aside; it says so again where the value comes back. */
  readonly words?: readonly string[];
}

/** Values without a place, by meaning and place in their table: they come back as soon as a sheet asks for them. */
export type Parked = Readonly<Record<string, ParkedValue>>;

/** A value that the new sheet has no place for. */
export interface Lost {
  readonly id: string;
  /** "tendon 3" where it stands in a table. */
  readonly where: string;
  readonly text: string;
  readonly value: string | number;
  readonly unit: string;
  /** Why it was not carried over. */
  readonly why: string;
}

/** A value that nobody typed: taken from the member before, or what the product on the sheet before had filled in. */
export interface Assumed {
  readonly id: string;
  /** Which of its places in a table, from 0. */
  readonly index: number;
  readonly where: string;
  readonly value: string | number;
  /** The member before, whose value it is: "tendon 3". */
  readonly as?: string;
}

export interface CarriedOver {
  readonly template: Template;
  readonly inputs: Inputs;
  readonly lost: readonly Lost[];
  readonly assumed: readonly Assumed[];
  readonly parked: Parked;
  /** How many typed values were carried over. */
  readonly kept: number;
  /** For each place of an input that took a value from the old sheet, by `inputKey`, the place it came from. */
  readonly from: ReadonlyMap<string, string>;
  /** The words of each place that took back a value set aside before, by `inputKey`. */
  readonly back: ReadonlyMap<string, readonly string[]>;
}

/** Members of these dimensions are alike, so a new one begins as the one before it. */
const alike: ReadonlySet<string> = new Set(["tendon", "row"]);
/** What was measured on one tendon is no value of another. */
const ofOneAlone: ReadonlySet<string> = new Set(measuredIds);
/** The last point stays the last: the end of the span. */
const ended: ReadonlySet<string> = new Set(["point"]);

/** The dimensions of the table an input stands in; none for a single input. */
function dimensionsOf(template: Template, id: string): readonly string[] {
  for (const item of template.blocks.flatMap(({ items }) => items))
    if ("table" in item && item.columns.some((column) => column.id === id && column.input)) return item.over;
  return [];
}

/** What an input means: the same id for another quantity, such as a cube strength for a cylinder strength, is another input. */
function meaningOf({ id, says }: InputCell): string {
  return [id, says.quantity?.sort ?? says.quantity?.key ?? says.text, says.unit].join(" ");
}

/** The number of members in each dimension. */
function sizesOf(value: InputValue | undefined): readonly number[] {
  return Array.isArray(value) ? [value.length, ...sizesOf((value as readonly InputValue[])[0])] : [];
}

function placeOf(index: number, sizes: readonly number[]): readonly number[] {
  const place: number[] = [];
  let rest = index;
  for (const size of [...sizes].reverse()) {
    place.unshift(rest % size);
    rest = Math.floor(rest / size);
  }
  return place;
}

/** Cells of the old or the new sheet by meaning and place; the last of an ended dimension is counted from its end. */
function placesOf(
  { plan, inputs }: Skeleton,
  template: Template,
): ReadonlyMap<string, { readonly cell: InputCell; readonly place: readonly number[] }> {
  return new Map(
    inputs.map((cell) => {
      const sizes = sizesOf(plan.inputs[cell.id]);
      const over = dimensionsOf(template, cell.id);
      const place = placeOf(cell.index, sizes);
      const named = place.map((i, d) => (ended.has(over[d]!) && i === sizes[d]! - 1 ? "last" : String(i)));
      return [[meaningOf(cell), ...named].join("/"), { cell, place }];
    }),
  );
}

function at(value: InputValue | undefined, place: readonly number[]): Single {
  const found = place.reduce<InputValue | undefined>(
    (of, i) => (Array.isArray(of) ? (of as readonly InputValue[])[i] : undefined),
    value,
  );
  return typeof found === "string" || typeof found === "number" ? found : null;
}

function put(value: InputValue | undefined, place: readonly number[], one: Single): InputValue {
  const [i, ...inner] = place;
  if (i === undefined) return one;
  return (value as readonly InputValue[]).map((of, j) => (j === i ? put(of, inner, one) : of));
}

/** "tendon 2, point 3" */
function whereOf(template: Template, id: string, place: readonly number[]): string {
  return place
    .map((i, d) => `${template.dimensions[dimensionsOf(template, id)[d]!]?.label ?? "row"} ${i + 1}`)
    .join(", ");
}

/** Why the new sheet has no place for a value that the old one holds. */
function whyLost(old: InputCell, now: readonly InputCell[], template: Template): string {
  const other = now.find(({ id }) => id === old.id);
  if (!other)
    return `${template.title} to ${template.standard.split(",")[0]!} does not ask for it in this configuration`;
  if (meaningOf(other) !== meaningOf(old)) return `there it is ${other.says.text}: another quantity`;
  return "the new sheet has fewer of them";
}

/** Why a product is refused: of the long list only those of its own kind are told. Undefined for other choices. */
function notAmong(value: Single, there: InputCell): string | undefined {
  const kind = there.id === "product" ? kindOfProduct(String(value)) : undefined;
  if (kind === undefined) return undefined;
  const alike = (there.spec.choices ?? []).filter((choice) => kindOfProduct(String(choice.value)) === kind);
  const word = kind.toLowerCase();
  return alike.length === 0
    ? `the list there has it not, and no other ${word}`
    : `the list there has it not; of its kind (${word}) it has ${alike.map((choice) => choice.value).join(", ")}`;
}

/**
 * What is typed on a sheet, for another configuration, version or standard: every value whose meaning stays keeps its
 * place, and what has none is listed and kept aside.
 */
export function carryOver(from: Filled, template: Template, shape: Inputs): CarriedOver {
  const shapeNow = Object.fromEntries(
    template.shape.flatMap((input) => {
      const value = shape[input.id] ?? from.inputs[input.id];
      return value === undefined || value === null ? [] : [[input.id, value]];
    }),
  );
  const before = skeletonOf(from.template, shapeOf(from));
  const after = skeletonOf(template, shapeNow);
  const old = placesOf(before, from.template);
  const now = placesOf(after, template);
  const lost: Lost[] = [];
  const assumed: Assumed[] = [];
  const parked: Record<string, ParkedValue> = { ...from.parked };
  const inputs: Record<string, InputValue> = { ...after.plan.inputs };
  const cameFrom = new Map<string, string>();
  const cameBack = new Map<string, readonly string[]>();
  let kept = 0;
  const locked = lockedValues(template);
  /** Why a value may not stand there. */
  const faultThere = (value: Single, there: InputCell): string | undefined => {
    const only = locked.get(there.id);
    if (only !== undefined && value !== only) return lockedFault(template, there.id, only);
    const fault = faultOfInput(value, there);
    return fault === undefined ? undefined : (notAmong(value, there) ?? fault);
  };
  const settle = (id: string, place: readonly number[], value: Single): void => {
    inputs[id] = put(inputs[id], place, value);
  };

  for (const [key, { cell, place }] of old) {
    const value = at(from.inputs[cell.id], place);
    if (value === null || value === "") continue;
    const target = now.get(key);
    const fault = target ? faultThere(value, target.cell) : undefined;
    if (target && fault === undefined) {
      settle(target.cell.id, target.place, value);
      cameFrom.set(inputKey(target.cell.id, target.cell.index), inputKey(cell.id, cell.index));
      delete parked[key];
      kept++;
      continue;
    }
    // What a template locks has its default instead: the value would find no place to come back to.
    const words = from.words?.get(inputKey(cell.id, cell.index));
    if (!target || !locked.has(target.cell.id)) parked[key] = { value, ...(words && { words }) };
    const { id, says } = cell;
    const why = fault ?? whyLost(cell, after.inputs, template);
    const text = says.symbol === "–" ? says.text : `${plainSymbol(says.symbol)}, ${says.text}`;
    lost.push({ id, where: whereOf(from.template, id, place), text, value, unit: says.unit, why });
  }
  for (const [key, { cell, place }] of now) {
    const was = old.get(key);
    if (was && at(from.inputs[was.cell.id], was.place) !== null) continue;
    // Left empty on the old sheet, though the template has a default for it.
    if (was && !locked.has(cell.id)) {
      settle(cell.id, place, null);
      cameFrom.set(inputKey(cell.id, cell.index), inputKey(was.cell.id, was.cell.index));
    }
    const back = parked[key];
    if (back === undefined || back.value === null || faultThere(back.value, cell) !== undefined) continue;
    settle(cell.id, place, back.value);
    cameBack.set(inputKey(cell.id, cell.index), back.words ?? []);
    delete parked[key];
    kept++;
  }
  const steel = steelOfProduct(from.inputs);
  for (const { cell, place } of now.values()) {
    const value = steel[cell.id];
    // Only a product that is not on the new sheet's list leaves its values behind.
    if (value === undefined || at(inputs["product"], []) !== null || at(inputs[cell.id], place) !== null) continue;
    if (faultThere(value, cell) !== undefined) continue;
    settle(cell.id, place, value);
    parked[filledBy(cell.id)] = { value };
    assumed.push({ id: cell.id, index: cell.index, where: "", value });
  }
  if (at(inputs["product"], []) !== null) emptyFilled(parked, inputs);
  const cameBackTo = membersBack(template, now.values(), cameBack);
  for (const { cell, place } of now.values()) {
    const dimension = dimensionsOf(template, cell.id)[0];
    if (dimension === undefined || !alike.has(dimension) || cell.spec.freeText || ofOneAlone.has(cell.id)) continue;
    const first = firstNew(from, template, dimension, cell.id);
    // One that had been there before is back as it was, with what was left empty.
    if (first === undefined || place[0]! < first || cameBackTo.has(memberKey(dimension, place[0]!))) continue;
    const value = likeTheOneBefore(cell, inputs, place);
    if (faultThere(value, cell) !== undefined) continue;
    // The template's default gives way, also to a place left empty.
    settle(cell.id, place, value);
    if (value === null || value === "") continue;
    const as = whereOf(template, cell.id, [place[0]! - 1]);
    assumed.push({ id: cell.id, index: cell.index, where: whereOf(template, cell.id, place), value, as });
  }
  return { template, inputs, lost, assumed, parked, kept, from: cameFrom, back: cameBack };
}

/** Where it is kept in mind that a value was the product's, for the way back. */
const filledBy = (id: string): string => `filled by the product/${id}`;

/** Once the product is back it fills what it had filled; what was typed since then stays. */
function emptyFilled(parked: Record<string, ParkedValue>, inputs: Record<string, InputValue>): void {
  for (const id of Object.keys(inputs)) {
    const key = filledBy(id);
    if (parked[key] === undefined) continue;
    if (inputs[id] === parked[key].value) inputs[id] = null;
    delete parked[key];
  }
}

function shapeOf({ template, inputs }: Filled): Inputs {
  return Object.fromEntries(
    template.shape.flatMap(({ id }) => (inputs[id] === undefined || inputs[id] === null ? [] : [[id, inputs[id]]])),
  );
}

/** The first member of a dimension that the old sheet did not have; undefined where it had the table in no form. */
function firstNew(from: Filled, template: Template, dimension: string, id: string): number | undefined {
  if (dimensionsOf(from.template, id)[0] !== dimension) return undefined;
  const size = sizesOf(from.inputs[id])[0];
  return size === undefined || template.dimensions[dimension] === undefined ? undefined : size;
}

const memberKey = (dimension: string, member: number): string => `${dimension} ${member}`;

/** The members that took back values set aside before. */
function membersBack(
  template: Template,
  cells: Iterable<{ readonly cell: InputCell; readonly place: readonly number[] }>,
  back: ReadonlyMap<string, unknown>,
): ReadonlySet<string> {
  const out = new Set<string>();
  for (const { cell, place } of cells) {
    const dimension = dimensionsOf(template, cell.id)[0];
    if (dimension !== undefined && back.has(inputKey(cell.id, cell.index))) out.add(memberKey(dimension, place[0]!));
  }
  return out;
}

/** A new tendon or row is as the one before it, and a tendon lies on that one's profile. */
function likeTheOneBefore({ id }: InputCell, inputs: Inputs, place: readonly number[]): Single {
  const before = at(inputs[id], [place[0]! - 1, ...place.slice(1)]);
  switch (id) {
    case "likeT":
      return before ?? place[0]!;
    // Its points are those of the tendon it follows.
    case "cpL":
    case "cpy":
      return null;
    default:
      return before;
  }
}
