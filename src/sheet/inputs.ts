import { allowedText, beyondText, format, neighbourHint, outside, type Bounds, type Unit } from "../core/index.ts";
import { holdsUnwritable, shortened, withoutUnwritable } from "../cells/index.ts";
import type { Problems } from "./problems.ts";
import { boundsOf, plainSymbol, type Says } from "./says.ts";
import type { ShapedSheet, ShapeValues } from "./shape.ts";
import type { Single } from "./singles.ts";
import type { InputSpec, InputValue, ShapeInput, Template } from "./template.ts";

/** What a user gives, by input id; arrays, nested by dimension, for table inputs. */
export type Inputs = Readonly<Record<string, InputValue>>;
/** "input μ (friction coefficient; id mu)": how a message names an input. */
function nameOf({ id, symbol, text }: Pick<Says, "id" | "symbol" | "text">, where = ""): string {
  return `input ${id} (${symbol === "–" ? "" : `${plainSymbol(symbol)}, `}${text})${where}`;
}

function shown(value: InputValue, unit: string): string {
  if (typeof value !== "number") return value === null ? "empty" : `“${String(value)}”`;
  return unit === "–" ? format(value) : `${format(value)} ${unit}`;
}

/** Characters that a line of the title block may have; a cell holds more, but nobody can read it there. */
const longestText = 255;

function faultOfText(text: string): string | undefined {
  if (holdsUnwritable(text))
    return (
      `= “${shortened(withoutUnwritable(text, "�"), 40)}” holds a tab, a line end or another character ` +
      "that can't be seen; type it again without"
    );
  return text.length > longestText
    ? `= “${shortened(text, 40)}” has ${text.length} characters; at most ${longestText} are allowed`
    : undefined;
}

/** Why a value is not allowed; undefined where it is. */
export function faultOf(value: Single, input: InputSpec, says: Says): string | undefined {
  if (value === null || (value === "" && !input.choices)) return undefined;
  if (input.freeText) return faultOfText(String(value));
  if (input.choices) {
    if (input.choices.some((choice) => choice.value === value)) return undefined;
    return (
      `= ${shown(value, "–")} is not one of the choices; allowed: ` +
      `${input.choices.map((choice) => `${choice.value} (${choice.text})`).join(", ")}`
    );
  }
  if (typeof value !== "number" || !Number.isFinite(value))
    return `= ${shown(value, says.unit)} is not a number${says.unit === "–" ? "" : `; a number in ${says.unit} is needed`}`;
  const b = boundsOf(input, says.quantity);
  const allowed = `allowed: ${b.whole ? "whole numbers, " : ""}${allowedText({ ...b, unit: says.unit as Unit })}`;
  const beyond = b.because === undefined ? `; ${allowed}` : beyondText({ ...b, unit: says.unit as Unit });
  const side = outside(b, value);
  const hint = says.quantity ? neighbourHint(says.quantity, value) : "";
  const asked = hint && `. ${hint}`;
  if (side === "below")
    return `= ${shown(value, says.unit)} is ${value === b.above ? "not above" : "below"} ${format(b.min ?? b.above!)}; ${allowed}${asked}`;
  if (side === "above")
    return `= ${shown(value, says.unit)} is ${value === b.below ? "not below" : "above"} ${format(b.max ?? b.below!)}${beyond}${asked}`;
  if (b.whole && !Number.isInteger(value)) return `= ${shown(value, says.unit)} is not a whole number; ${allowed}`;
  return undefined;
}

function shapeFault(value: InputValue, input: ShapeInput): string | undefined {
  if (input.choices)
    return input.choices.some((choice) => choice.value === value)
      ? undefined
      : `= ${shown(value, "–")} is not one of the choices; allowed: ` +
          `${input.choices.map((choice) => `${choice.value} (${choice.text})`).join(", ")}`;
  const bounds: Bounds = {
    ...(input.min !== undefined && { min: input.min }),
    ...(input.max !== undefined && { max: input.max }),
  };
  const allowed = allowedText({ unit: "–", ...bounds });
  if (typeof value !== "number" || !Number.isInteger(value))
    return `= ${shown(value, "–")} is not a whole number; allowed: ${allowed}`;
  const side = outside(bounds, value);
  if (side)
    return `= ${format(value)} is ${side} ${format(side === "below" ? input.min! : input.max!)}; allowed: ${allowed}`;
  return undefined;
}

