import type { Column, Row, Saying, Template } from "./template.ts";

/** `{ "take": "id" }` in a template's file, with what it says in other words than the source. */
interface Take extends Partial<Saying> {
  readonly take: string;
}

const isTake = (value: unknown): value is Take =>
  typeof value === "object" && value !== null && typeof (value as Partial<Take>).take === "string";

/** Every row and column of a template by id; of several with the same id, the first. */
function sayingsOf(template: Template): ReadonlyMap<string, Row | Column> {
  const out = new Map<string, Row | Column>();
  for (const item of template.blocks.flatMap(({ items }) => items)) {
    const members: readonly (Row | Column)[] = "table" in item ? item.columns : "id" in item ? [item] : [];
    for (const member of members) if (!out.has(member.id)) out.set(member.id, member);
  }
  return out;
}

/** What a value is, wherever it stands; how it comes about stays with the source. */
function wordsOf({ quantity, text, symbol, unit, format }: Saying): Partial<Saying> {
  return {
    ...(quantity !== undefined && { quantity }),
    ...(text !== undefined && { text }),
    ...(symbol !== undefined && { symbol }),
    ...(unit !== undefined && { unit }),
    ...(format !== undefined && { format }),
  };
}

/**
 * The file of a linked template with its source: rows and columns that it takes have the source's words, and the
 * source's shape comes before its own. What the source does not have stays as it is, for lint to tell.
 */
export function withSource(file: object, source: Template): unknown {
  const sayings = sayingsOf(source);
  const taken = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(taken);
    if (typeof value !== "object" || value === null) return value;
    if (!isTake(value)) return Object.fromEntries(Object.entries(value).map(([key, member]) => [key, taken(member)]));
    const { take, ...own } = value;
    const words = sayings.get(take);
    return { id: take, taken: take, ...(words ? wordsOf(words) : { text: take }), ...own };
  };
  const { shape, source: spec, ...rest } = file as { shape: readonly unknown[]; source: object };
  return { ...(taken(rest) as object), shape: [...source.shape, ...shape], source: { ...spec, template: source } };
}

/**
 * A linked template on another source, made from its own: what it takes has the words of that source, and its
 * configuration begins with that source's. Whether all it takes is still there, lint tells.
 */
export function onSource(linked: Template, source: Template, id: string): Template {
  const { source: spec, shape, ...rest } = linked;
  const [before, after] = [sayingsOf(spec!.template), sayingsOf(source)];
  const taken = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(taken);
    if (typeof value !== "object" || value === null) return value;
    const copy = Object.fromEntries(Object.entries(value).map(([key, member]) => [key, taken(member)]));
    const { taken: of } = value as { readonly taken?: unknown };
    if (typeof of !== "string") return copy;
    const [was, is] = [before.get(of), after.get(of)].map((words) => (words ? wordsOf(words) : undefined));
    if (!was || !is) return copy;
    const own = Object.entries(copy).filter(([key, word]) => was[key as keyof Saying] !== word);
    return { ...is, ...Object.fromEntries(own) };
  };
  return {
    ...(taken(rest) as Omit<Template, "source" | "shape">),
    id,
    madeFrom: linked.madeFrom ?? { template: linked.id, version: linked.version },
    ...(source.office !== undefined && { office: source.office }),
    shape: [...source.shape, ...shape.filter((input) => !spec!.template.shape.includes(input))],
    source: { ...spec!, template: source },
  };
}
