import { describe, expect, it } from "vitest";
import { sharedOut } from "../../src/checker/identify/threads.ts";

const formulas = (count: number, formulaOf: (row: number) => string) =>
  Array.from({ length: count }, (_, row) => ({
    place: { sheet: "Sheet1", row, column: 1 },
    formula: formulaOf(row),
  }));

describe("formulas shared out among threads", () => {
  it("keep together what is filled down", () => {
    const filled = formulas(400, (row) => `=A${row + 1}*2`);
    expect(sharedOut(filled, 8)).toEqual([filled.map(({ place }) => place)]);
  });

  it("each go to one thread, and no thread has much more than another", () => {
    const unlike = formulas(400, (row) => `=A${row + 1}*${row + 2}`);
    const shares = sharedOut(unlike, 8);
    expect(shares.map((share) => share.length)).toEqual([100, 100, 100, 100]);
    const rows = shares.flat().map(({ row }) => row);
    expect(rows.sort((a, b) => a - b)).toEqual(unlike.map(({ place }) => place.row));
  });

  it("stay in one thread where there is one core, or little to do", () => {
    const unlike = formulas(400, (row) => `=A${row + 1}*${row + 2}`);
    expect(sharedOut(unlike, 1)).toHaveLength(1);
    expect(sharedOut(unlike.slice(0, 20), 8)).toHaveLength(1);
    expect(sharedOut([], 8)).toEqual([[]]);
  });
});
