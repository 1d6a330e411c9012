import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import { alderQuay } from "../independent/alderQuay.ts";
import { beam } from "../independent/postTensionedBeam.ts";
import {
  cellNamed,
  cellWhen,
  clickCell,
  functionListGone,
  openWorkshop,
  placeOf,
  readCell,
  seriousProblems,
  sharedPage,
  showTemplates,
  typeInCell,
  type Workshop,
} from "./browser.ts";

const sheet = "Alder Quay footbridge beam";
let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

const enter = (page: Page, cell: string, value: number, name = sheet): Promise<void> =>
  page.evaluate(([of, place, to]) => window.kernbook!.host!.enter({ sheet: of, ...place }, to), [
    name,
    placeOf(cell),
    value,
  ] as const);

const cellOf = (page: Page, id: string, name = sheet): Promise<string> => cellNamed(page, name, id);
const below = (address: string, rows: number): string => address.replace(/\d+$/, (row) => String(Number(row) + rows));
const tab = (page: Page, name: string) => page.getByRole("tab", { name });

describe("the newcomer's path", () => {
  const shared = sharedPage(() => shop);

  it("finds the example sheet computed, and its numbers right", async () => {
    const { page } = await shared();
    const expected = beam(alderQuay);
    expect((await readCell(page, sheet, await cellOf(page, "phi"))).value).toBeCloseTo(expected.phi, 9);
    const middle = expected.rows.findIndex((row) => Math.abs(row.x - 12000) < 1);
    expect((await readCell(page, sheet, below(await cellOf(page, "Pinf"), middle))).value).toBeCloseTo(
      expected.rows[middle]!.Pinf / 1000,
      6,
    );
    expect((await readCell(page, sheet, await cellOf(page, "overall"))).value).toBe("OK");
    await page.getByText("Overall verdict").waitFor();
    await page.getByRole("figure", { name: "Prestress force along the span" }).waitFor();
  });

  it("reads which rows warn, and of those alone", async () => {
    const { page } = await shared();
    await page.getByText("No warnings.").waitFor();
    const k = await cellOf(page, "k");
    const usual = (await readCell(page, sheet, k)).value as number;
    await enter(page, k, 0.09);
    const heading = page.getByText(/^\d+ warnings?$/);
    const said = await heading.innerText();
    await heading.click();
    const warnings = page.locator(".kb-warnings li");
    const texts = await warnings.allInnerTexts();
    expect(said).toMatch(new RegExp(`^${texts.length} warnings?$`));
    expect(texts[0]).toMatch(/^input \d+\.\d+: k, .*\n?.*0\.09 rad\/m is outside the everyday range/);
    expect(texts.filter((text) => !text.includes("0.09 rad/m is outside the everyday range"))).toEqual([]);
    await warnings.first().getByRole("button").click();
    await expect
      .poll(async () => (await page.evaluate(() => window.kernbook!.host!.selection()))?.column)
      .toBe(placeOf(k).column);
    await enter(page, k, usual);
    await page.getByText("No warnings.").waitFor();
  });

  it("types one of the choices into a cell that was clicked, whose list of them is open then", async () => {
    const { page } = await shared();
    const cell = await cellOf(page, "sectionModel");
    await typeInCell(page, sheet, cell, "GROSS");
    await cellWhen(page, sheet, cell, ({ value }) => value === "GROSS");
    await page.locator('[data-u-comp="sheets-dropdown-list"]').waitFor({ state: "hidden" });
    await typeInCell(page, sheet, cell, "NET");
    await cellWhen(page, sheet, cell, ({ value }) => value === "NET");
    await page.getByText("Overall verdict OK").waitFor();
  });

  it("meets a bad input: the grid refuses it with the range; past the grid, the sheet names it and gives no verdict", async () => {
    const { page } = await shared();
    const cell = await cellOf(page, "k");
    const before = await readCell(page, sheet, cell);
    await typeInCell(page, sheet, cell, "-0.01");
    await page.getByText(/“-0.01” was not taken: .* Allowed: 0 to 0.1 rad\/m/).waitFor();
    expect(await readCell(page, sheet, cell)).toEqual(before);
    await page.getByRole("button", { name: "OK" }).last().click();
    // What is pasted or set by a program meets no refusal.
    await enter(page, cell, -0.01);
    await cellWhen(page, sheet, cell, ({ value }) => value === -0.01);
    await cellWhen(page, sheet, await cellOf(page, "overall"), ({ value }) => value === "INCOMPLETE");
    const force = await readCell(page, sheet, await cellOf(page, "Pinf"));
    expect(typeof force.value).not.toBe("number");
    await expect.poll(() => page.getByRole("region", { name: "Result" }).innerText()).toMatch(/INCOMPLETE/);
    await enter(page, cell, before.value as number);
    await cellWhen(page, sheet, await cellOf(page, "overall"), ({ value }) => value === "OK");
  });

  it("cannot type over a formula", async () => {
    const { page } = await shared();
    const cell = await cellOf(page, "phi");
    const before = await readCell(page, sheet, cell);
    await typeInCell(page, sheet, cell, "3");
    await page.keyboard.press("Escape");
    await page.waitForTimeout(500);
    expect(await readCell(page, sheet, cell)).toEqual(before);
  });

  it("selects a cell and reads which equation, clause and numbers made its value, and goes to what it came from", async () => {
    const { page } = await shared();
    await tab(page, "Trace").click();
    const cell = await cellOf(page, "fcTransfer");
    await clickCell(page, sheet, cell);
    const call = page.getByRole("article", { name: "KERN.COMPRESSION_LIMIT_EN1992_2004" });
    await call.waitFor();
    await call.locator("math").first().waitFor();
    await expect.poll(async () => call.innerText()).toMatch(/5\.10\.2\.2/);
    expect(await call.innerText()).toMatch(/34/);
    await call
      .getByRole("button", { name: /^Go to / })
      .first()
      .click();
    const from = await cellOf(page, "fckt");
    await expect
      .poll(() => page.evaluate(() => window.kernbook!.host!.selection()))
      .toMatchObject({ sheet, row: Number(from.slice(1)) - 1 });
    await page.getByRole("button", { name: /^Back to / }).click();
    await call.waitFor();
  });

  it("types a function of their own with autocomplete, and a bad argument gets its message", async () => {
    const { page } = await shared();
    const own = (await page.evaluate(() => window.kernbook!.host!.sheetNames())).find((name) => name !== sheet)!;
    await clickCell(page, own, "B2");
    await page.keyboard.type("=KERN.FRICTION_ST", { delay: 30 });
    await page.getByText("KERN.FRICTION_STRESS", { exact: true }).first().waitFor();
    await page.keyboard.type('RESS(0.3,0.2,0.003,"1/m",1395,12)', { delay: 10 });
    await functionListGone(page);
    await page.keyboard.press("Enter");
    const { value } = await cellWhen(page, own, "B2", (cell) => typeof cell.value === "number");
    // 1395 · e^(−0.2·0.3 − 0.003·12), worked with a pocket calculator.
    expect(value).toBeCloseTo(1267.307, 2);
    await typeInCell(page, own, "B4", '=KERN.FRICTION_STRESS(0.3,-0.1,0.003,"1/m",1395,12)');
    const wrong = await cellWhen(page, own, "B4", (cell) => cell.error !== undefined);
    expect(wrong.error).toEqual({
      code: "#VALUE!",
      message: expect.stringContaining(
        "μ (friction coefficient between tendon and duct) = −0.1 1/rad is below 0",
      ) as string,
    });
    await tab(page, "Trace").click();
    await clickCell(page, own, "B4");
    await page.getByText("is below 0", { exact: false }).first().waitFor();
  });

  it("changes an input and sees everything recalculate", async () => {
    const { page } = await shared();
    const weaker = beam({
      ...alderQuay,
      tendons: alderQuay.tendons.map((t, i) => (i === 0 ? { ...t, sigj: 1250 } : t)),
    });
    await typeInCell(page, sheet, await cellOf(page, "sigj"), "1250");
    const middle = weaker.rows.findIndex((row) => Math.abs(row.x - 12000) < 1);
    const wanted = weaker.rows[middle]!.Pinf / 1000;
    await cellWhen(
      page,
      sheet,
      below(await cellOf(page, "Pinf"), middle),
      ({ value }) => typeof value === "number" && Math.abs(value - wanted) < 1e-6,
    );
  });
});

