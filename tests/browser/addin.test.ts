import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import { openWorkshop, seriousProblems, type Theme, type Workshop } from "./browser.ts";

const hostScript = "https://appsforoffice.microsoft.com/lib/1/hosted/office.js";

/** Stands in for the host's script: what `onReady` answers, and which API sets there are. */
const officeScript = (host: string | null, has: string): string => `
  window.associated = [];
  window.CustomFunctions = { associate: (id, run) => window.associated.push(id), Error: class extends Error {}, ErrorCode: { invalidValue: "#VALUE!", invalidNumber: "#NUM!" } };
  window.startup = [];
  window.Office = {
    HostType: { Excel: "Excel" }, StartupBehavior: { load: "Load" },
    onReady: () => Promise.resolve({ host: ${JSON.stringify(host)} }),
    addin: { setStartupBehavior: (b) => { window.startup.push(b); return Promise.resolve(); } },
    context: { requirements: { isSetSupported: (set, version) => ${has} }, officeTheme: { isDarkTheme: window.matchMedia("(prefers-color-scheme: dark)").matches } },
  };
  const calls = () => Promise.reject(new Error("the stand-in has no workbook"));
  window.Excel = { run: calls };`;

describe("the add-in's page", () => {
  let shop: Workshop;
  beforeAll(async () => { shop = await openWorkshop(); });
  afterAll(() => shop?.close());
  afterEach(() => Promise.all(shop.browser.contexts().map((context) => context.close())));

  /** Opens the page with the host's script answered by us, or not at all. */
  async function open(script: string | undefined, theme: Theme = "light"): Promise<{ readonly page: Page; readonly errors: string[]; readonly external: string[] }> {
    const context = await shop.browser.newContext({ viewport: { width: 320, height: 800 }, colorScheme: theme });
    const page = await context.newPage();
    page.setDefaultTimeout(10_000);
    const errors: string[] = [];
    const external: string[] = [];
    page.on("console", (message) => { if (message.type() === "error") errors.push(message.text()); });
    page.on("pageerror", (error) => errors.push(error.message));
    page.on("request", (request) => { if (!request.url().startsWith(shop.url) && !/^(data|blob):/.test(request.url())) external.push(request.url()); });
    await page.route(hostScript, (route) => (script === undefined ? route.abort() : route.fulfill({ contentType: "text/javascript", body: script })));
    await page.goto(`${shop.url}taskpane.html`);
    return { page, errors, external };
  }

  it("says what it is when it is opened outside the program, and asks only for the host's script", async () => {
    const { page, errors, external } = await open(officeScript(null, "true"));
    await page.getByRole("heading", { name: "Kernbook, outside the spreadsheet program" }).waitFor();
    expect(await page.textContent("main")).toContain("manifest.xml");
    expect(errors).toEqual([]);
    expect(external).toEqual([hostScript]);
  });

  it("names what an older program lacks", async () => {
    const { page } = await open(officeScript("Excel", "set !== \"SharedRuntime\""));
    await page.getByRole("heading", { name: /cannot run Kernbook/ }).waitFor();
    expect(await page.textContent("main")).toContain("It lacks SharedRuntime 1.1, needed for worksheet functions and panel in one program.");
  });

  it("says so when the host's script cannot be loaded", async () => {
    const { page } = await open(undefined);
    await page.getByRole("heading", { name: /script could not be loaded/ }).waitFor();
  });

  it("registers every function, asks to be loaded with workbooks and shows the panel", async () => {
    const { page, external } = await open(officeScript("Excel", "true"));
    await page.getByRole("tab", { name: "Build" }).waitFor();
    const { ids, startup } = await page.evaluate(() => { const w = window as unknown as { associated: string[]; startup: string[] }; return { ids: w.associated, startup: w.startup }; });
    const served = (await (await page.request.get(`${shop.url}functions.json`)).json()) as { readonly functions: readonly { readonly id: string }[] };
    expect(ids).toEqual(served.functions.map(({ id }) => id));
    expect(startup).toEqual(["Load"]);
    expect(external).toEqual([hostScript]);
  });

  it("breaks no rule of its own content-security policy, with equations set too", async () => {
    const { page, errors } = await open(officeScript("Excel", "true"));
    await page.getByRole("tab", { name: "Insert" }).click();
    await page.getByRole("combobox").fill("friction_stress");
    await page.keyboard.press("Enter");
    await page.locator("math").first().waitFor();
    expect(errors.filter((text) => /Content Security Policy|Refused to/i.test(text))).toEqual([]);
  });

  it.each(["light", "dark"] as const)("is readable in the %s theme", async (theme) => {
    const { page } = await open(officeScript("Excel", "true"), theme);
    await page.getByRole("tab", { name: "Build" }).waitFor();
    expect(await page.evaluate(() => document.documentElement.dataset["theme"])).toBe(theme);
    expect(await seriousProblems(page)).toEqual([]);
  });
});
