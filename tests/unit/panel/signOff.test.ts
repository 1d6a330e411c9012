import { expect, test } from "vitest";
import { readDate, readInitials, readRevisionName, today } from "../../../taskpane/check/signOff/entries.ts";

test("initials are one to five letters, in capitals", () => {
  expect(readInitials(" ab ")).toEqual({ value: "AB" });
  expect(readInitials("Ø")).toEqual({ value: "Ø" });
  expect(readInitials("")).toEqual({ problem: "Initials are missing; allowed: 1 to 5 letters, such as AB." });
  for (const typed of ["ab1", "abcdef", "A B", "=A"]) expect(readInitials(typed), typed).toEqual({ problem: `Initials = “${typed}”; allowed: 1 to 5 letters, such as AB.` });
});

test("a date is a day that exists", () => {
  for (const day of ["2026-11-26", "2024-02-29"]) expect(readDate(day)).toEqual({ value: day });
  for (const typed of ["2026-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "26.11.2026", "1899-12-31", "2026-1-1"]) expect(readDate(typed), typed).toEqual({ problem: expect.stringContaining(`Date = “${typed}”; allowed:`) as string });
  expect(readDate(" ")).toEqual({ problem: expect.stringMatching(/^The date is missing; allowed:/) as string });
  expect(readDate(today(new Date(2026, 0, 5)))).toEqual({ value: "2026-01-05" });
});

test("a revision has a name that does not stand in the table yet", () => {
  expect(readRevisionName(" P02 ", ["P01"])).toEqual({ value: "P02" });
  expect(readRevisionName("a", ["A"])).toEqual({ problem: expect.stringMatching(/“a” stands in the table already/) as string });
  for (const typed of ["=A", "\"", "a".repeat(13)]) expect(readRevisionName(typed, []), typed).toEqual({ problem: expect.stringContaining("allowed: 1 to 12 letters") as string });
});
