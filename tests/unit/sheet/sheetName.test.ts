import { describe, expect, it } from "vitest";
import { faultOfSheetName, freeSheetName } from "../../../src/sheet/index.ts";

describe("names of sheets", () => {
  it.each(["a\tb", "a\nb", "a\r\nb", "a\u0000b", "a\u0007b", "a\u2028b", "a\ufffeb", "a\ud83d"])(
    "with characters nobody sees are refused in words: %j",
    (name) => {
      expect(faultOfSheetName(name)).toMatch(/can't be seen/);
      expect(faultOfSheetName(name)).not.toContain(name);
    },
  );
  it.each(["Beam", "a b", "Träger 2", "梁", "a \u{1F600}"])("that programs take are not refused: %j", (name) => {
    expect(faultOfSheetName(name)).toBeUndefined();
  });
  it("are cut between characters, never within one", () => {
    const made = freeSheetName(`${"x".repeat(30)}\u{1F600}`, []);
    expect(made).toBe("x".repeat(30));
    expect(freeSheetName("Post-tensioned beam (form of 1980)", [])).toBe("Post-tensioned beam");
    expect(freeSheetName(`Beam ${"(x) ".repeat(9)}`, ["Beam (1)"])).toBe("Beam (x) (x) (x) (x) (x) (x)");
    expect(freeSheetName(`(${"x".repeat(40)})`, [])).toBe(`(${"x".repeat(30)}`);
    expect(faultOfSheetName(freeSheetName(`a\tb${"\u{1F600}".repeat(20)}`, []))).toBeUndefined();
  });
});
