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

const stores = { about: "about", contents: "contents" } as const;

const answer = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("the browser's store did not answer"));
  });

function opened(name: string): Promise<IDBDatabase> {
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => {
    request.result.createObjectStore(stores.about, { keyPath: "id" });
    request.result.createObjectStore(stores.contents);
  };
  return answer(request);
}

/** Resolves when everything asked for in the transaction is written for good. */
const done = (transaction: IDBTransaction): Promise<void> =>
  new Promise((resolve, reject) => {
    const fail = (): void => reject(transaction.error ?? new Error("the browser's store is full or closed"));
    transaction.oncomplete = () => resolve();
    transaction.onerror = fail;
    transaction.onabort = fail;
  });

/** The browser's own store, for pages of this address alone. */
export async function browserShelf(name = "kernbook"): Promise<Shelf> {
  const base = await opened(name);
  const both = [stores.about, stores.contents];
  return {
    list: async () =>
      (await answer(base.transaction(stores.about).objectStore(stores.about).getAll())) as readonly KeptBook[],
    contents: async (id) =>
      (await answer(base.transaction(stores.contents).objectStore(stores.contents).get(id))) as Uint8Array | undefined,
    async put(book, contents, seen) {
      const transaction = base.transaction(both, "readwrite", { durability: "strict" });
      const written = done(transaction);
      const about = transaction.objectStore(stores.about);
      const before = (await answer(about.get(book.id))) as KeptBook | undefined;
      const mine = before?.at === seen;
      if (mine) {
        about.put(book);
        transaction.objectStore(stores.contents).put(contents, book.id);
      }
      await written;
      return mine;
    },
    async remove(id) {
      const transaction = base.transaction(both, "readwrite");
      const written = done(transaction);
      for (const store of both) transaction.objectStore(store).delete(id);
      await written;
    },
  };
}
