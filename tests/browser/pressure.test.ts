import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import {
  cellNamed,
  cellWhen,
  openWorkshop,
  readCell,
  sharedPage,
  showTemplates,
  typeInCell,
  type Workshop,
} from "./browser.ts";

/** What people do in a hurry, and what a connection does to a page that is already open. */
const sheet = "Alder Quay footbridge beam";
let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

async function filledForm(page: Page, name: string): Promise<void> {
  await showTemplates(page);
  await page.getByRole("radio", { name: /^Post-tensioned beam.*EN 1992-1-1:2004/ }).check();
  await page.getByRole("button", { name: "Fill with the invented example" }).click();
  await page.getByLabel("Name of the new sheet").fill(name);
}

const sheetNames = (page: Page): Promise<readonly string[]> => page.evaluate(() => window.kernbook!.host!.sheetNames());

const shared = sharedPage(() => shop);

describe("a page whose files are gone", () => {
  it("says so, offers to reload, and goes on once they come again", async () => {
    const { page } = await shared();
    // The panel's own first parts have come when it offers this; before, they would be missed in its place.
    await page.getByRole("button", { name: "Build another" }).waitFor();
    await page.route("**/parts/**", (route) => route.fulfill({ status: 404 }));
    const saysSo = async (): Promise<void> => {
      await page.getByRole("alert").getByText("a part of this page could not be fetched").waitFor();
      await page.getByRole("button", { name: "Reload the page" }).waitFor();
    };
    await page.getByRole("button", { name: "Build another" }).click();
    await page.getByRole("radio", { name: /^Post-tensioned beam.*IS 1343:1980/ }).check();
    await saysSo();
    for (const name of ["Insert", "Reference", "Check"]) {
      await page.getByRole("tab", { name }).click();
      await saysSo();
    }
    await page.unroute("**/parts/**");
    await page.getByRole("tab", { name: "Build" }).click();
    await page.getByRole("button", { name: "Try again" }).click();
    await page.getByRole("button", { name: "Fill with the invented example" }).waitFor();
    await page.getByRole("tab", { name: "Check" }).click();
    await page.getByRole("button", { name: "Try again" }).click();
    await page.getByRole("button", { name: `Compare “${sheet}”` }).waitFor();
  });
});

describe("leaving the page", () => {
  /** Asks the page to close, as people do; says whether the browser asked first. */
  async function asks(page: Page): Promise<boolean> {
    let asked = false;
    page.on("dialog", (dialog) => {
      asked = dialog.type() === "beforeunload";
      void dialog.dismiss();
    });
    await page.close({ runBeforeUnload: true });
    const end = Date.now() + 20_000;
    while (!asked && !page.isClosed() && Date.now() < end) await new Promise((next) => setTimeout(next, 50));
    return asked;
  }

  it("is not held up where nothing was done", async () => {
    const { page } = await shared();
    await page.getByRole("tab", { name: "Trace" }).click();
    expect(await asks(page)).toBe(false);
  });

  it("asks once something stands in the workbook that was not there", async () => {
    const { page } = await shared();
    await typeInCell(page, "Sheet1", "B3", "17");
    await cellWhen(page, "Sheet1", "B3", ({ value }) => value === 17);
    expect(await asks(page)).toBe(true);
    await page.close();
  });

  it("asks while a form is filled whose sheet is not built", async () => {
    const { page } = await shared();
    await filledForm(page, "Not yet built");
    expect(await asks(page)).toBe(true);
  });
});

describe("building in a hurry", () => {
  it("a double click on the button builds one sheet", async () => {
    const { page } = await shared();
    await filledForm(page, "Twice");
    const button = page.getByRole("button", { name: "Build the sheet" });
    await button.scrollIntoViewIfNeeded();
    const box = (await button.boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.click(x, y);
    await page.waitForTimeout(120);
    await page.mouse.click(x, y);
    await page.getByRole("button", { name: "Twice" }).waitFor();
    expect(await sheetNames(page)).toEqual(["Sheet1", sheet, "Twice"]);
    expect((await readCell(page, "Twice", await cellNamed(page, "Twice", "overall"))).value).toBe("OK");
  });

  it("keys typed meanwhile reach no cell and open nothing", async () => {
    const { page } = await shared();
    const before = await readCell(page, sheet, "B3");
    await filledForm(page, "Typed at");
    await page.getByRole("button", { name: "Build the sheet" }).click();
    const end = Date.now() + 30_000;
    while (!(await sheetNames(page)).includes("Typed at") || (await page.locator(".kb-progress").count()) > 0) {
      if (Date.now() > end) throw new Error("the sheet is not built after 30 s");
      await page.keyboard.type("12");
      await page.keyboard.press("Delete");
    }
    await page.getByRole("button", { name: "Typed at" }).waitFor();
    await page.keyboard.type("34");
    expect(await page.getByRole("dialog").count()).toBe(0);
    expect(await page.getByText("This cell is protected").count()).toBe(0);
    expect(await readCell(page, sheet, "B3")).toEqual(before);
    // The grid takes keys again when a cell is clicked.
    await typeInCell(page, "Sheet1", "B3", "17");
    await cellWhen(page, "Sheet1", "B3", ({ value }) => value === 17);
  });

  it("Cancel leaves the form as it is, with the focus on the button", async () => {
    const { page } = await shared();
    await filledForm(page, "Not wanted");
    // As soon as it is there: a quick machine has built the sheet before a mouse arrives.
    await page.evaluate(() => {
      const appearing = new MutationObserver(() => {
        const cancel = [...document.querySelectorAll("button")].find(({ textContent }) => textContent === "Cancel");
        if (!cancel) return;
        appearing.disconnect();
        cancel.click();
      });
      appearing.observe(document.querySelector("#panel")!, { childList: true, subtree: true });
    });
    await page.getByRole("button", { name: "Build the sheet" }).click();
    await page.getByText("Building was cancelled").waitFor();
    expect(await sheetNames(page)).not.toContain("Not wanted");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Build the sheet");
  });
});
