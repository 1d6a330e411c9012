import { describe, expect, it } from "vitest";
import { SheetLeft } from "../../../src/hosts/index.ts";
import { isLeft, namesWith, notBuilt } from "../../../taskpane/build/outcome.ts";

describe("what a build has come to", () => {
  it("tells a sheet that could not be removed from one of which nothing is left", () => {
    expect(isLeft(new SheetLeft([], "“Beam” could not be completed, nor could it be removed"))).toBe(true);
    expect(isLeft(new Error("no more paper"))).toBe(false);
    expect(isLeft("SheetLeft")).toBe(false);
  });

  it("says what is left in the workbook, after a failure, after Cancel, and where it could not be removed", () => {
    const said = (error: unknown) => notBuilt("The stress check", "Choice is as it was", error);
    expect(said(new SheetLeft([], "“Beam” could not be removed: delete it by hand."))).toBe(
      "The stress check was not built, and part of it is still in the workbook; Choice is as it was. " +
        "What to do: “Beam” could not be removed: delete it by hand.",
    );
    expect(said(new DOMException("aborted", "AbortError"))).toBe(
      "Building was cancelled. No sheet was left in the workbook; Choice is as it was.",
    );
    expect(said(new Error("no more paper"))).toBe(
      "The stress check was not built and nothing was left in the workbook; Choice is as it was. no more paper",
    );
  });

  it("is a finished sheet, also where the workbook's sheets can't be listed afterwards", async () => {
    const listed = { sheetNames: () => Promise.resolve(["Sheet1", "Beam", "Slab"]) };
    const failing = { sheetNames: () => Promise.reject(new Error("the program is busy")) };
    expect(await namesWith(listed, ["Sheet1"], "Beam")).toEqual(["Sheet1", "Beam", "Slab"]);
    expect(await namesWith(failing, ["Sheet1"], "Beam")).toEqual(["Sheet1", "Beam"]);
  });
});
