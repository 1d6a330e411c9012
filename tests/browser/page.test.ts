import { existsSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { dist } from "../../src/command/build.ts";
import {
  cellWhen,
  clickCell,
  openWorkshop,
  placeOf,
  seriousProblems,
  sharedPage,
  typeInCell,
  type Workshop,
} from "./browser.ts";

describe("the workbench page", () => {
  let shop: Workshop;
  beforeAll(async () => {
    if (!existsSync(join(dist, "index.html"))) throw new Error("the pages are not built: npm run build");
    shop = await openWorkshop();
  });
  afterAll(() => shop?.close());
  const shared = sharedPage(() => shop);
  const dark = sharedPage(() => shop, { theme: "dark" });

  it("opens without an error and asks no other server for anything", async () => {
    const { errors, external } = await shared();
    expect(errors).toEqual([]);
    expect(external).toEqual([]);
  });

  it("takes clicks and typing on the grid", async () => {
    const { page } = await shared();
    const sheet = (await page.evaluate(() => window.kernbook!.host!.sheetNames()))[0]!;
    await clickCell(page, sheet, "B3");
    expect(await page.evaluate(() => window.kernbook!.host!.selection())).toEqual({
      sheet,
      ...placeOf("B3"),
      rows: 1,
      columns: 1,
    });
    await typeInCell(page, sheet, "C4", '=KERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m",1395,12)');
    // 1395 · e^(−0.2·0.3 − 0.003·12), worked with a pocket calculator.
    const { value } = await cellWhen(page, sheet, "C4", (cell) => typeof cell.value === "number");
    expect(value).toBeCloseTo(1267.307, 2);
  });

  it("does not stand still when a long text is put into a cell that is being edited", async () => {
    const { page } = await shared();
    const sheet = (await page.evaluate(() => window.kernbook!.host!.sheetNames()))[0]!;
    await clickCell(page, sheet, "C6");
    await page.keyboard.press("F2");
    await page.waitForTimeout(500);
    await page.keyboard.insertText("x".repeat(33_000));
    await page.getByText("A text of 33,000 characters was not put into the cell", { exact: false }).waitFor();
    await page.keyboard.type("short");
    await page.keyboard.press("Enter");
    expect((await cellWhen(page, sheet, "C6", ({ value }) => value !== null)).value).toBe("short");
  });

  it.each(["light", "dark"] as const)(
    "has no serious accessibility problem outside the grid itself in the %s theme",
    async (theme) => {
      const { page } = await (theme === "light" ? shared() : dark());
      // Inside #sheet stand the controls of the grid library, which we cannot change.
      expect(await seriousProblems(page, "body", ["#sheet"])).toEqual([]);
    },
  );
});

describe("cell addresses", () => {
  it("count from 0", () => {
    expect(placeOf("A1")).toEqual({ row: 0, column: 0 });
    expect(placeOf("AB12")).toEqual({ row: 11, column: 27 });
    expect(() => placeOf("12")).toThrow("no cell address");
  });
});
