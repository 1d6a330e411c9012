import { describe, expect, it } from "vitest";
import { keyRows } from "../../src/checker/report/keyRows.ts";
import type { ReadColumn } from "../../src/checker/report/read.ts";

/** A column as a report reads it, a cell a word; `#…` is an error. */
function column(at: number, words: readonly string[], isVerdict = false): ReadColumn {
  const meaning = {
    id: `c${at}`,
    item: "1.1",
    description: "c",
    symbol: "–",
    unit: "–",
    at: { row: 0, column: at, rows: words.length, columns: 1 },
  };
  return {
    meaning,
    kind: "computed",
    isVerdict,
    cells: words.map((word, row) => ({
      meaning,
      at: { row, column: at },
      content: word.startsWith("#")
        ? { value: null, text: word, error: { code: word, message: "" } }
        : { value: word, text: word },
      mark: "",
    })),
  };
}

const decide = (...rows: readonly number[]) => rows.map((row) => ({ row, column: 0 }));
const verdicts = (fails: readonly number[], of = 20): ReadColumn =>
  column(
    0,
    Array.from({ length: of }, (_, i) => (fails.includes(i) ? "FAIL" : "OK")),
    true,
  );

describe("the rows of a long table that a report shows", () => {
  it("are those that decide, too, where many do not pass", () => {
    expect(keyRows([verdicts([2, 3, 4, 5, 6])], decide(10, 11, 12, 13, 14))).toEqual({
      rows: [2, 3, 4, 5, 6, 10, 11, 12, 13],
      of: 20,
      failingLeftOut: 0,
    });
  });

  it("count as left out only what is not shown", () => {
    const { rows, failingLeftOut } = keyRows([verdicts([1, 2, 3, 4, 5, 6, 7, 8])], decide(8));
    expect(rows).toEqual([1, 2, 3, 4, 5, 6, 8]);
    expect(failingLeftOut).toBe(1);
  });

  it("are those in error where a column of verdicts shows nothing else", () => {
    const words = Array.from({ length: 20 }, (_, i) => (i === 9 ? "#VALUE!" : "–"));
    expect(keyRows([column(0, words, true)], []).rows).toContain(9);
    expect(keyRows([column(0, words)], []).rows).not.toContain(9);
  });

  it("are those that do not pass by a column of verdicts among the numbers", () => {
    const words = Array.from({ length: 20 }, (_, i) => (i === 9 ? "LIMIT MISSING" : "OK"));
    expect(keyRows([column(0, words)], []).rows).toContain(9);
  });

  it("are the ends where nothing else is told", () => {
    expect(keyRows([verdicts([])], []).rows).toEqual([0, 19]);
  });
});
