import { expect, test } from "vitest";
import type { Mark, Part } from "../../../src/checker/index.ts";
import { doneText } from "../../../taskpane/check/signOff/markWords.ts";
import { readDate, readInitials, readRevisionName, today } from "../../../taskpane/check/signOff/entries.ts";

test("initials are one to five letters, in capitals", () => {
  expect(readInitials(" ab ")).toEqual({ value: "AB" });
  expect(readInitials("Ø")).toEqual({ value: "Ø" });
  expect(readInitials("")).toEqual({ problem: "Initials are missing; allowed: 1 to 5 letters, such as AB." });
  for (const typed of ["ab1", "abcdef", "A B", "=A"])
    expect(readInitials(typed), typed).toEqual({
      problem: `Initials = “${typed}”; allowed: 1 to 5 letters, such as AB.`,
    });
});

test("a date is a day that exists", () => {
  for (const day of ["2026-11-26", "2024-02-29"]) expect(readDate(day)).toEqual({ value: day });
  for (const typed of ["2026-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "26.11.2026", "1899-12-31", "2026-1-1"])
    expect(readDate(typed), typed).toEqual({
      problem: expect.stringContaining(`Date = “${typed}”; allowed:`) as string,
    });
  expect(readDate(" ")).toEqual({ problem: expect.stringMatching(/^The date is missing; allowed:/) as string });
  expect(readDate(today(new Date(2026, 0, 5)))).toEqual({ value: "2026-01-05" });
});

test("a revision has a name that does not stand in the table yet", () => {
  expect(readRevisionName(" P02 ", ["P01"])).toEqual({ value: "P02" });
  expect(readRevisionName("a", ["A"])).toEqual({
    problem: expect.stringMatching(/“a” stands in the table already/) as string,
  });
  for (const typed of ["=A", '"', "a".repeat(13)])
    expect(readRevisionName(typed, []), typed).toEqual({
      problem: expect.stringContaining("allowed: 1 to 12 letters") as string,
    });
});

test("what is said of a mark just put follows the mark", () => {
  const part: Part = {
    kind: "row",
    item: "2.1",
    description: "friction coefficient",
    first: 34,
    last: 34,
    markRow: 34,
    wide: [],
  };
  const marks = (state: Mark["state"]): readonly Mark[] => [
    {
      part: { ...part, kind: "block" },
      by: "CD",
      date: "2026-11-01",
      state: "holds",
      at: { row: 34, column: 11 },
      text: "",
    },
    { part, by: "AB", date: "2026-11-26", state, at: { row: 34, column: 11 }, text: "by hand" },
  ];
  const marked = { what: "marked", part } as const;
  expect(doneText(marked, marks("holds"))).toBe("AB 2026-11-26 stands at row 2.1, friction coefficient.");
  expect(doneText(marked, marks("stale: values changed"))).toBe(
    "At row 2.1, friction coefficient: AB 2026-11-26, values changed since.",
  );
  expect(doneText(marked, marks("stale: formulas changed"))).toMatch(/formulas changed since/);
  expect(doneText(marked, marks("unreadable"))).toMatch(/“by hand”: no mark of Sign off/);
  expect(doneText(marked, [])).toBe("No mark stands at row 2.1, friction coefficient any more.");
  expect(doneText({ what: "taken off", part }, [])).toBe("The mark at row 2.1, friction coefficient is off.");
  expect(doneText({ what: "taken off", part }, marks("holds"))).toMatch(/^AB 2026-11-26 stands/);
});
