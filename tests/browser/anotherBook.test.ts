import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { emptySheet, writeBook } from "../../src/hosts/index.ts";
import { openWorkshop, whenReady, type Workshop } from "./browser.ts";

let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

describe("another workbook in the place of the one that is open", () => {
  it("takes what the checker found of the one before away", async () => {
    const { page, errors } = await shop.open();
    page.on("dialog", (dialog) => void dialog.accept());
    await whenReady(page);
    await page.evaluate(async () => {
      const host = window.kernbook!.host!;
      await host.insert("Sheet1", [
        { row: 0, column: 0, value: "fck" },
        { row: 0, column: 1, value: 35 },
        { row: 0, column: 2, value: "MPa" },
        { row: 1, column: 0, value: "fctm" },
        { row: 1, column: 1, formula: "=0.3*B1^(2/3)" },
      ]);
      await host.select({ sheet: "Sheet1", row: 1, column: 1 });
    });
    await page.getByRole("tab", { name: "Check" }).click();
    const panel = page.locator("#kb-view-check");
    const identify = panel.getByRole("button", { name: "Identify the whole sheet" });
    await panel.getByRole("radio", { name: "Identify" }).check({ force: true });
    await identify.click();
    const beside = panel.getByRole("button", { name: /Set the function beside it/ });
    await beside.waitFor({ timeout: 60_000 });
    const file = writeBook({
      sheets: [
        { ...emptySheet, rows: 1, columns: 1, name: "Sheet1", cells: [{ row: 0, column: 0, value: 12, look: {} }] },
      ],
      names: [],
      properties: { creator: "Somebody" },
    });
    await page.getByLabel("Workbook file to open").setInputFiles({
      name: "Loads.xlsx",
      mimeType: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
      buffer: Buffer.from(file),
    });
    await page.getByText("“Loads.xlsx” is open.").waitFor();
    await beside.waitFor({ state: "detached" });
    // The tool that was open stays open, for the workbook that is open now.
    await identify.waitFor();
    expect(errors).toEqual([]);
  });
});
