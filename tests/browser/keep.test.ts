import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import { emptySheet, openWorkbook, writeBook } from "../../src/hosts/index.ts";
import {
  cellWhen,
  openWorkshop,
  readCell,
  seriousProblems,
  sharedPage,
  typeInCell,
  whenReady,
  type Workshop,
} from "./browser.ts";

const sheet = "Alder Quay footbridge beam";
let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });
const kept = (page: Page) => page.getByText(/Kept in this browser, /).waitFor();
const sheets = (page: Page) => page.evaluate(() => window.kernbook!.host!.sheetNames());

/** A file that another program could have made. */
const foreign = Buffer.from(
  writeBook({
    sheets: [
      {
        ...emptySheet,
        rows: 1,
        columns: 3,
        name: "Loads",
        cells: [
          { row: 0, column: 0, value: 12, look: {} },
          { row: 0, column: 1, value: 24, formula: "=A1*2", look: {} },
          { row: 0, column: 2, value: "=A1", look: {} },
        ],
      },
    ],
    names: [],
    properties: { creator: "Somebody" },
  }),
);
const type = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

/** Saves by whatever `act` does, and gives the file with its name. */
async function downloaded(
  page: Page,
  act: () => Promise<void>,
): Promise<{ readonly name: string; readonly bytes: Uint8Array }> {
  const [download] = await Promise.all([page.waitForEvent("download"), act()]);
  return { name: download.suggestedFilename(), bytes: new Uint8Array(readFileSync(await download.path())) };
}

describe("the workbench keeps work", () => {
  const shared = sharedPage(() => shop);

  it("saves by Ctrl+S what stands in the grid, under the workbook's name", async () => {
    const { page } = await shared();
    page.on("dialog", (dialog) => void dialog.accept());
    await typeInCell(page, "Sheet1", "B3", "17");
    await cellWhen(page, "Sheet1", "B3", ({ value }) => value === 17);
    await page.getByText("Not saved as a file yet.").waitFor();
    const { name, bytes } = await downloaded(page, () => page.keyboard.press("Control+s"));
    expect(name).toBe("Alder Quay footbridge beam.xlsx");
    const { workbook } = openWorkbook(bytes);
    expect(workbook.sheets.map((one) => one.name).sort()).toEqual([sheet, "Sheet1"].sort());
    const own = workbook.sheets.find((one) => one.name === "Sheet1")!;
    expect(own.cells.find(({ row, column }) => row === 2 && column === 1)?.value).toBe(17);
    await page.getByText("Saved as Alder Quay footbridge beam.xlsx").waitFor();
    expect(await page.getByText("Not saved as a file yet.").count()).toBe(0);
  });

  it("has what was typed again after the page was lost, and says so", async () => {
    const { page, errors } = await shared();
    await typeInCell(page, "Sheet1", "B4", "18");
    await cellWhen(page, "Sheet1", "B4", ({ value }) => value === 18);
    await kept(page);
    await page.waitForTimeout(8_000);
    await page.reload();
    await whenReady(page);
    await page.getByText(/is open as it was kept here/).waitFor();
    expect((await readCell(page, "Sheet1", "B4")).value).toBe(18);
    expect([...(await sheets(page))].sort()).toEqual([sheet, "Sheet1"].sort());
    // The built sheet is known again.
    await page.getByRole("tab", { name: "Build" }).click();
    await page.evaluate((name) => window.kernbook!.host!.select({ sheet: name, row: 0, column: 0 }), sheet);
    await page.getByText("Overall verdict").waitFor({ timeout: 60_000 });
    expect(errors).toEqual([]);
  });

  it("opens another program's file, and proposes another name before it saves", async () => {
    const { page } = await shared();
    await page
      .getByLabel("Workbook file to open")
      .setInputFiles({ name: "Loads.xlsx", mimeType: type, buffer: foreign });
    await page.getByText("“Loads.xlsx” is open.").waitFor();
    expect(await sheets(page)).toEqual(["Loads"]);
    expect(await readCell(page, "Loads", "B1")).toMatchObject({ value: 24, formula: "=A1*2" });
    const text = await readCell(page, "Loads", "C1");
    expect([text.value, text.formula]).toEqual(["=A1", undefined]);
    await page.keyboard.press("Control+s");
    await page.getByText(/was made by another program/).waitFor();
    expect(await page.getByLabel("Name of the file").inputValue()).toBe("Loads (Kernbook)");
    const dialog = page.getByRole("dialog", { name: "Save as" });
    const { name } = await downloaded(page, () => dialog.getByRole("button", { name: "Save", exact: true }).click());
    expect(name).toBe("Loads (Kernbook).xlsx");
  });

  it("refuses a broken file with its name and the reason, and leaves the workbook as it is", async () => {
    const { page } = await shared();
    await page
      .getByLabel("Workbook file to open")
      .setInputFiles({ name: "Cut.xlsx", mimeType: type, buffer: foreign.subarray(0, 500) });
    await page.getByRole("alert").getByText("“Cut.xlsx” was not opened: it is damaged").waitFor();
    expect(await sheets(page)).toEqual(["Loads"]);
  });

  it("opens a file that is dropped on the page", async () => {
    const { page } = await shared();
    const data = await page.evaluateHandle(
      ([bytes, mime]) => {
        const transfer = new DataTransfer();
        transfer.items.add(new File([new Uint8Array(bytes)], "Dropped.xlsx", { type: mime }));
        return transfer;
      },
      [[...foreign], type] as const,
    );
    await page.dispatchEvent("#grid", "drop", { dataTransfer: data });
    await page.getByText("“Dropped.xlsx” is open.").waitFor();
  });

  it("lists the kept workbooks by name and date, opens one and deletes one", async () => {
    const { page } = await shared();
    await button(page, "Kept workbooks…").click();
    const list = page.getByRole("dialog", { name: "Workbooks kept in this browser" });
    await list.getByText("open now").waitFor();
    const lines = await list.getByRole("listitem").allInnerTexts();
    expect(lines.filter((line) => /Dropped|Loads \(Kernbook\)|Alder Quay/.test(line))).toHaveLength(3);
    for (const line of lines) expect(line).toMatch(/\d{4}/);
    expect(await seriousProblems(page, "#book")).toEqual([]);
    await list.getByRole("button", { name: /^Delete “Loads \(Kernbook\)”/ }).click();
    await expect.poll(() => list.getByRole("listitem").count()).toBe(2);
    await list.getByRole("button", { name: `Open “${sheet}”` }).click();
    await page.getByText(`“${sheet}” is open as it was kept here.`).waitFor({ timeout: 60_000 });
    expect((await readCell(page, "Sheet1", "B3")).value).toBe(17);
  });
});
