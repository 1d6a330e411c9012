import { describe, expect, it } from "vitest";
import { kern } from "./kern.ts";

/** Segments of a tendon: length, angle changes, friction and wobble, the last two far above what is usual. */
const unusual = (rows: number) =>
  Array.from({ length: rows }, (_, i) => [0.05 + i / 1e4, 0.001, 0.001, 0.9 + i / 1e4, 0.04 + i / 1e5]);
const warned = (rows: number): string => {
  const result = kern("WARNINGS", "TENDON_STRESS_FRICTION", unusual(rows), null, null, "1/m", "LEFT", 1395, 1);
  if (!("value" in result)) throw new Error(JSON.stringify(result));
  return String(result.value);
};

describe("warnings of a range of 300 unusual rows", () => {
  const text = warned(300);
  it("fit a cell of the spreadsheet program, 32,767 characters", () => expect(text.length).toBeLessThan(32_767));
  it("say each thing once, with a row and how many more there are", () => {
    expect(text).toMatch(/μ .* in row 1 = 0\.9 .* \(and 299 more rows, up to row 300\)/);
    expect(text.match(/in row \d+/g)!.length).toBeLessThan(6);
  });
});
