import { describe, expect, it } from "vitest";
import { kern } from "./kern.ts";

const line = (text: string): readonly (string | null)[] => ["input 1.2: RH", null, text];
const code = (...texts: readonly string[]) => kern("WARNINGS_CODE", texts.map(line));

describe("KERN.WARNINGS_CODE", () => {
  it("counts the warnings and adds letters that no program takes for a date or a number", () => {
    expect(code(" ", " RH is 0.75 %", "")).toEqual({
      value: expect.stringMatching(/^1-[BCDFGHJKLMNPQRSTVWXZ]{5}$/) as string,
    });
    expect(code("a", "b")).toEqual({ value: expect.stringMatching(/^2-/) as string });
  });

  it("is none where nothing is listed", () => expect(code(" ", "")).toEqual({ value: "none" }));

  it("does not change with lines that say nothing", () => expect(code("a", " ", "b")).toEqual(code("a", "b")));

  it.each([[["a"]], [["a", "c"]], [["b", "a"]], [["a", "b", "c"]], [["a", "b."]], [["ab", ""]]])(
    "is another for %j",
    (texts) => expect(code(...texts)).not.toEqual(code("a", "b")),
  );
});
