/** A verdict is green in the panel once nothing that it rests on is assumed. The rule is the project's own. */
import { describe, expect, test } from "vitest";
import { columns, unconfirmedText } from "../../../src/sheet/index.ts";
import { toneOf, unconfirmedOn } from "../../../taskpane/verdict.ts";

describe("a verdict in the panel", () => {
  test.each([
    ["OK", 0, "kb-tag-good"],
    ["OK", 62, "kb-tag-open"],
    ["FAIL", 62, "kb-tag-bad"],
    ["INPUT MISSING", 0, "kb-tag-open"],
  ] as const)("%s with %i assumptions", (verdict, unconfirmed, tone) => {
    expect(toneOf(verdict, unconfirmed)).toBe(tone);
  });

  test("says how many are open", () => {
    expect([0, 1, 62].map(unconfirmedText)).toEqual(["", "1 assumption not confirmed", "62 assumptions not confirmed"]);
  });

  test("counts what is assumed or proposed on the sheet and on the one it is linked to", async () => {
    const marks: Readonly<Record<string, readonly string[]>> = {
      Beam: ["", "assumed", "AB 3 May", "proposed"],
      Domain: ["assumed", ""],
    };
    const cell = (text: string) => ({ text, value: text });
    const host = {
      used: (sheet: string) => Promise.resolve({ row: 0, column: 0, rows: marks[sheet]!.length, columns: 16 }),
      read: (sheet: string, area: { readonly column: number; readonly rows: number }) => {
        expect(area).toMatchObject({ column: columns.mark, rows: marks[sheet]!.length });
        return Promise.resolve(marks[sheet]!.map((text) => [cell(text)]));
      },
    };
    expect(await unconfirmedOn(host, ["Beam"])).toBe(2);
    expect(await unconfirmedOn(host, ["Domain", "Beam"])).toBe(3);
  });
});
