import { describe, expect, it } from "vitest";
import { sealOfValues } from "../../../src/core/index.ts";
import { kern } from "./kern.ts";

const row = [["mean stress", 12.5, "MPa", null, "OK"]] as const;
const seal = sealOfValues([row]);
const checked = (...ranges: readonly unknown[]) =>
  kern(
    "CHECKED",
    "AB",
    "2026-11-26",
    seal,
    ...(ranges as readonly (readonly (readonly (string | number | boolean | null)[])[])[]),
  );
const holds = { value: "AB 2026-11-26" };
const staleNow = { value: "STALE: AB 2026-11-26" };
const message = (text: RegExp) => ({ error: { code: "#VALUE!", message: expect.stringMatching(text) as string } });

describe("KERN.CHECKED", () => {
  it("says whose mark it is while the cells hold what they held", () => {
    expect(checked(row)).toEqual(holds);
    expect(kern("CHECKED", [["AB"]], [["2026-11-26"]], `${seal}.0123456789abcdef`, row)).toEqual(holds);
  });

  it("takes the day as the number that some programs make of it", () => {
    expect(kern("CHECKED", "AB", 46352, seal, row)).toEqual(holds);
  });

  it.each([
    ["a number", [["mean stress", 12.51, "MPa", null, "OK"]]],
    ["a label", [["stress", 12.5, "MPa", null, "OK"]]],
    ["a verdict", [["mean stress", 12.5, "MPa", null, "FAIL"]]],
    ["a number typed as text", [["mean stress", "12.5", "MPa", null, "OK"]]],
    ["a value that moved to the next cell", [["mean stress", 12.5, null, "MPa", "OK"]]],
    ["something in an empty cell", [["mean stress", 12.5, "MPa", 1, "OK"]]],
    ["a cell emptied", [["mean stress", 12.5, "MPa", null, null]]],
    ["a row more that holds something", [...row, ["", 1, "", "", ""]]],
    ["the same as truth value", [["mean stress", 12.5, "MPa", null, true]]],
  ])("says STALE once they hold something else: %s", (_, now) => {
    expect(checked(now)).toEqual(staleNow);
  });

  it("keeps ranges apart, and their order", () => {
    const two = sealOfValues([[[1]], [[2]]]);
    expect(kern("CHECKED", "AB", "2026-11-26", two, [[1]], [[2]])).toEqual(holds);
    for (const other of [[[[2]], [[1]]], [[[1], [2]]], [[[1, 2]]]])
      expect(kern("CHECKED", "AB", "2026-11-26", two, ...other)).toEqual(staleNow);
  });

  it("takes empty cells as hosts give them, some as 0, and empty rows inserted among the others, for nothing", () => {
    for (const blank of [null, undefined, "", 0])
      expect(checked([["mean stress", 12.5, "MPa", blank, "OK"]])).toEqual(holds);
    expect(checked([["", null, "", null, ""], ...row, [null, null, null, null, null]])).toEqual(holds);
  });

  it("counts ten significant digits, and nothing below 1e-11, since hosts differ in the last bits", () => {
    expect(checked([["mean stress", 12.5 * (1 + 1e-14), "MPa", null, "OK"]])).toEqual(holds);
    expect(checked([["mean stress", 12.5 * (1 + 1e-8), "MPa", null, "OK"]])).toEqual(staleNow);
    expect(sealOfValues([[[1.4e-15]]])).toBe(sealOfValues([[[0]]]));
    expect(sealOfValues([[[-0]]])).toBe(sealOfValues([[[0]]]));
    expect(sealOfValues([[[2e-11]]])).not.toBe(sealOfValues([[[0]]]));
  });

  it("refuses what is no mark, by name", () => {
    expect(kern("CHECKED")).toEqual(message(/^by is missing/));
    expect(kern("CHECKED", "  ", "2026-11-26", seal, row)).toEqual(message(/^by holds spaces only/));
    expect(kern("CHECKED", "A".repeat(21), "2026-11-26", seal, row)).toEqual(
      message(/21 characters; allowed: at most 20/),
    );
    for (const day of ["2026-13-01", "2026-02-30", "26.11.2026", "today"])
      expect(kern("CHECKED", "AB", day, seal, row), day).toEqual(message(new RegExp(`^date = “${day}” is no day`)));
    expect(kern("CHECKED", "AB", 46352.5, seal, row)).toEqual(message(/^date is a number; a text is needed/));
    expect(kern("CHECKED", [["A", "B"]], "2026-11-26", seal, row)).toEqual(message(/^by is a range of several cells/));
    expect(kern("CHECKED", "AB", "2026-11-26", "a seal", row)).toEqual(
      message(/^seal = “a seal” is none of the panel's seals/),
    );
    expect(kern("CHECKED", "AB", "2026-11-26", seal)).toEqual(message(/^cells .* are missing/));
  });
});
