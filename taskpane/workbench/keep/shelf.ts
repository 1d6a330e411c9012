import { answer, openStore, patience, type Patience } from "../../store.ts";

/** A workbook kept in this browser, without its contents. */
export interface KeptBook {
  readonly id: string;
  readonly name: string;
  /** When it was last kept, in milliseconds since 1970. */
  readonly at: number;
  /** Nothing was changed since it was last saved as a file. */
  readonly saved: boolean;
  /** What its file held that is not kept; a line each. */
  readonly notUnderstood: readonly string[];
  /** Its file was made by another program. */
  readonly foreign: boolean;
}

/** Where workbooks are kept: the browser's own store, or memory in tests. */
export interface Shelf {
  list(): Promise<readonly KeptBook[]>;
  contents(id: string): Promise<Uint8Array | undefined>;
  /**
   * Keeps a workbook. `seen` is when it was kept by whoever keeps it now; false where somebody else kept it since, in which case nothing is
   * written.
   */
  put(book: KeptBook, contents: Uint8Array, seen: number | undefined): Promise<boolean>;
  remove(id: string): Promise<void>;
}

/** Where nothing can be kept: whoever asks is told why. */
export function shutShelf(why: unknown): Shelf {
  const refuse = (): Promise<never> => Promise.reject(why instanceof Error ? why : new Error(String(why)));
  return { list: refuse, contents: refuse, put: refuse, remove: refuse };
}

const stores = { about: "about", contents: "contents" } as const;

/** The browser's own store of workbooks. */
export async function browserShelf(name = "kernbook", wait: Patience = patience): Promise<Shelf> {
  const transacted = await openStore(name, { [stores.about]: "id", [stores.contents]: undefined }, wait);
  return {
    list: () =>
      transacted("readonly", async (transaction) => {
        const all: unknown = await answer(transaction.objectStore(stores.about).getAll());
        return all as readonly KeptBook[];
      }),
    contents: (id) =>
      transacted("readonly", async (transaction) => {
        const found: unknown = await answer(transaction.objectStore(stores.contents).get(id));
        return found as Uint8Array | undefined;
      }),
    put: (book, contents, seen) =>
      transacted("readwrite", async (transaction) => {
        const about = transaction.objectStore(stores.about);
        const before = (await answer(about.get(book.id))) as KeptBook | undefined;
        const mine = before?.at === seen;
        if (mine) {
          about.put(book);
          transaction.objectStore(stores.contents).put(contents, book.id);
        }
        return mine;
      }),
    remove: (id) =>
      transacted("readwrite", async (transaction) => {
        for (const store of Object.values(stores)) transaction.objectStore(store).delete(id);
        await Promise.resolve();
      }),
  };
}
