import { describe, expect, it } from "vitest";
import { SheetLeft } from "../../../src/hosts/index.ts";
import { isLeft, namesWith } from "../../../taskpane/build/outcome.ts";

describe("what a build has come to", () => {
  it("tells a sheet that could not be removed from one of which nothing is left", () => {
    expect(isLeft(new SheetLeft([], "“Beam” could not be completed, nor could it be removed"))).toBe(true);
    expect(isLeft(new Error("no more paper"))).toBe(false);
    expect(isLeft("SheetLeft")).toBe(false);
  });

  it("is a finished sheet, also where the workbook's sheets can't be listed afterwards", async () => {
    const listed = { sheetNames: () => Promise.resolve(["Sheet1", "Beam", "Slab"]) };
    const failing = { sheetNames: () => Promise.reject(new Error("the program is busy")) };
    expect(await namesWith(listed, ["Sheet1"], "Beam")).toEqual(["Sheet1", "Beam", "Slab"]);
    expect(await namesWith(failing, ["Sheet1"], "Beam")).toEqual(["Sheet1", "Beam"]);
  });
});
