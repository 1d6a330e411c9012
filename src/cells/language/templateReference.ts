/** What stands between braces in a template's formula. */
export type TemplateReference =
  | CellReference
  | { readonly kind: "count"; readonly word: string }
  | { readonly kind: "inputs"; readonly word: string }
  | { readonly kind: "shapeChanged" }
  | { readonly kind: "failing" }
  | { readonly kind: "warningsCode" }
  | { readonly kind: "assumptions" };

/** A row's or column's cells, by its id; with `to` the columns from one id to another. */
export interface CellReference {
  readonly kind: "cell";
  readonly id: string;
  readonly to?: string;
  readonly pick: Pick;
}
type Pick = "match" | "group" | "whole" | "above" | "first" | "last";

const picks: ReadonlyMap<string, Pick> = new Map([
  ["[]", "group"],
  ["[*]", "whole"],
  ["[-1]", "above"],
  ["[first]", "first"],
  ["[last]", "last"],
]);

const isLetter = (c: string): boolean => (c >= "a" && c <= "z") || (c >= "A" && c <= "Z");
const isIdLetter = (c: string): boolean => isLetter(c) || (c >= "0" && c <= "9") || c === "_";
const isId = (text: string): boolean => text !== "" && isLetter(text[0]!) && [...text].every(isIdLetter);
const isWord = (text: string): boolean =>
  text !== "" && isLetter(text[0]!) && [...text].every((c) => isLetter(c) || c === " ");

const alone = ["shapeChanged", "failing", "warningsCode", "assumptions"] as const;
const isAlone = (inside: string): inside is (typeof alone)[number] => alone.some((word) => word === inside);

const counts = "count:";
const inputs = "inputs:";

/**
 * Reads `id`, `id[]`, `a:b[*]`, `count:WORD`, `inputs:WORD`, `shapeChanged`, `failing`, `warningsCode`, `assumptions`;
 * undefined for anything else.
 */
export function templateReference(inside: string): TemplateReference | undefined {
  if (isAlone(inside)) return { kind: inside };
  if (inside.startsWith(counts) && isWord(inside.slice(counts.length)))
    return { kind: "count", word: inside.slice(counts.length) };
  if (inside.startsWith(inputs) && isWord(inside.slice(inputs.length)))
    return { kind: "inputs", word: inside.slice(inputs.length) };
  const bracket = inside.indexOf("[");
  const pick = bracket < 0 ? "match" : picks.get(inside.slice(bracket));
  const [id = "", to, ...more] = (bracket < 0 ? inside : inside.slice(0, bracket)).split(":");
  if (pick === undefined || more.length > 0 || !isId(id)) return undefined;
  if (to === undefined) return { kind: "cell", id, pick };
  return isId(to) && (pick === "group" || pick === "whole") ? { kind: "cell", id, to, pick } : undefined;
}