/** The form of the first template, filled with its example. */
async function form(page: Page): Promise<void> {
  await showTemplates(page);
  await page.getByRole("radio", { name: /^Post-tensioned beam.*EN 1992-1-1:2004/ }).check();
  await page.getByRole("button", { name: "Fill with the invented example" }).click();
}

describe("building a sheet from the panel", () => {
  const shared = sharedPage(() => shop);

  it("works by keyboard: tabs by arrow keys, building by Enter", async () => {
    const { page } = await shared();
    await tab(page, "Build").focus();
    await page.keyboard.press("ArrowRight");
    expect(await tab(page, "Insert").getAttribute("aria-selected")).toBe("true");
    await page.keyboard.press("ArrowRight");
    expect(await tab(page, "Trace").getAttribute("aria-selected")).toBe("true");
    await page.keyboard.press("Home");
    expect(await tab(page, "Build").getAttribute("aria-selected")).toBe("true");
    const again = page.getByRole("button", { name: "Build another" });
    await again.focus();
    await page.keyboard.press("Enter");
    await page.getByRole("radio", { name: /^Post-tensioned beam.*EN 1992-1-1:2004/ }).focus();
    await page.keyboard.press("Space");
    const fill = page.getByRole("button", { name: "Fill with the invented example" });
    await fill.focus();
    await page.keyboard.press("Enter");
    const name = page.getByLabel("Name of the new sheet");
    await name.focus();
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("By keys");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "By keys" }).waitFor();
  });

  it("builds, says where it went and what governs", async () => {
    const { page } = await shared();
    await form(page);
    await page.getByLabel("Name of the new sheet").fill("Beam two");
    await page.getByRole("button", { name: "Build the sheet" }).click();
    await page.getByRole("button", { name: "Beam two" }).waitFor();
    expect((await readCell(page, "Beam two", await cellOf(page, "overall", "Beam two"))).value).toBe("OK");
    await page.getByText("Governs:").waitFor();
  });

  it("the form with everything unfolded scrolls within the panel and leaves the page as high as the window", async () => {
    const { page } = await shared();
    await form(page);
    const [inPanel, panel, inPage, window] = await page.evaluate(() => {
      for (const details of document.querySelectorAll("details")) details.open = true;
      const scrolling = document.querySelector("#panel")!;
      return [
        scrolling.scrollHeight,
        scrolling.clientHeight,
        document.documentElement.scrollHeight,
        innerHeight,
      ] as const;
    });
    expect(inPanel).toBeGreaterThan(panel);
    expect(inPage).toBe(window);
  });

  it("refuses a name that is taken and an input out of range, keeps what was typed and leaves nothing behind", async () => {
    const { page } = await shared();
    await form(page);
    // Forms that are unfolded have places of their own for what they refuse.
    const alert = page.getByRole("alert").filter({ hasText: /\S/ });
    const before = await page.evaluate(() => window.kernbook!.host!.sheetNames());
    await page.getByLabel("Name of the new sheet").fill(sheet);
    await page.getByRole("button", { name: "Build the sheet" }).click();
    await expect.poll(() => alert.innerText()).toMatch(/Alder Quay footbridge beam/);
    await page.getByLabel("Name of the new sheet").fill("Beam three");
    const strength = page.getByLabel(/^characteristic cylinder strength at 28 days/);
    await strength.fill("100");
    await page
      .getByText(/100.*12 to 90 MPa/)
      .first()
      .waitFor();
    await page.getByRole("button", { name: "Build the sheet" }).click();
    await expect.poll(() => alert.innerText()).toMatch(/12 to 90 MPa/);
    expect(await strength.inputValue()).toBe("100");
    expect(await page.evaluate(() => window.kernbook!.host!.sheetNames())).toEqual(before);
  });
});

