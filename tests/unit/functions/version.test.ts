import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { worksheetFunctions } from "../../../functions/index.ts";
import { metadata } from "../../../functions/metadata.ts";
import { version } from "../../../src/core/index.ts";

const ofVersion = worksheetFunctions.find(({ id }) => id === "VERSION")!;

describe("KERN.VERSION", () => {
  it("says the version of the package", () => {
    const { version: ofPackage } = JSON.parse(
      readFileSync(new URL("../../../package.json", import.meta.url), "utf8"),
    ) as { readonly version: string };
    expect(version).toBe(ofPackage);
    expect(ofVersion.call([])).toEqual({ value: ofPackage });
  });

  it("is computed anew with every calculation, so that a workbook does not keep an old version", () => {
    expect(metadata().functions.find(({ id }) => id === "VERSION")).toMatchObject({
      parameters: [],
      options: { volatile: true },
    });
  });
});
