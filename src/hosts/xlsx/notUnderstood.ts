/** Halves of characters and control characters. */
export const unkeptCharacters = "characters that no workbook file can keep: left out";

/** What of a file is not understood, each kind once with where it was met. */
export class NotUnderstood {
  readonly #places = new Map<string, string[]>();

  /** @param what with its verb-less consequence, such as "comments: not kept" */
  add(what: string, where?: string): void {
    const places = this.#places.get(what) ?? [];
    this.#places.set(what, places);
    if (where !== undefined && !places.includes(where)) places.push(where);
  }

  get lines(): readonly string[] {
    return [...this.#places].map(([what, places]) => {
      if (places.length === 0) return what;
      const more = places.length > 4 ? ` and ${places.length - 4} more` : "";
      return `${what} (${places.slice(0, 4).join(", ")}${more})`;
    });
  }
}