describe("the panel at 320 px", () => {
  const shared = sharedPage(() => shop, { width: 320, height: 900 });

  it("no view of the panel scrolls sideways", async () => {
    const { page } = await shared();
    const overflow = (): Promise<number> =>
      page.evaluate(() => {
        const panel = document.querySelector("#panel")!;
        return panel.scrollWidth - panel.clientWidth;
      });
    await page.getByRole("figure", { name: "Prestress force along the span" }).waitFor();
    expect(await overflow()).toBeLessThanOrEqual(0);
    await form(page);
    expect(await overflow()).toBeLessThanOrEqual(0);
    await tab(page, "Trace").click();
    const place = placeOf(await cellOf(page, "phi0"));
    await page.evaluate((to) => window.kernbook!.host!.select(to), { sheet, ...place });
    await page.getByRole("article").first().locator("math").first().waitFor();
    expect(await overflow()).toBeLessThanOrEqual(0);
  });

  it("by keyboard, arrow keys leave the list of templates in view and Enter brings the form there, with the focus", async () => {
    const { page } = await shared();
    await showTemplates(page);
    const first = page.getByRole("group", { name: "Stress check" }).getByRole("radio").first();
    await first.focus();
    await page.keyboard.press("ArrowDown");
    const heading = page.getByRole("region", { name: /^Form: / }).locator("> h2");
    await page.getByRole("heading", { name: "Inputs" }).waitFor();
    const top = (): Promise<number> =>
      heading.evaluate(
        (e) => e.getBoundingClientRect().top - document.querySelector("#panel")!.getBoundingClientRect().top,
      );
    const below = await top();
    expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).type)).toBe("radio");
    await page.keyboard.press("Enter");
    await expect.poll(top).toBeLessThan(below);
    expect(await heading.evaluate((e) => e === document.activeElement)).toBe(true);
    // At the top of the panel; scrolling goes by whole pixels.
    expect(await top()).toBeLessThan(100);
    expect(await top()).toBeGreaterThan(-1);
  });

  it("shows the result from its beginning, with the focus there, however far down the form the button stood", async () => {
    const { page } = await shared();
    await form(page);
    await page.getByLabel("Name of the new sheet").fill("Beam four");
    const build = page.getByRole("button", { name: "Build the sheet" });
    await build.scrollIntoViewIfNeeded();
    const scrolled = (): Promise<number> => page.evaluate(() => document.querySelector("#panel")!.scrollTop);
    expect(await scrolled()).toBeGreaterThan(100);
    await build.click();
    await page.getByRole("button", { name: "Beam four" }).waitFor();
    await page.getByRole("region", { name: "Result" }).getByRole("figure").last().waitFor();
    expect(await scrolled()).toBe(0);
    expect(
      await page.evaluate(
        () => document.activeElement?.closest("[aria-label=Result]") && document.activeElement.tagName,
      ),
    ).toBe("H2");
  });
});

describe.each(["light", "dark"] as const)("in the %s theme", (theme) => {
  const shared = sharedPage(() => shop, { theme });

  it("result, form and trace have no serious accessibility problem", async () => {
    const { page } = await shared();
    await page.getByRole("figure", { name: "Prestress force along the span" }).waitFor();
    expect(await seriousProblems(page, "#panel")).toEqual([]);
    await form(page);
    expect(await seriousProblems(page, "#panel")).toEqual([]);
    await tab(page, "Trace").click();
    await clickCell(page, sheet, await cellOf(page, "phi0"));
    await page.getByRole("article").first().locator("math").first().waitFor();
    expect(await seriousProblems(page, "#panel")).toEqual([]);
  });
});
