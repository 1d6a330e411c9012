import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import {
  cellWhen,
  clickCell,
  openWorkshop,
  readCell,
  seriousProblems,
  sharedPage,
  typeInCell,
  whenReady,
  type Workshop,
} from "./browser.ts";

/** An empty sheet of the user's own beside the demonstration. */
const own = "Sheet1";

async function openInsert(page: Page, query: string, at = "B3"): Promise<void> {
  await clickCell(page, own, at);
  await page.getByRole("tab", { name: "Insert" }).click();
  const all = page.getByRole("button", { name: "All functions" });
  if (await all.isVisible()) await all.click();
  await page.getByRole("combobox", { name: /Find a function/ }).fill(query);
  await page.keyboard.press("Enter");
}

describe("inserting a function into a sheet of one's own", () => {
  let shop: Workshop;
  beforeAll(async () => {
    shop = await openWorkshop();
  });
  afterAll(() => shop?.close());
  const shared = sharedPage(() => shop);

  it("never writes over a filled cell", async () => {
    const { page } = await shared();
    await typeInCell(page, own, "L6", "mine");
    await openInsert(page, "friction_stress", "J3");
    await page.getByText("1 of these cells is filled").waitFor();
    await page.getByRole("button", { name: "Insert the block" }).click();
    expect(await page.getByRole("alert").textContent()).toMatch(/L6 of “Sheet1” is not empty; nothing was written/);
    expect(await readCell(page, own, "L6")).toMatchObject({ value: "mine" });
    expect(await readCell(page, own, "J4")).toMatchObject({ value: null });
  });

  it("is undone in one step", async () => {
    const { page } = await shared();
    await openInsert(page, "friction_stress");
    await page.getByRole("button", { name: "Insert the block" }).click();
    await page.getByText(/Inserted in/).waitFor();
    expect((await readCell(page, own, "B4")).value).not.toBeNull();
    await clickCell(page, own, "H20");
    await page.keyboard.press("Control+z");
    await cellWhen(page, own, "B4", (cell) => cell.value === null);
    for (const address of ["B3", "C5", "D10", "F10"])
      expect(await readCell(page, own, address), address).toMatchObject({ value: null });
    expect((await readCell(page, own, "D10")).formula).toBeUndefined();
  });

  it("puts a labelled block at the selected cell, computes when it is filled, and goes away in one step", async () => {
    const { page, errors } = await shared();
    await openInsert(page, "friction_stress");
    await page.getByText("All of these cells are empty.").waitFor();
    await page.getByRole("button", { name: "Insert the block" }).click();
    await page.getByText(/Inserted in Sheet1!B3:F10/).waitFor();
    const values = { D4: 0.3, D5: 0.2, D6: 0.003, D7: "1/m", D8: 1395, D9: 12 };
    await page.evaluate(async (all) => {
      for (const [row, value] of Object.values(all).entries())
        await window.kernbook!.host!.enter({ sheet: "Sheet1", row: row + 3, column: 3 }, value);
    }, values);
    // 1395 · e^(−0.2·0.3 − 0.003·12), worked with a pocket calculator.
    expect((await cellWhen(page, own, "D10", (cell) => typeof cell.value === "number")).value).toBeCloseTo(1267.307, 2);
    await page.evaluate(() => window.kernbook!.host!.select({ sheet: "Sheet1", row: 20, column: 0 }));
    expect(errors).toEqual([]);
  });

  it("wires the formula to cells picked one by one, and warns of an empty one", async () => {
    const { page } = await shared();
    for (const [address, text] of [
      ["O3", "900"],
      ["O4", "1400"],
    ] as const)
      await typeInCell(page, own, address, text);
    await openInsert(page, "tendon_force", "O6");
    await page.getByLabel("wired to cells").click();
    const take = (what: RegExp) => page.getByRole("button", { name: what });
    await clickCell(page, own, "Q5");
    await page.getByRole("button", { name: /Put the result in/ }).click();
    await page.getByText("goes to Sheet1!Q5").waitFor();
    await clickCell(page, own, "O4");
    await take(/^Take .* for tendon stress/).click();
    await page.getByText("It holds 1400.").waitFor();
    await clickCell(page, own, "P9");
    await take(/^Take .* for area of the prestressing/).click();
    await page.getByText("Look again: it is empty now.").waitFor();
    await clickCell(page, own, "O3");
    await take(/^Take .* for area of the prestressing/).click();
    await page.getByText("=KERN.TENDON_FORCE(O3,O4)").waitFor();
    await page.getByRole("button", { name: "Insert the formula" }).click();
    await page.getByText(/Q5 shows 1260/).waitFor();
    expect(await readCell(page, own, "Q5")).toMatchObject({ value: 1260, formula: "=KERN.TENDON_FORCE(O3,O4)" });
    await page.getByRole("button", { name: "Trace Q5" }).click();
    await page.getByRole("article", { name: "KERN.TENDON_FORCE" }).waitFor();
  });

  it.each(["light", "dark"] as const)(
    "has no serious accessibility problem in list, block and wiring in the %s theme",
    async (theme) => {
      const { page } = await shop.open({ theme });
      await whenReady(page);
      await page.getByRole("tab", { name: "Insert" }).click();
      expect(await seriousProblems(page, "#panel")).toEqual([]);
      await page.getByRole("combobox").fill("transmission length");
      await page.keyboard.press("Enter");
      expect(await seriousProblems(page, "#panel")).toEqual([]);
      await page.getByLabel("wired to cells").click();
      expect(await seriousProblems(page, "#panel")).toEqual([]);
      await page.context().close();
    },
  );
});
