import { describe, expect, it } from "vitest";
import { emptySheet, writeBook, type Workbook } from "../../../src/hosts/index.ts";
import { Books } from "../../../taskpane/workbench/keep/books.ts";
import type { KeptBook, Shelf } from "../../../taskpane/workbench/keep/shelf.ts";

const withValue = (value: number, creator = "Kernbook"): Workbook => ({
  sheets: [
    {
      name: "Loads",
      ...emptySheet,
      rows: 1,
      columns: 1,
      cells: [{ row: 0, column: 0, value, look: {} }],
    },
  ],
  names: [],
  properties: { creator },
});
const valueIn = (book: Workbook): unknown => book.sheets[0]?.cells[0]?.value;
const file = (book: Workbook): Blob => new Blob([new Uint8Array(writeBook(book))]);

/** A page with a workbook whose only cell is 1, in a browser that keeps things or has no room for them. */
function page({ room = true } = {}) {
  let open = withValue(1);
  let edits = 0;
  let edited = (): void => undefined;
  const handed: string[] = [];
  const kept = new Map<string, KeptBook>();
  const shelf: Shelf = {
    list: () => Promise.resolve([...kept.values()]),
    contents: () => Promise.resolve(undefined),
    put: (book) => {
      if (!room) return Promise.reject(new Error("no room"));
      kept.set(book.id, book);
      return Promise.resolve(true);
    },
    remove: () => Promise.resolve(),
  };
  let ids = 0;
  /** What happens while the contents are read. */
  const meanwhile = { act: (): void => undefined };
  const edit = (): void => {
    edits++;
    edited();
  };
  const books = new Books(
    {
      host: {
        get edits() {
          return edits;
        },
        contents: () => {
          meanwhile.act();
          return Promise.resolve(open);
        },
        open: (book) => {
          open = book;
          return Promise.resolve();
        },
        onEdited: (listener) => {
          edited = listener;
          return () => undefined;
        },
      },
      shelf,
      hand: (_contents, name) => handed.push(name),
      remember: () => undefined,
      replaced: () => undefined,
      newId: () => `id ${++ids}`,
      now: () => 1_000,
      pause: 1_000_000,
    },
    "Beam",
  );
  return { books, edit, handed, kept, meanwhile, value: () => valueIn(open) };
}

describe("the workbook of the page", () => {
  it("makes room for another file once it is kept", async () => {
    const { books, edit, kept, value } = page();
    edit();
    await books.openFile("Two.xlsx", file(withValue(2)));
    expect([value(), books.state.book.name, books.unsaved]).toEqual([2, "Two", false]);
    expect([...kept.values()].map(({ name, saved }) => [name, saved])).toEqual([
      ["Beam", false],
      ["Two", true],
    ]);
  });

  it("stays where it is kept nowhere and in no file, whatever is to be opened", async () => {
    const { books, edit, value } = page({ room: false });
    edit();
    await books.openFile("Two.xlsx", file(withValue(2)));
    expect(value()).toBe(1);
    expect(books.state.problem).toBe(
      "“Two.xlsx” was not opened: the workbook that is open could not be kept in this browser; save it as a file " +
        "first. Nothing has changed here.",
    );
    await books.start();
    expect(value()).toBe(1);
    await books.save();
    await books.openFile("Two.xlsx", file(withValue(2)));
    expect(value()).toBe(2);
  });

  it("is not taken for saved where something was typed while its file was written", async () => {
    const { books, edit, handed, meanwhile } = page();
    edit();
    let once = true;
    meanwhile.act = () => {
      if (once) edit();
      once = false;
    };
    await books.save();
    expect([handed, books.unsaved]).toEqual([["Beam.xlsx"], true]);
    await books.save();
    expect(books.unsaved).toBe(false);
  });

  it("of another program is proposed under another name", async () => {
    const { books } = page();
    await books.openFile("Theirs.xlsx", file(withValue(2, "Somebody")));
    expect(books.proposed).toBe("Theirs (Kernbook)");
    await books.openFile("Ours.xlsx", file(withValue(2)));
    expect(books.proposed).toBe("Ours");
  });

  it("is refused by its size before it is read", async () => {
    const { books, value } = page();
    await books.openFile("Huge.xlsx", { size: 2e9, arrayBuffer: () => Promise.reject(new Error("read all the same")) });
    expect(value()).toBe(1);
    expect(books.state.problem).toMatch(/“Huge\.xlsx” was not opened: it is 2,000 MB large; up to 40 MB are opened/);
  });

  it("says what failed where a file could not be read", async () => {
    const { books } = page();
    await books.openFile("Gone.xlsx", { size: 5, arrayBuffer: () => Promise.reject(new Error("the file is gone")) });
    expect(books.state.problem).toMatch(/“Gone\.xlsx” could not be opened: the file is gone/);
  });
});
