import { describe, expect, it } from "vitest";
import { kern } from "./kern.ts";

describe("KERN.INPUT_WARNINGS", () => {
  it("says the same value in several rows once, with its rows", () => {
    const told = kern("INPUT_WARNINGS", "relativeHumidity", [[0.75], [80], [0.75], [0.7]]);
    expect(told).toEqual({ value: expect.stringMatching(/ in rows 1, 3 = 0\.75 %.*; .* in row 4 = 0\.7 %/) as string });
  });

  // A web may begin at the soffit; 0.2 mm is a length in m.
  it("takes a web that begins at the soffit as usual", () => {
    expect(kern("INPUT_WARNINGS", "webEnd", 0)).toEqual({ value: "" });
    expect(kern("INPUT_WARNINGS", "webEnd", 0.2)).not.toEqual({ value: "" });
  });
});
