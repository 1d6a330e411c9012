import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import { dist } from "../../src/command/build.ts";
import {
  clickCell,
  openWorkshop,
  seriousProblems,
  sharedPage,
  typeInCell,
  whenReady,
  type Workshop,
} from "./browser.ts";

let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

const panel = (page: Page) => page.locator("#kb-view-reference");

async function openReference(page: Page): Promise<void> {
  await page.getByRole("tab", { name: "Reference" }).click();
  const front = panel(page).getByRole("button", { name: /^‹? ?All (functions|found)$/ });
  if (await front.isVisible()) await front.click();
  await panel(page)
    .getByRole("combobox", { name: /Find a function/ })
    .fill("");
  await panel(page).getByRole("heading", { name: "Reference by task" }).waitFor();
}

/** By how much the panel and the page are wider than they show. */
function overflow(page: Page): Promise<readonly number[]> {
  return page.evaluate(() =>
    [document.querySelector(".kb-views")!, document.querySelector("#panel")!, document.documentElement].map(
      (e) => e.scrollWidth - e.clientWidth,
    ),
  );
}

async function searchFor(page: Page, query: string): Promise<void> {
  await panel(page)
    .getByRole("combobox", { name: /Find a function/ })
    .fill(query);
  await page.keyboard.press("Enter");
}

describe("the reference in the panel", () => {
  const shared = sharedPage(() => shop);

  it("finds a function by search, follows its links and goes back", async () => {
    const { page, errors, external } = await shared();
    await openReference(page);
    await searchFor(page, "friction_stress");
    await panel(page).getByRole("heading", { name: "KERN.FRICTION_STRESS", exact: true }).waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("KERN.FRICTION_STRESS");
    expect(await panel(page).locator("math").count()).toBeGreaterThan(0);
    await panel(page).getByRole("link", { name: "FRICTION_STRESS_LINEAR", exact: true }).first().click();
    await panel(page).getByRole("heading", { name: "KERN.FRICTION_STRESS_LINEAR" }).waitFor();
    await panel(page).getByRole("button", { name: "Page before" }).click();
    await panel(page).getByRole("heading", { name: "KERN.FRICTION_STRESS", exact: true }).waitFor();
    await panel(page).getByRole("button", { name: "All found" }).click();
    await panel(page).getByRole("option", { name: "FRICTION_STRESS_LINEAR" }).waitFor();
    expect(errors).toEqual([]);
    expect(external).toEqual([]);
  });

  it("leads by task from the front page, with the keyboard alone", async () => {
    const { page, errors } = await shared();
    await openReference(page);
    const task = panel(page).getByRole("link", { name: "Stressing on site" });
    await task.focus();
    await page.keyboard.press("Enter");
    await panel(page).locator("#task-stressing:focus").waitFor();
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => (document.activeElement as HTMLAnchorElement).getAttribute("href"))).toMatch(
      /^[A-Z0-9_]+\.html$/,
    );
    await page.keyboard.press("Enter");
    await panel(page).getByText("stores lethal energy").waitFor();
    expect(errors).toEqual([]);
  });

  it("opens from Trace and from Insert, goes back to them, and hands a function to Insert", async () => {
    const { page, errors } = await shared();
    await typeInCell(page, "Sheet1", "B3", "=KERN.TENDON_FORCE(900,1400)");
    await clickCell(page, "Sheet1", "B3");
    await page.getByRole("tab", { name: "Trace" }).click();
    await page.getByRole("button", { name: "Reference page of TENDON_FORCE" }).click();
    await panel(page).getByRole("heading", { name: "KERN.TENDON_FORCE" }).waitFor();
    await page.getByRole("button", { name: "Back to Trace" }).click();
    await page.getByRole("article", { name: "KERN.TENDON_FORCE" }).waitFor();
    await page.getByRole("tab", { name: "Reference" }).click();
    await panel(page).getByRole("button", { name: "Insert this function" }).click();
    await page.locator("#kb-view-insert").getByRole("heading", { name: "KERN.TENDON_FORCE" }).waitFor();
    await page.getByRole("button", { name: "Reference page of TENDON_FORCE" }).last().click();
    await page.getByRole("button", { name: "Back to Insert" }).waitFor();
    expect(errors).toEqual([]);
  });

  it.each(["light", "dark"] as const)(
    "fits 320 px and has no serious accessibility problem in the %s theme",
    async (theme) => {
      const { page } = await shop.open({ theme });
      await whenReady(page);
      await openReference(page);
      // The panel at the width a spreadsheet program gives it.
      await page.evaluate(() => {
        document.getElementById("panel")!.style.cssText += "width:320px;flex:none";
      });
      expect(await overflow(page)).toEqual([0, 0, 0]);
      expect(await seriousProblems(page, "#panel")).toEqual([]);
      for (const query of ["friction_stress", "creep_coefficient_en1992"]) {
        await searchFor(page, query);
        await panel(page).locator(".kr-page h2").waitFor();
        expect(await overflow(page), query).toEqual([0, 0, 0]);
        expect(await seriousProblems(page, "#panel"), query).toEqual([]);
        await panel(page).getByRole("button", { name: "All found" }).click();
      }
      await page.context().close();
    },
  );

  it("says what is wrong where a page cannot be had, and tries again", async () => {
    const { page } = await shared();
    await openReference(page);
    await page.route("**/reference/DRAW_IN.html", (route) => route.abort());
    await searchFor(page, "draw_in");
    await panel(page).getByRole("alert").getByText("The reference could not be read").waitFor();
    await page.unroute("**/reference/DRAW_IN.html");
    await panel(page).getByRole("button", { name: "Try again" }).click();
    await panel(page).getByRole("heading", { name: "KERN.DRAW_IN", exact: true }).waitFor();
  });
});

describe("the static reference pages", () => {
  const folder = join(dist, "reference");

  it("work from a folder, without script and without anything from elsewhere", async () => {
    const context = await shop.browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    const asked: string[] = [];
    page.on("request", (request) => asked.push(request.url()));
    await page.goto(pathToFileURL(join(folder, "index.html")).href);
    await page.getByRole("link", { name: "FRICTION_STRESS", exact: true }).first().click();
    await page.getByRole("heading", { name: "KERN.FRICTION_STRESS", exact: true }).waitFor();
    expect(asked.map((url) => url.slice(url.lastIndexOf("/") + 1))).toEqual(["index.html", "FRICTION_STRESS.html"]);
    // The page's own policy must let its style stand.
    expect((await page.locator(".kr-page").boundingBox())!.width).toBeLessThan(900);
    await context.close();
  });

  it.each(["light", "dark"] as const)(
    "have no serious accessibility problem and no overflow at 400 px in the %s theme",
    async (theme) => {
      for (const name of ["index.html", "CREEP_COEFFICIENT_EN1992_2004.html", "TENDON_ECCENTRICITY.html"]) {
        const { page, errors } = await shop.open({ path: `reference/${name}`, theme, width: 400 });
        expect(
          await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
          name,
        ).toBe(0);
        expect(await seriousProblems(page), name).toEqual([]);
        expect(errors, name).toEqual([]);
        await page.context().close();
      }
    },
  );

  it("ask for no script", () => {
    for (const name of readdirSync(folder))
      expect(readFileSync(join(folder, name), "utf8"), name).not.toMatch(/<script|javascript:|\son\w+="/);
  });
});
