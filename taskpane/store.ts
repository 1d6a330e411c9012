/** How long the browser's store may take to open, and for each thing asked of it, in milliseconds. */
export interface Patience {
  readonly open: number;
  readonly answer: number;
}
export const patience: Patience = { open: 8_000, answer: 20_000 };

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

/** The result of a request to the store. */
export const answer = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("the browser's store did not answer"));
  });

function opened(name: string, stores: Stores, limit: number): Promise<IDBDatabase> {
  const request = indexedDB.open(name, 1);
  request.onupgradeneeded = () => {
    for (const [store, keyPath] of Object.entries(stores))
      request.result.createObjectStore(store, keyPath === undefined ? {} : { keyPath });
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

/** The parts of a store by name, each with the property that is its key; undefined where the key is given beside. */
export type Stores = Readonly<Record<string, string | undefined>>;

/** Does some work with all parts of a store as one: all of it is written for good, or nothing. */
export type Transacted = <T>(
  mode: "readonly" | "readwrite",
  work: (transaction: IDBTransaction) => Promise<T>,
) => Promise<T>;

/**
 * The browser's own store of that name, for pages of this address alone. Where it does not answer in time, whoever asked
 * is told so, and nothing of what was asked is written; what is being written for good by then is awaited.
 */
export async function openStore(
  name: string,
  stores: Stores,
  { open, answer: limit }: Patience = patience,
): Promise<Transacted> {
  const base = await opened(name, stores, open);
  return async (mode, work) => {
    const transaction = base.transaction(
      Object.keys(stores),
      mode,
      mode === "readwrite" ? { durability: "strict" } : {},
    );
    const written = done(transaction);
    const all = Promise.all([work(transaction), written]).then(([result]) => result);
    return await within(all, limit, () => transaction.abort());
  };
}
