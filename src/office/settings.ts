import type { InputSpec, InputValue, ShapeInput, TableItem, Template } from "../sheet/index.ts";
import { Refused } from "./refused.ts";

type Choosable = Pick<InputSpec, "choices" | "freeText">;
export type Place =
  | { readonly kind: "shape"; readonly input: ShapeInput }
  | { readonly kind: "row"; readonly input: InputSpec }
  | { readonly kind: "column"; readonly input: InputSpec; readonly table: TableItem };

/** Where the template asks for an input; undefined where it does not. */
export function placeOf(template: Template, id: string): Place | undefined {
  const shape = template.shape.find((input) => input.id === id);
  if (shape) return { kind: "shape", input: shape };
  for (const item of template.blocks.flatMap(({ items }) => items)) {
    if ("id" in item && item.id === id && item.input) return { kind: "row", input: item.input };
    const column = "table" in item ? item.columns.find((one) => one.id === id && one.input) : undefined;
    if (column?.input && "table" in item) return { kind: "column", input: column.input, table: item };
  }
  return undefined;
}

/** A number as people write it; 0x32 or 0b1 is none. */
const decimal = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/** A value as text: a choice, a free text or a number. What is none of these stays text, and the sheet says what it needs instead. */
function single(text: string, { choices, freeText }: Choosable): string | number | null {
  if (freeText) return text;
  const word = text.trim();
  if (word === "") return null;
  const choice = choices?.find(({ value }) => String(value) === word);
  if (choice) return choice.value;
  return decimal.test(word) && Number.isFinite(Number(word)) ? Number(word) : word;
}

/** What keeps the parts of a list apart: members of a table's last dimension, of the one before, of the one before that. */
const betweenParts = [",", ";", "|"] as const;

/** What stands between the parts of a list over that many dimensions. */
export const partedBy = (dimensions: number): string => betweenParts[dimensions - 1] ?? "";

/** Nothing at all leaves every place empty; a part of a list without anything leaves its places empty. */
function list(said: string, text: string, { input, table }: Extract<Place, { kind: "column" }>): InputValue {
  const { over } = table;
  const names = over.join(" and ");
  const foreign = betweenParts.slice(over.length).filter((mark) => !input.freeText && text.includes(mark));
  if (over.length > betweenParts.length || foreign.length > 0) {
    const marks = over.map((one, i) => `by “${partedBy(over.length - i)}” for each ${one}`).reverse();
    const how =
      over.length > betweenParts.length
        ? `a text holds ${betweenParts.length} at most; fill it in on the sheet`
        : over.length === 1
          ? "separate them by commas, without semicolons"
          : `separate them ${marks.join(", ")}`;
    throw new Refused([`${said}: the values run over ${names}; ${how}`]);
  }
  const parts = (part: string, dimensions: number): InputValue => {
    if (dimensions === 0) return single(part, input);
    if (part.trim() === "") return null;
    return part.split(partedBy(dimensions)).map((one) => parts(one, dimensions - 1));
  };
  return parts(text, over.length);
}

/** Whether the template asks for the input that a `name=value` text sets. */
export function asksFor(template: Template, text: string): boolean {
  const cut = text.indexOf("=");
  return cut > 0 && placeOf(template, text.slice(0, cut).trim()) !== undefined;
}

export type Settings = ReadonlyMap<string, InputValue>;

/**
 * Reads `name=value` texts, each name once; `linked`: the sheets beside it, whose inputs a message names too. Throws
 * Refused.
 */
export function settingsOf(template: Template, texts: readonly string[], linked: readonly Template[] = []): Settings {
  const settings = new Map<string, InputValue>();
  for (const text of texts) {
    const cut = text.indexOf("=");
    if (cut < 1) throw new Refused([`--set “${text}” is not of the form name=value`]);
    const id = text.slice(0, cut).trim();
    const value = text.slice(cut + 1);
    const place = placeOf(template, id);
    if (!place)
      throw new Refused([
        [
          `--set ${text}: the template ${template.id} has no input “${id}”; its inputs: ${inputIds(template).join(", ")}`,
          ...linked.map((one) => `inputs of ${one.id}: ${inputIds(one).join(", ")}`),
        ].join("; "),
      ]);
    if (settings.has(id)) throw new Refused([`--set ${text}: “${id}” is set twice; give each input once`]);
    settings.set(id, settingOf(place, value, `--set ${text}`));
  }
  return settings;
}

/** A value as text, as it is typed for an input of that kind; `said`: what messages call it. Throws Refused. */
export function settingOf(place: Place, text: string, said: string): InputValue {
  return place.kind === "column" ? list(said, text, place) : single(text, place.input);
}

/** One value of a list, as text. */
export const memberOfList = (place: Place, text: string): InputValue => single(text, place.input);

/** Every input's id, in the order of the sheet. */
export function inputIds(template: Template): readonly string[] {
  const ids = template.blocks
    .flatMap(({ items }) => items)
    .flatMap((item) =>
      "table" in item
        ? item.columns.flatMap((column) => (column.input ? [column.id] : []))
        : "id" in item && item.input
          ? [item.id]
          : [],
    );
  return [...new Set([...template.shape.map(({ id }) => id), ...ids])];
}

/** What members a list of that depth counts, for messages. */
export function memberWord(template: Template, id: string, depth: number): string {
  const place = placeOf(template, id);
  const dimension = place?.kind === "column" ? place.table.over[depth] : undefined;
  return (dimension !== undefined && template.dimensions[dimension]?.label) || "member";
}
