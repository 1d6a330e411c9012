import { describe, expect, it } from "vitest";
import { builtSheet } from "./builtSheet.ts";

/** What people name a place by: no two blocks of a sheet may have one number. */
describe.each([
  "pre-tensioned-en1992-2004",
  "choosing-is1343-1980",
  // Grouting and the revisions both stand behind its configuration.
  "stressing-record-post-tensioned-en1992-2004",
])("%s", (id) => {
  it("numbers its blocks once each, in the order of the print", () => {
    const { plan } = builtSheet(id);
    const numbers = plan.cells
      .filter(({ role, value, row }) => role === "block" && Number(value) > 0 && row < plan.print.area.rows)
      .map(({ row, value }) => [row, Number(value)] as const)
      .sort(([a], [b]) => a - b)
      .map(([, value]) => value);
    expect(numbers.length).toBeGreaterThan(3);
    expect([...new Set(numbers)].sort((a, b) => a - b)).toEqual(numbers);
  });
});
