/** What the quick start says of a number that it cannot take. */
import { expect, test } from "vitest";
import { refusal } from "../../../taskpane/build/quickForm.tsx";

test.each([
  ["12,5", false, "Span = “12,5” has a decimal comma; type 12.5 with a decimal point."],
  ["-3", true, "Span = -3 is not allowed; a number 0 or more is needed."],
  ["0", false, "Span = 0 is not allowed; a number above 0 is needed."],
  ["long", false, "Span = “long” is not a number; a number above 0 is needed, with a decimal point."],
] as const)("%s", (answer, allowsZero, says) => {
  expect(refusal("Span", answer, allowsZero)).toBe(says);
});
