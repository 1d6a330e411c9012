import { cellAt, placeOfKey, type Book } from "../../cells/index.ts";
import { labelFromTexts, type Label } from "../trace/labels.ts";

const noLabel: Label = { item: "", description: "", symbol: "", unit: "", from: "texts" };

/** What the texts beside the cells of a book and its names say of a cell, each looked at once. */
export class Labels {
  readonly #known = new Map<number, Label | undefined>();
  readonly #names = new Map<string, string>();

  constructor(private readonly book: Book) {
    for (const { names } of book.sheets)
      for (const [name, area] of names)
        if (area?.rows === 1 && area.columns === 1) this.#names.set(`${area.sheet}\n${area.row},${area.column}`, name);
  }

  of(key: number): Label | undefined {
    if (this.#known.has(key)) return this.#known.get(key);
    const { sheet, row, column } = placeOfKey(key);
    const snapshot = this.book.sheets[sheet]!;
    const beside = labelFromTexts((r, c) => cellAt(snapshot, r, c), row, column);
    const name = this.#names.get(`${snapshot.sheet}\n${row},${column}`);
    const label = beside?.symbol || name === undefined ? beside : { ...(beside ?? noLabel), symbol: name };
    this.#known.set(key, label);
    return label;
  }
}
