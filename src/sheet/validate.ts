import { Validator, type Schema } from "@cfworker/json-schema";
import schema from "./template.schema.json";
import { placeOf } from "./shape.ts";
import type { Column, Template } from "./template.ts";

const validator = new Validator(schema as Schema, "2020-12", false);

/** Keywords that only say that something inside them failed. */
const wrappers = new Set([
  "$ref",
  "properties",
  "patternProperties",
  "items",
  "prefixItems",
  "if",
  "then",
  "else",
  "allOf",
  "dependentSchemas",
  "additionalProperties",
  "propertyNames",
]);

/** What a group of alternatives asks for, where a list of failures would not tell. */
function alternatives(keyword: string, pointer: readonly string[]): string | undefined {
  if (keyword === "anyOf") return "needs a text or a quantity";
  if (keyword !== "oneOf") return undefined;
  if (pointer[0] === "dimensions")
    return "is one of: count (with plus), size, rowsOf, within with skipFirst and skipLast, ofSource, members";
  return pointer.at(-2) === "columns"
    ? "needs exactly one of formula, input, taken, index, memberText, cells, record"
    : "needs one of: an input, a formula, taken";
}

function placeOfPointer(template: Template, path: readonly string[]): string {
  const [head, index, ...rest] = path;
  if (head !== "blocks" || index === undefined)
    return path.join(", ").replace(/, (\d+)/g, (_, n: string) => ` ${Number(n) + 1}`) || "template";
  const b = Number(index);
  const [items, item, ...inner] = rest;
  const block = `block ${b + 1} (${template.blocks[b]?.id ?? "without id"})`;
  if (items !== "items" || item === undefined) return [block, ...rest].join(", ");
  const i = Number(item);
  const it = template.blocks[b]?.items[i];
  const place = it && typeof it === "object" ? placeOf(template, b, i) : `${block}, item ${i + 1}`;
  if (inner[0] === "columns" && inner[1] !== undefined && it && "table" in it) {
    const c = Number(inner[1]);
    const all: readonly Partial<Column>[] = Array.isArray(it.columns) ? (it.columns as readonly Column[]) : [];
    const id = all[c]?.id;
    return [place, `column ${id ?? c + 1}`, ...inner.slice(2)].join(", ");
  }
  return [place, ...inner].join(", ");
}

/** Templates found good; they are data that nobody changes. */
const good = new WeakSet<object>();

/** Whether the template has the shape of one: a message for each fault, naming block, item and what is wrong. */
export function schemaProblems(template: unknown): readonly string[] {
  if (typeof template !== "object" || template === null) return faultsIn(template);
  if (good.has(template)) return [];
  const faults = faultsIn(template);
  if (faults.length === 0) good.add(template);
  return faults;
}

function faultsIn(template: unknown): readonly string[] {
  const { valid, errors } = validator.validate(template);
  if (valid) return [];
  const out = new Set<string>();
  for (const { keyword, keywordLocation, instanceLocation, error } of errors) {
    const path = keywordLocation.split("/");
    const inside = path.findIndex(
      (part, i) => i < path.length - 1 && (part === "oneOf" || part === "anyOf" || part === "not"),
    );
    if (wrappers.has(keyword) || inside >= 0) continue;
    const pointer = instanceLocation
      .split("/")
      .slice(1)
      .map((part) => decodeURIComponent(part).replace(/~1/g, "/").replace(/~0/g, "~"));
    const message =
      alternatives(keyword, pointer) ??
      (keyword === "false"
        ? "is not known here"
        : keyword === "not"
          ? "holds things that exclude each other"
          : error.replace(/^Instance type/, "its type").replace(/^Instance/, "it"));
    out.add(`${placeOfPointer(template as Template, pointer)}: ${message}`);
  }
  return out.size > 0 ? [...out] : ["template: does not have the shape that template.schema.json asks for"];
}
