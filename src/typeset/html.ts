/** Text that is HTML already. */
export class Markup {
  constructor(readonly text: string) {}
  toString(): string {
    return this.text;
  }
}

type Piece = Markup | string | number | false | undefined | readonly (Markup | false | undefined)[];

const escapes: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Plain text for a place between tags or in a quoted attribute. */
export function escape(text: string): string {
  return text.replace(/[&<>"']/g, (c) => escapes[c]!);
}

function markupOf(piece: Piece): string {
  if (piece === undefined || piece === false) return "";
  if (piece instanceof Markup) return piece.text;
  return typeof piece === "object" ? piece.map(markupOf).join("") : escape(String(piece));
}

/** A template whose values are escaped unless they are markup themselves; false and undefined leave nothing. */
export function html(strings: TemplateStringsArray, ...values: readonly Piece[]): Markup {
  return new Markup(strings.map((text, i) => text + (i < values.length ? markupOf(values[i]) : "")).join(""));
}
