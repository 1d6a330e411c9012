import { afterEach, describe, expect, it, vi } from "vitest";
import { Keeping } from "../../../taskpane/workbench/keep/keeping.ts";
import { browserShelf, shutShelf, type Shelf } from "../../../taskpane/workbench/keep/shelf.ts";

const patience = { open: 30, answer: 30 };
const late = "the browser's store has not answered within 0.03 s";
const book = { id: "a", name: "Beam", at: 1, saved: true, notUnderstood: [], foreign: false };

interface Asked<T> {
  result?: T;
  onsuccess?: () => void;
  onerror?: () => void;
}

/** A store that opens and answers to nothing, as one does behind a damaged disk. */
function silentStore() {
  const aborted: unknown[] = [];
  const closed: string[] = [];
  const nothing = (): Asked<never> => ({});
  const transaction = {
    objectStore: () => ({ get: nothing, getAll: nothing, put: nothing, delete: nothing }),
    abort: () => aborted.push(true),
  };
  const base = { transaction: () => transaction, close: () => closed.push("closed") };
  const opening: Asked<typeof base> = {};
  vi.stubGlobal("indexedDB", { open: () => opening });
  return { aborted, closed, opens: () => ((opening.result = base), opening.onsuccess?.()) };
}

/** A store that answers, but ends a transaction only when told to, and until then cannot abort it either. */
function slowStore() {
  const aborted: unknown[] = [];
  const answered = (): Asked<undefined> => {
    const asked: Asked<undefined> = {};
    queueMicrotask(() => asked.onsuccess?.());
    return asked;
  };
  const transaction: { oncomplete?: () => void; [name: string]: unknown } = {
    objectStore: () => ({ get: answered, getAll: answered, put: answered, delete: answered }),
    abort: () => {
      aborted.push(true);
      throw new DOMException("the transaction is committing", "InvalidStateError");
    },
  };
  const base = {
    transaction: (): typeof transaction => transaction,
    close: () => undefined,
  };
  const opening: Asked<typeof base> = {};
  vi.stubGlobal("indexedDB", { open: () => (queueMicrotask(() => opening.onsuccess?.()), opening) });
  opening.result = base;
  return { aborted, base, ends: () => transaction.oncomplete?.() };
}

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe("a browser's store that does not answer", () => {
  it("is given up while it opens, and closed should it open later", async () => {
    const { closed, opens } = silentStore();
    await expect(browserShelf("test", patience)).rejects.toThrow(late);
    opens();
    expect(closed).toEqual(["closed"]);
  });

  it.each(["list", "contents", "put", "remove"] as const)(
    "is given up when asked to %s, and writes nothing",
    async (what) => {
      const { aborted, opens } = silentStore();
      const opened = browserShelf("test", patience);
      opens();
      const shelf = await opened;
      const asked = {
        list: () => shelf.list(),
        contents: () => shelf.contents("a"),
        put: () => shelf.put(book, new Uint8Array(1), undefined),
        remove: () => shelf.remove("a"),
      };
      await expect(asked[what]()).rejects.toThrow(late);
      expect(aborted).toEqual([true]);
    },
  );
});

describe("a browser's store that is slow", () => {
  it("is waited for where the time is over while it writes for good: what it wrote is known as written", async () => {
    const { aborted, ends } = slowStore();
    const shelf = await browserShelf("test", patience);
    const put = shelf.put(book, new Uint8Array(1), undefined);
    const rejected = vi.fn();
    put.catch(rejected);
    await vi.waitFor(() => expect(aborted).toEqual([true]));
    expect(rejected).not.toHaveBeenCalled();
    ends();
    expect(await put).toBe(true);
  });

  it("that is closed says why to whoever asks", async () => {
    const { base } = slowStore();
    const shelf = await browserShelf("test", patience);
    base.transaction = () => {
      throw new Error("the connection is closing");
    };
    const asked = shelf.list();
    await expect(asked).rejects.toThrow("the connection is closing");
  });
});

describe("a workbook that the store did not take in time", () => {
  /** A page whose store fails so many times, with a change that it could not keep. */
  async function failed(times: number) {
    vi.useFakeTimers({ now: 1_000_000 });
    const kept: string[] = [];
    let tries = 0;
    const shelf: Shelf = {
      ...shutShelf("not asked"),
      put: ({ id }) => {
        if (tries++ < times) return Promise.reject(new Error(late));
        kept.push(id);
        return Promise.resolve(true);
      },
    };
    const parts = { shelf, contents: () => Promise.resolve(new Uint8Array(1)), newId: () => "b", now: Date.now };
    const keeping = new Keeping({ ...parts, told: () => undefined, pause: 2_000, longest: 10_000 }, book);
    keeping.changed();
    await vi.advanceTimersByTimeAsync(2_000);
    expect([tries, keeping.waiting]).toEqual([1, true]);
    return { keeping, kept, tried: () => tries };
  }

  it("is tried again after the longest interval, until it is kept", async () => {
    const { keeping, kept, tried } = await failed(2);
    await vi.advanceTimersByTimeAsync(9_999);
    expect(tried()).toBe(1);
    await vi.advanceTimersByTimeAsync(1);
    expect([tried(), kept]).toEqual([2, []]);
    await vi.advanceTimersByTimeAsync(60_000);
    expect([tried(), kept, keeping.waiting]).toEqual([3, ["a"], false]);
  });

  it("is not tried again once another workbook is open", async () => {
    const { keeping, kept, tried } = await failed(1);
    keeping.opened({ ...book, id: "other" });
    await vi.advanceTimersByTimeAsync(60_000);
    expect([tried(), kept]).toEqual([1, []]);
  });
});

it("where nothing can be kept, whoever asks is told why", async () => {
  const shelf = shutShelf(new Error("the store is shut"));
  await expect(shelf.put(book, new Uint8Array(1), undefined)).rejects.toThrow("the store is shut");
  await expect(shelf.list()).rejects.toThrow("the store is shut");
});
