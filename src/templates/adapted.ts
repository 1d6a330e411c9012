import { compose, type Parts, type Template } from "../sheet/index.ts";

/**
 * A template in the form of another, as its file says it: what differs, and nothing else. Rows, columns and tables are
 * named by their ids.
 */
export interface AdaptedFile {
  /** The id of the template whose form it has. */
  readonly base: string;
  readonly id: string;
  readonly version: string;
  readonly title: string;
  readonly line: string;
  readonly standard: string;
  /** In place of the convention, the note, or the message of a relation that begins so. */
  readonly conventions: Readonly<Record<string, string>>;
  readonly notes: Readonly<Record<string, string>>;
  readonly messages: Readonly<Record<string, string>>;
  /** In place of the row or column; none where the list is empty. */
  readonly replace: Readonly<Record<string, readonly unknown[]>>;
  /** Single fields of a row or column. */
  readonly patch: Readonly<Record<string, object>>;
  /** On the first page before its first note. */
  readonly front: readonly unknown[];
  /** Further blocks behind the block of this id. */
  readonly after: Readonly<Record<string, readonly unknown[]>>;
  readonly dimensions: Readonly<Record<string, unknown>>;
  readonly relations: readonly unknown[];
  readonly example: {
    readonly name: string;
    /** Before the note of the base. */
    readonly note: string;
    /** Inputs of the base that there are no more. */
    readonly drop: readonly string[];
    readonly inputs: Readonly<Record<string, number | string>>;
  };
}

type Loose = Readonly<Record<string, unknown>>;
const isLoose = (value: unknown): value is Loose =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Fields of the file that name what the base must have. */
const askedFor = ["replace", "patch", "notes", "conventions", "messages", "after"] as const;
type AskedFor = (typeof askedFor)[number];

/** What was asked for and what of it was found, so that nothing is asked in vain. */
class Asked {
  readonly #open: Set<string>;
  constructor(file: AdaptedFile) {
    this.#open = new Set(askedFor.flatMap((kind) => Object.keys(file[kind]).map((one) => `${kind}: ${one}`)));
  }
  found(kind: AskedFor, one: string): void {
    this.#open.delete(`${kind}: ${one}`);
  }
  check(id: string): void {
    if (this.#open.size > 0) throw new Error(`${id}: the base has no ${[...this.#open].join(", ")}`);
  }
}

/** The text that stands in place of one of these, by how that begins. */
function insteadOf(
  text: string,
  kind: "notes" | "conventions" | "messages",
  { [kind]: texts }: AdaptedFile,
  asked: Asked,
): string {
  const begins = Object.keys(texts).find((beginning) => text.startsWith(beginning));
  if (begins === undefined) return text;
  asked.found(kind, begins);
  return texts[begins]!;
}

function changed(member: unknown, file: AdaptedFile, asked: Asked): readonly unknown[] {
  if (!isLoose(member)) return [member];
  const { id, note } = member;
  if (typeof id === "string" && file.replace[id]) {
    asked.found("replace", id);
    return file.replace[id];
  }
  if (typeof id === "string" && file.patch[id]) {
    asked.found("patch", id);
    return [{ ...member, ...file.patch[id] }];
  }
  const within = Object.fromEntries(
    Object.entries(member).map(([key, value]) => [
      key,
      key === "columns" && Array.isArray(value) ? value.flatMap((one) => changed(one, file, asked)) : value,
    ]),
  );
  return [typeof note === "string" ? { ...within, note: insteadOf(note, "notes", file, asked) } : within];
}

/** With further items before the first note. */
function beforeNotes(items: readonly unknown[], further: readonly unknown[]): readonly unknown[] {
  const first = items.findIndex((item) => isLoose(item) && "note" in item);
  return first < 0 ? [...items, ...further] : [...items.slice(0, first), ...further, ...items.slice(first)];
}

/** A template in the form of another. Throws where the base lacks what the file names. */
export function adapted(base: Template, file: AdaptedFile, parts: Parts): Template {
  const asked = new Asked(file);
  const { id, version, title, line, standard } = file;
  const blocks = base.blocks.flatMap((block, i) => {
    const items = block.items.flatMap((item) => changed(item, file, asked));
    const own = { ...block, items: i === 0 ? beforeNotes(items, file.front) : items };
    const further = file.after[block.id];
    if (further) asked.found("after", block.id);
    return [own, ...(further ?? [])];
  });
  const relations = (base.relations ?? []).map((relation) => ({
    ...relation,
    message: insteadOf(relation.message, "messages", file, asked),
  }));
  const kept = Object.entries(base.example.inputs).filter(([name]) => !file.example.drop.includes(name));
  const template = {
    ...base,
    ...{ id, version, title, line, standard },
    conventions: base.conventions.map((text) => insteadOf(text, "conventions", file, asked)),
    dimensions: { ...base.dimensions, ...file.dimensions },
    blocks,
    relations: [...relations, ...file.relations],
    example: {
      name: file.example.name,
      note: file.example.note + base.example.note,
      inputs: { ...Object.fromEntries(kept), ...file.example.inputs },
    },
  };
  asked.check(id);
  return compose(template, parts) as Template;
}
