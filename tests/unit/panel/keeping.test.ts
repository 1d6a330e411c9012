import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { besideName, bookName, fileName } from "../../../taskpane/workbench/keep/fileNames.ts";
import { Keeping, type OpenBook } from "../../../taskpane/workbench/keep/keeping.ts";
import type { KeptBook, Shelf } from "../../../taskpane/workbench/keep/shelf.ts";

/** A shelf in memory that two pages may share. */
class MemoryShelf implements Shelf {
  readonly books = new Map<string, { readonly book: KeptBook; readonly contents: Uint8Array }>();
  full = false;
  list = () => Promise.resolve([...this.books.values()].map(({ book }) => book));
  contents = (id: string) => Promise.resolve(this.books.get(id)?.contents);
  put(book: KeptBook, contents: Uint8Array, seen: number | undefined): Promise<boolean> {
    if (this.full) return Promise.reject(new Error("no room"));
    if (this.books.get(book.id)?.book.at !== seen) return Promise.resolve(false);
    this.books.set(book.id, { book, contents });
    return Promise.resolve(true);
  }
  remove(id: string): Promise<void> {
    this.books.delete(id);
    return Promise.resolve();
  }
}

const book: OpenBook = { id: "a", name: "Beam", saved: true, notUnderstood: [], foreign: false };

/** A page that keeps its workbook, whose contents are a number that grows with each change. */
function page(shelf: Shelf, seen?: number, writing = 0) {
  const state = { version: 0, writes: 0, ids: 0, problems: [] as unknown[] };
  const keeping = new Keeping(
    {
      shelf,
      contents: () => {
        state.writes++;
        const contents = Uint8Array.of(state.version);
        return new Promise((resolve) =>
          writing > 0 ? setTimeout(() => resolve(contents), writing) : resolve(contents),
        );
      },
      newId: () => `new ${++state.ids}`,
      now: () => Date.now(),
      told: (what) => {
        if ("problem" in what) state.problems.push(what.problem);
      },
      pause: 2_000,
      longest: 10_000,
    },
    book,
    seen,
  );
  const change = (): void => {
    state.version++;
    keeping.changed();
  };
  return { keeping, state, change };
}

describe("keeping the open workbook", () => {
  beforeEach(() => void vi.useFakeTimers({ now: 1_000_000 }));
  afterEach(() => void vi.useRealTimers());

  it("keeps it when nothing has changed for a while, once for many changes", async () => {
    const shelf = new MemoryShelf();
    const { keeping, state, change } = page(shelf);
    for (let i = 0; i < 3; i++) {
      change();
      await vi.advanceTimersByTimeAsync(1_000);
    }
    expect([state.writes, keeping.waiting]).toEqual([0, true]);
    await vi.advanceTimersByTimeAsync(1_000);
    expect([state.writes, keeping.waiting]).toEqual([1, false]);
    expect(await shelf.contents("a")).toEqual(Uint8Array.of(3));
    expect((await shelf.list())[0]).toMatchObject({ name: "Beam", saved: false });
  });

  it("keeps it now and then while somebody goes on without a pause", async () => {
    const { state, change } = page(new MemoryShelf());
    for (let i = 0; i < 24; i++) {
      change();
      await vi.advanceTimersByTimeAsync(1_000);
    }
    expect(state.writes).toBe(2);
  });

  it("keeps a change that came while it was writing", async () => {
    const shelf = new MemoryShelf();
    const { keeping, state, change } = page(shelf, undefined, 500);
    change();
    void keeping.keep();
    await vi.advanceTimersByTimeAsync(250);
    change();
    await vi.advanceTimersByTimeAsync(5_000);
    expect([state.writes, keeping.waiting]).toEqual([2, false]);
    expect(await shelf.contents("a")).toEqual(Uint8Array.of(2));
  });

  it("asked twice at once, writes once and under one id", async () => {
    const shelf = new MemoryShelf();
    const { keeping, state, change } = page(shelf);
    change();
    await Promise.all([keeping.keep(), keeping.keep()]);
    expect([state.writes, [...shelf.books.keys()]]).toEqual([1, ["a"]]);
  });

  it("writes nothing over what another page kept of the same workbook since: both stay", async () => {
    const shelf = new MemoryShelf();
    const first = page(shelf);
    first.change();
    await first.keeping.keep();
    const { at } = (await shelf.list())[0]!;
    const second = page(shelf, at);
    await vi.advanceTimersByTimeAsync(1);
    second.change();
    second.change();
    await second.keeping.keep();
    await vi.advanceTimersByTimeAsync(1);
    first.change();
    await first.keeping.keep();
    expect([...shelf.books.keys()]).toEqual(["a", "new 1"]);
    expect([await shelf.contents("a"), await shelf.contents("new 1")]).toEqual([Uint8Array.of(2), Uint8Array.of(2)]);
    expect([first.keeping.book.id, second.keeping.book.id]).toEqual(["new 1", "a"]);
  });

  it("says that it could not keep it, goes on waiting, and keeps it with the next change", async () => {
    const shelf = new MemoryShelf();
    const { keeping, state, change } = page(shelf);
    shelf.full = true;
    change();
    await keeping.keep();
    expect([state.problems.map(String), keeping.waiting]).toEqual([["Error: no room"], true]);
    shelf.full = false;
    change();
    await vi.advanceTimersByTimeAsync(15_000);
    expect(keeping.waiting).toBe(false);
    expect(await shelf.contents("a")).toEqual(Uint8Array.of(2));
  });
});

describe("names of files", () => {
  it.each([
    ["Beam.xlsx", "Beam.xlsx"],
    ["a/b:c*?.XLSX", "a b c.xlsx"],
    ["  ", "Workbook.xlsx"],
    ["..", "Workbook.xlsx"],
    ["x".repeat(300), `${"x".repeat(120)}.xlsx`],
  ])("%s gives %s", (wanted, name) => {
    expect(fileName(bookName(wanted))).toBe(name);
  });

  it("a file that is not to be written over gets another one", () => {
    expect(fileName(besideName("Bridge"))).toBe("Bridge (Kernbook).xlsx");
  });
});
