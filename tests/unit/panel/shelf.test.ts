import { afterEach, describe, expect, it, vi } from "vitest";
import { browserShelf, shutShelf } from "../../../taskpane/workbench/keep/shelf.ts";

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
afterEach(() => vi.unstubAllGlobals());

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

it("where nothing can be kept, whoever asks is told why", async () => {
  const shelf = shutShelf(new Error("the store is shut"));
  await expect(shelf.put(book, new Uint8Array(1), undefined)).rejects.toThrow("the store is shut");
  await expect(shelf.list()).rejects.toThrow("the store is shut");
});
