import { describe, expect, it } from "vitest";
import { emptySheet, openWorkbook, writeBook, type Workbook } from "../../../src/hosts/index.ts";
import { Books, notSavedText } from "../../../taskpane/workbench/keep/books.ts";
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
function page({ room = true, broken = false } = {}) {
  let open = withValue(1);
  let edits = 0;
  let edited = (): void => undefined;
  const handed: string[] = [];
  const kept = new Map<string, KeptBook>();
  const files = new Map<string, Uint8Array>();
  const shelf: Shelf = {
    list: () => Promise.resolve([...kept.values()]),
    contents: (id) => (broken ? Promise.reject(new Error("the store is shut")) : Promise.resolve(files.get(id))),
    put: (book, contents) => {
      if (!room) return Promise.reject(new Error("no room"));
      kept.set(book.id, book);
      files.set(book.id, contents);
      return Promise.resolve(true);
    },
    remove: () => Promise.resolve(),
  };
  let ids = 0;
  /** What happens while the contents are read. */
  const meanwhile = { act: (): void => undefined, waits: false };
  /** What happens in the grid before the turn of opening comes. */
  const turn = { comes: (): void => undefined, over: (): void => undefined, fails: (_text: string): void => undefined };
  const build = (value: number): void => {
    open = withValue(value);
    edit();
  };
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
          if (!meanwhile.waits) return Promise.resolve(open);
          meanwhile.waits = false;
          return new Promise<Workbook>((resolve) => (turn.over = () => resolve(open)));
        },
        open: async (book, safe) => {
          turn.comes();
          await safe?.(open);
          open = book;
          turn.over();
        },
        onTrouble: (listener) => {
          turn.fails = listener;
          return () => undefined;
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
  const keptValues = () =>
    [...kept.values()].map(({ id, name }) => [name, valueIn(openWorkbook(files.get(id)!).workbook)]);
  return { books, build, edit, handed, kept, keptValues, meanwhile, turn, value: () => valueIn(open) };
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

  it.each([
    ["a file", (books: Books) => books.openFile("Two.xlsx", file(withValue(2)))],
    ["a new workbook", (books: Books) => books.start()],
  ])("is kept with what was still being built when %s was to be opened", async (_what, open) => {
    const { books, build, keptValues, turn } = page();
    turn.comes = () => build(1.5);
    await open(books);
    expect(books.state.problem).toBeUndefined();
    expect(keptValues()[0]).toEqual(["Beam", 1.5]);
  });

  it("stays, with what was still being built, where that cannot be kept", async () => {
    const { books, build, turn, value } = page({ room: false });
    turn.comes = () => build(1.5);
    await books.openFile("Two.xlsx", file(withValue(2)));
    expect(value()).toBe(1.5);
    expect(books.state.problem).toMatch(/could not be kept in this browser; save it as a file first/);
  });

  it("is kept from the turn itself where its own contents wait for that turn", async () => {
    const { books, edit, keptValues, meanwhile, turn } = page();
    edit();
    meanwhile.waits = true;
    turn.comes = () => void books.keep();
    await books.openFile("Two.xlsx", file(withValue(2)));
    expect(keptValues()[0]).toEqual(["Beam", 1]);
  });

  it("stays, and says so, where a kept one is not there any more or its store fails", async () => {
    const one = { id: "gone", name: "Old", saved: true, notUnderstood: [], foreign: false, at: 1 };
    const { books, value } = page();
    expect(await books.openKept(one)).toBe(false);
    expect(books.state.problem).toMatch(/“Old” was not opened: it is no longer kept in this browser/);
    const shut = page({ broken: true });
    await shut.books.openKept(one);
    expect(shut.books.state.problem).toMatch(/“Old” could not be opened: the store is shut/);
    expect([value(), shut.value()]).toEqual([1, 1]);
  });

  it("says what went wrong in the grid where nobody waited for it", () => {
    const { books, turn } = page();
    turn.fails("“Beam (copy)” could not be protected.");
    expect(books.state.problem).toBe("“Beam (copy)” could not be protected.");
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

  it("says either that it is saved or what is not, never both", async () => {
    const { books, edit, meanwhile } = page();
    const said = (): readonly string[] => [books.state.news ?? "", notSavedText(books.state)];
    edit();
    expect(said()).toEqual(["", "Not saved as a file yet."]);
    await books.save();
    expect(said()).toEqual(["Saved as Beam.xlsx, among your downloads.", ""]);
    edit();
    expect(said()).toEqual(["", "Changes since “Beam.xlsx” are not saved as a file yet."]);
    meanwhile.act = () => edit();
    await books.save("Other");
    expect(said()).toEqual(["", "Changes since “Other.xlsx” are not saved as a file yet."]);
    meanwhile.act = () => undefined;
    await books.openFile("Two.xlsx", file(withValue(2)));
    expect(said()).toEqual(["“Two.xlsx” is open.", ""]);
    await books.start();
    edit();
    expect(said()).toEqual(["", "Not saved as a file yet."]);
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
