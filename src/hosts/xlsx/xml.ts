import { holdsUnkept } from "../../cells/index.ts";

export type Attributes = Readonly<Record<string, string | number | undefined>>;

const entities: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

export function escaped(text: string): string {
  if (holdsUnkept(text))
    throw new Error(
      `the text “${text}” holds a control character or half a character, which no workbook file can keep`,
    );
  return /[&<>"]/.test(text) ? text.replace(/[&<>"]/g, (c) => entities[c]!) : text;
}

/** An element; attributes that are undefined are left out, children stand as they are. Files have hundreds of thousands. */
export function element(name: string, attributes: Attributes = {}, ...children: readonly string[]): string {
  let said = `<${name}`;
  for (const key in attributes) {
    const value = attributes[key];
    if (value !== undefined) said += ` ${key}="${typeof value === "number" ? value : escaped(value)}"`;
  }
  if (children.length === 0) return `${said}/>`;
  return `${said}>${children.length === 1 ? children[0] : children.join("")}</${name}>`;
}

/** An element that holds text. Spaces at its ends stay. */
export function textElement(name: string, text: string, attributes: Attributes = {}): string {
  const spaces = /^\s|\s$/.test(text) ? { "xml:space": "preserve" } : {};
  return element(name, { ...attributes, ...spaces }, escaped(text));
}

/** A whole part of the file. */
export function part(root: string): string {
  return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n${root}`;
}