/** The shape inputs' values: given, or their defaults. */
export function shapeValues(template: Template, inputs: Inputs, problems: Problems): ShapeValues {
  return Object.fromEntries(
    template.shape.map((input) => {
      const given = inputs[input.id] ?? input.default;
      const fault = shapeFault(given, input);
      if (fault) problems.add("", `${nameOf(input)} ${fault}`);
      return [input.id, fault ? input.default : (given as string | number)];
    }),
  );
}

/** Every id the template has an input for, whatever its shape. */
function inputIds(template: Template): ReadonlySet<string> {
  const ids = new Set(template.shape.map(({ id }) => id));
  for (const item of template.blocks.flatMap(({ items }) => items)) {
    if ("table" in item) for (const column of item.columns) if (column.input) ids.add(column.id);
    if ("id" in item && item.input) ids.add(item.id);
  }
  return ids;
}

/**
 * The value of every input present, given or default, null where left empty; for table inputs one for each row of the table's main group.
 * Arrays may be shorter than the table (the rest stays default or empty), never longer.
 */
export function inputValues(
  sheet: ShapedSheet,
  inputs: Inputs,
  problems: Problems,
): ReadonlyMap<string, readonly Single[]> {
  const known = inputIds(sheet.template);
  for (const id of Object.keys(inputs))
    if (!known.has(id)) problems.add("", `input ${id} is not an input of the template ${sheet.template.id}`);
  const out = new Map<string, readonly Single[]>();
  const single = (value: InputValue | undefined, input: InputSpec, says: Says, where: string): Single => {
    if (value === undefined) return input.default ?? null;
    if (typeof value === "object" && value !== null) {
      problems.add("", `${nameOf(says, where)} is a list; one value is needed`);
      return null;
    }
    const fault = faultOf(value, input, says);
    if (fault) problems.add("", `${nameOf(says, where)} ${fault}`);
    return value === "" ? null : value;
  };
  for (const [id, subject] of sheet.subjects) {
    if (subject.kind === "row" && subject.row.row.input)
      out.set(id, [single(inputs[id], subject.row.row.input, subject.says, "")]);
    if (subject.kind === "column" && subject.column.column.input) {
      const input = subject.column.column.input;
      const over = subject.table.groups[0]!.over;
      const flatten = (value: InputValue | undefined, depth: number, where: string): readonly Single[] => {
        const dimension = over[depth];
        if (!dimension) return [single(value, input, subject.says, where)];
        if (value !== undefined && value !== null && !Array.isArray(value)) {
          problems.add(
            "",
            `${nameOf(subject.says, where)} = ${shown(value, subject.says.unit)} is a single value; a list over ${dimension.id} is needed`,
          );
          return flatten(undefined, depth, where);
        }
        const list = (value ?? []) as readonly InputValue[];
        if (list.length > dimension.members.length)
          problems.add(
            "",
            `${nameOf(subject.says, where)} lists ${list.length} values over ${dimension.id}; allowed: at most ${dimension.members.length}`,
          );
        return dimension.members.flatMap((member, i) => flatten(list[i], depth + 1, `${where}, ${member.text}`));
      };
      out.set(id, flatten(inputs[id], 0, ""));
    }
  }
  return out;
}

/** Back from a flat list to arrays nested by dimension. */
export function nested(values: readonly Single[], sizes: readonly number[]): InputValue {
  const [size, ...inner] = sizes;
  if (size === undefined) return values[0] ?? null;
  const step = values.length / size;
  return Array.from({ length: size }, (_, i) => nested(values.slice(i * step, (i + 1) * step), inner));
}
