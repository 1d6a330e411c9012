/** From ten answers to a first verdict, and on from there by one entry a change; the members are invented. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import {
  cellNamed,
  cellWhen,
  openWorkshop,
  readCell,
  seriousProblems,
  sharedPage,
  showTemplates,
  typeInCell,
  whenReady,
  type Workshop,
} from "./browser.ts";

let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

const view = (page: Page) => page.locator("#kb-view-build");
const sheetNames = (page: Page): Promise<readonly string[]> =>
  page.evaluate(async () => [...(await window.kernbook!.host!.sheetNames())]);

/** Every cell with an error, as its formula with what it gives. */
const errorsOn = (page: Page, sheet: string): Promise<readonly string[]> =>
  page.evaluate(async (name) => {
    const rows = await window.kernbook!.host!.read(name, { row: 0, column: 0, rows: 1500, columns: 30 });
    return rows.flatMap((row) => row.flatMap(({ error, formula }) => (error ? [`${formula} ${error.code}`] : [])));
  }, sheet);

/** The name of the sheet that was built in between. */
async function newSheet(page: Page, build: () => Promise<void>): Promise<string> {
  const before = await sheetNames(page);
  await build();
  await expect.poll(async () => (await sheetNames(page)).length).toBe(before.length + 1);
  const made = (await sheetNames(page)).find((name) => !before.includes(name))!;
  await view(page).getByRole("button", { name: made, exact: true }).first().waitFor();
  return made;
}

async function choose(page: Page, label: string, text: RegExp): Promise<void> {
  const list = page.getByLabel(label, { exact: true });
  await list.selectOption(await list.locator("option", { hasText: text }).first().getAttribute("value"));
}

async function openQuickStart(page: Page): Promise<void> {
  await showTemplates(page);
  await page.getByRole("radio", { name: /^Post-tensioned beam.*EN 1992-1-1:2004/ }).check();
  await page.getByRole("checkbox", { name: /^Quick start/ }).check();
}

const valueOf = async (page: Page, sheet: string, id: string) =>
  (await readCell(page, sheet, await cellNamed(page, sheet, id))).value;

describe("from a brief to a verdict", () => {
  const shared = sharedPage(() => shop);
  let first = "";

  it("eight answers give a verdict, and the first page counts what they left open", async () => {
    const { page, errors } = await shared();
    await openQuickStart(page);
    await page.getByLabel("Span", { exact: true }).fill("30");
    await choose(page, "Section", /^T-section$/);
    await page.getByLabel("Depth", { exact: true }).fill("1600");
    await page.getByLabel(/^Concrete, cylinder/).fill("45");
    await page.getByLabel("Superimposed permanent load").fill("5");
    await page.getByLabel("Variable load").fill("10");
    await choose(page, "Exposure", /^XC2_XC4/);
    await choose(page, "Strand, wire or bar", /15\.7/);
    first = await newSheet(page, () => page.getByRole("button", { name: "Show the first verdict" }).click());
    await cellWhen(page, first, await cellNamed(page, first, "overall"), ({ value }) => value === "OK");
    // What was found, and what kept it from being less, with the result.
    const said = await view(page)
      .getByText(/^Proposed for a span of 30 m: /)
      .innerText();
    expect(said).toMatch(/ e = \d+ mm.*(fails|sizes (them|it)|Closest to its limit): /);
    expect(said).toContain("bending strength and shear are not part of it");
    expect(await valueOf(page, first, "openPoints")).toMatch(/^\d+ assumptions not confirmed/);
    expect(await errorsOn(page, first)).toEqual([]);
    expect(errors).toEqual([]);
  });

  it("another span is one entry, and no cell is in error", async () => {
    const { page } = await shared();
    await typeInCell(page, first, await cellNamed(page, first, "L"), "31");
    await cellWhen(page, first, await cellNamed(page, first, "L"), ({ value }) => value === 31);
    await expect.poll(() => valueOf(page, first, "overall")).toMatch(/^(OK|FAIL)$/);
    expect(await errorsOn(page, first)).toEqual([]);
  });

  it("one tendon more keeps all that was typed, and says what the new one is like", async () => {
    const { page, errors } = await shared();
    await view(page).getByText("Change configuration or standard").click();
    const tendons = view(page).locator("#change-tendons, [id*='change-tendons']").first();
    const more = String(Number(await tendons.inputValue()) + 1);
    await tendons.fill(more);
    await page.getByRole("button", { name: "Show what changes" }).click();
    await view(page)
      .getByText(/values carried over; none is lost\./)
      .waitFor();
    await view(page)
      .getByText(/Assumed like the one before, check each: /)
      .waitFor();
    const changed = await newSheet(page, () => page.getByRole("button", { name: "Build the changed sheet" }).click());
    expect(await valueOf(page, changed, "L")).toBe(31);
    expect(await valueOf(page, changed, "tendons")).toBe(Number(more));
    expect(await errorsOn(page, changed)).toEqual([]);
    expect(await sheetNames(page)).toContain(first);
    expect(errors).toEqual([]);
  });

  it("another standard takes what keeps its meaning and lists the rest with its reason", async () => {
    const { page, errors } = await shared();
    await view(page).getByText("Change configuration or standard").click();
    await page.getByLabel("Standard", { exact: true }).selectOption("post-tensioned-is1343-1980");
    await page.getByRole("button", { name: "Show what changes" }).click();
    await view(page)
      .getByText(/\d+ values carried over; \d+ not:/)
      .waitFor();
    await view(page).getByText(/cube/).first().waitFor();
    const changed = await newSheet(page, () => page.getByRole("button", { name: "Build the changed sheet" }).click());
    expect(await valueOf(page, changed, "L")).toBe(31);
    await cellWhen(page, changed, await cellNamed(page, changed, "overall"), ({ value }) => value === "INCOMPLETE");
    expect(errors).toEqual([]);
  });
});

describe("on a narrow page", () => {
  it.each(["light", "dark"] as const)("questions and changes fit 320 px, %s", async (theme) => {
    const { page } = await shop.open({ theme, width: 320, height: 900 });
    await whenReady(page);
    const wider = (): Promise<number> =>
      page.evaluate(() => {
        const panel = document.querySelector("#panel")!;
        return panel.scrollWidth - panel.clientWidth;
      });
    await view(page).getByText("Change configuration or standard").click();
    await page.getByLabel("Standard", { exact: true }).selectOption("post-tensioned-is1343-1980");
    await page.getByRole("button", { name: "Show what changes" }).click();
    await view(page)
      .getByText(/values carried over/)
      .waitFor();
    expect(await wider()).toBe(0);
    expect(await seriousProblems(page, "#panel")).toEqual([]);
    await openQuickStart(page);
    await page.getByLabel("Span", { exact: true }).waitFor();
    expect(await wider()).toBe(0);
    expect(await seriousProblems(page, "#panel")).toEqual([]);
    await page.context().close();
  });
});
