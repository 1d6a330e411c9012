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

/** How long the browser's store may take to open, and for each thing asked of it, in milliseconds. */
export interface Patience {
  readonly open: number;
  readonly answer: number;
}
const patience: Patience = { open: 8_000, answer: 20_000 };

/** What is being written for good already is not given up any more. */
const isBeyondAbort = (error: unknown): boolean => error instanceof DOMException && error.name === "InvalidStateError";

/**
 * What was asked of the store, or an error once it has taken too long; `giveUp` is called then. Where nothing can be
 * given up any more, what comes of it is awaited, however long it takes.
 */
function within<T>(work: Promise<T>, limit: number, giveUp: () => void): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => {
      const late = new Error(`the browser's store has not answered within ${limit / 1000} s`);
      try {
        giveUp();
        reject(late);
      } catch (error) {
        if (!isBeyondAbort(error)) reject(late);
      }
    }, limit);
    work.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

const stores = { about: "about", contents: "contents" } as const;

const answer = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("the browser's store did not answer"));
  });

function opened(name: string, limit: number): Promise<IDBDatabase> {
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => {
    request.result.createObjectStore(stores.about, { keyPath: "id" });
    request.result.createObjectStore(stores.contents);
  };
  return within(answer(request), limit, () => {
    // What opens too late is used by nobody.
    request.onsuccess = () => request.result.close();
  });
}

/** Resolves when everything asked for in the transaction is written for good. */
const done = (transaction: IDBTransaction): Promise<void> =>
  new Promise((resolve, reject) => {
    const fail = (): void => reject(transaction.error ?? new Error("the browser's store is full or closed"));
    transaction.oncomplete = () => resolve();
    transaction.onerror = fail;
    transaction.onabort = fail;
  });

/**
 * The browser's own store, for pages of this address alone. Where it does not answer in time, whoever asked is told so,
 * and nothing of what was asked is written; what is being written for good by then is awaited.
 */
export async function browserShelf(name = "kernbook", { open, answer: limit }: Patience = patience): Promise<Shelf> {
  const base = await opened(name, open);
  const both = [stores.about, stores.contents];
  const transacted = async <T>(
    mode: IDBTransactionMode,
    work: (transaction: IDBTransaction) => Promise<T>,
  ): Promise<T> => {
    const transaction = base.transaction(both, mode, mode === "readwrite" ? { durability: "strict" } : {});
    const written = done(transaction);
    const all = Promise.all([work(transaction), written]).then(([result]) => result);
    return await within(all, limit, () => transaction.abort());
  };
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
        for (const store of both) transaction.objectStore(store).delete(id);
        await Promise.resolve();
      }),
  };
}
