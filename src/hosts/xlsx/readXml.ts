import { holdsUnkept, withoutUnkept } from "../../cells/index.ts";

/** An element as read. Names keep their prefix. */
export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  /** Its own text, without that of its children. */
  readonly text: string;
}

interface Open {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  text: string;
}

const entities: ReadonlyMap<string | undefined, string> = new Map([
  ["amp", "&"],
  ["lt", "<"],
  ["gt", ">"],
  ["quot", '"'],
  ["apos", "'"],
]);

/** What may not stand as it is written: references, and characters that XML cannot hold. Half a character may be one of two. */
const toLookAt = /[&\u0000-\u0008\u000b\u000c\u000e-\u001f\ud800-\udfff\ufffe\uffff]/;

function unescaped(text: string, leftOut: () => void): string {
  if (!toLookAt.test(text)) return text;
  const plain = text.replace(/&(#x[0-9a-fA-F]+|#\d+|\w+);|&/g, (all, name: string | undefined) => {
    if (name?.startsWith("#x")) return String.fromCodePoint(parseInt(name.slice(2), 16));
    if (name?.startsWith("#")) return String.fromCodePoint(Number(name.slice(1)));
    const c = entities.get(name);
    if (c === undefined) throw new Error(`XML: ${all} is no entity`);
    return c;
  });
  if (!holdsUnkept(plain)) return plain;
  leftOut();
  return withoutUnkept(plain);
}

const attribute = /\s+([\w:.-]+)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/y;

function attributesOf(text: string, leftOut: () => void): Readonly<Record<string, string>> {
  const out: Record<string, string> = {};
  attribute.lastIndex = 0;
  let end = 0;
  for (let m = attribute.exec(text); m; m = attribute.exec(text)) {
    if (Object.hasOwn(out, m[1]!)) throw new Error(`XML: the attribute ${m[1]} stands twice`);
    out[m[1]!] = unescaped(m[2] ?? m[3]!, leftOut);
    end = attribute.lastIndex;
  }
  if (text.slice(end).trim() !== "") throw new Error(`XML: “${text.slice(end).trim()}” is no attribute`);
  return out;
}

/**
 * Reads a part of a workbook file. Throws where it is not well formed; document types, which no part may have, are
 * refused. Characters that XML cannot hold are left out, and whoever asks is told.
 */
export function readXml(text: string, leftOut: () => void = () => undefined): Element {
  const root: Open = { name: "", attributes: {}, children: [], text: "" };
  const open: Open[] = [root];
  // A name ends where its letters end, and no < stands within an element: else a long part without > takes for ever.
  const token =
    /<\?[\s\S]*?\?>|<!--[\s\S]*?-->|<(\/?)([\w:.-]+)(?![\w:.-])((?:"[^"<]*"|'[^'<]*'|[^<>"'])*?)(\/?)>|[^<]+|</g;
  for (const [all, closing, name, rest, empty] of text.matchAll(token)) {
    const top = open.at(-1)!;
    if (all.startsWith("<?") || all.startsWith("<!--")) continue;
    if (name === undefined) {
      if (all === "<") throw new Error("XML: < without an element");
      top.text += unescaped(all, leftOut);
    } else if (closing) {
      if (top.name !== name) throw new Error(`XML: </${name}> closes <${top.name}>`);
      open.pop();
    } else {
      const one: Open = { name, attributes: attributesOf(rest!, leftOut), children: [], text: "" };
      top.children.push(one);
      if (!empty) open.push(one);
    }
  }
  if (open.length > 1) throw new Error(`XML: <${open.at(-1)!.name}> is not closed`);
  if (root.children.length !== 1 || root.text.trim() !== "")
    throw new Error("XML: one element and nothing beside it is needed");
  return root.children[0]!;
}

/** The first child of that name, if there is one. */
export function child(of: Element | undefined, name: string): Element | undefined {
  return of?.children.find((one) => one.name === name);
}

/** The children of that name. */
export function all(of: Element | undefined, name: string): readonly Element[] {
  return of?.children.filter((one) => one.name === name) ?? [];
}

/** Something is not in the file that its kind should have. */
export class NotThere extends Error {
  override readonly name = "NotThere";
}

/** The element at the end of a path of names. Throws NotThere. */
export function at(of: Element, ...path: readonly string[]): Element {
  return path.reduce((one, name) => {
    const next = child(one, name);
    if (!next) throw new NotThere(`<${one.name}> holds no <${name}>`);
    return next;
  }, of);
}

/** Whether an attribute says yes: programs write 1 or true. */
export function isOn(written: string | undefined): boolean {
  return written === "1" || written === "true";
}

/** The relation an element names, whatever the prefix. */
export function relationId({ attributes }: Element): string {
  return Object.entries(attributes).find(([name]) => /^\w+:id$/.test(name))?.[1] ?? "";
}
