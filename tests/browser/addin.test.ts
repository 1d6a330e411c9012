import { existsSync, mkdirSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import { dist } from "../../src/command/build.ts";
import { mostFirst, namedBy, sum } from "../bench/firstLoad.ts";
import { openWorkshop, seriousProblems, type Theme, type Workshop } from "./browser.ts";
import { answerAsProgram, answerWithPublishedScript, hostScripts } from "./program/scripts.ts";

const hostScript = `${hostScripts}office.js`;
/** A folder for pictures to be looked at, where one is wanted. */
const pictures = process.env["KERNBOOK_PICTURES"];

interface Opened {
  readonly page: Page;
  /** Console errors and uncaught exceptions so far; a refusal by the content-security policy is one of them. */
  readonly errors: readonly string[];
  readonly external: readonly string[];
}

describe("the add-in's page", () => {
  let shop: Workshop;
  beforeAll(async () => {
    shop = await openWorkshop();
  });
  afterAll(() => shop?.close());
  afterEach(() => Promise.all(shop.browser.contexts().map((context) => context.close())));

  /** Opens the page at the panel's narrowest, with the program's script answered as given. */
  async function open(answer: (page: Page) => Promise<unknown>, theme: Theme = "light"): Promise<Opened> {
    const context = await shop.browser.newContext({ viewport: { width: 320, height: 800 }, colorScheme: theme });
    const page = await context.newPage();
    page.setDefaultTimeout(30_000);
    const errors: string[] = [];
    const external: string[] = [];
    page.on("console", (message) => {
      if (message.type() === "error") errors.push(message.text());
    });
    page.on("pageerror", (error) => errors.push(error.message));
    page.on("request", (request) => {
      if (!request.url().startsWith(shop.url) && !/^(data|blob):/.test(request.url())) external.push(request.url());
    });
    await answer(page);
    await page.goto(`${shop.url}taskpane.html`, { waitUntil: "commit" });
    return { page, errors, external };
  }

  async function picture(page: Page, name: string): Promise<void> {
    if (pictures === undefined) return;
    mkdirSync(pictures, { recursive: true });
    await page.screenshot({ path: join(pictures, `${name}.png`) });
  }

  /** The program without one of its API sets. */
  const lacking =
    (set: string) =>
    async (page: Page): Promise<void> => {
      await page.addInitScript((lacks) => {
        window.programLacks = lacks;
      }, set);
      await answerAsProgram(page);
    };

  it.each(["light", "dark"] as const)(
    "says what it is when it is opened outside the program, by the program's own script (%s)",
    async (theme) => {
      const { page, errors, external } = await open(answerWithPublishedScript, theme);
      await page.getByRole("heading", { name: "Kernbook, outside the spreadsheet program" }).waitFor();
      const text = await page.textContent("main");
      for (const word of ["manifest.xml", "Windows:", "Mac:", "Web:"]) expect(text).toContain(word);
      expect(await seriousProblems(page)).toEqual([]);
      // That script's frame for telemetry is what the policy is there to keep out; nothing else is refused.
      expect(errors.filter((error) => !error.includes("telemetryservice"))).toEqual([]);
      expect(external.filter((url) => !url.startsWith(hostScripts))).toEqual([]);
      expect(external).toContain(hostScript);
      await picture(page, `outside-${theme}`);
    },
  );

  it("says what goes on while the program does not answer", async () => {
    const { page } = await open((p) => p.route(`${hostScripts}**`, () => undefined));
    await page.getByText("Opening …").waitFor();
    const late = page.getByText("This takes longer than it should");
    expect(await late.isVisible()).toBe(false);
    await page
      .locator(".late")
      .evaluate((element) => element.getAnimations().forEach((animation) => animation.finish()));
    expect(await late.isVisible()).toBe(true);
    await picture(page, "late");
  });

  it("says so when the program's script cannot be loaded", async () => {
    const { page } = await open((p) => p.route(`${hostScripts}**`, (route) => route.abort()));
    await page.getByRole("heading", { name: /script could not be loaded/ }).waitFor();
    await picture(page, "no-script");
  });

  it("names what an older program lacks, and the versions that have it", async () => {
    const { page } = await open(lacking("SharedRuntime"));
    await page.getByRole("heading", { name: /cannot run Kernbook/ }).waitFor();
    const text = await page.textContent("main");
    expect(text).toContain(
      "It lacks SharedRuntime 1.1, needed for worksheet functions and panel in one program. It came with " +
        "version 2002 of the subscription on Windows and 16.35 on a Mac.",
    );
    expect(text).not.toContain("CustomFunctionsRuntime");
    await picture(page, "older");
  });

  it(`opens the panel with at most ${mostFirst} kB; views, templates and calculation come when they are asked for`, async () => {
    const asked = new Set<string>();
    const { page } = await open((p) => {
      p.on("request", (request) => {
        const url = request.url();
        if (url.startsWith(shop.url)) asked.add(url.slice(shop.url.length));
      });
      return answerAsProgram(p);
    });
    const ofOurs = (): readonly string[] => [...asked].filter((name) => !/favicon/.test(name));
    await page
      .getByRole("radio", { name: /Post-tensioned/ })
      .first()
      .waitFor();
    // What the page asks for of itself, once it is open, loads with it.
    await page.waitForLoadState("networkidle");
    const named = namedBy("taskpane.html");
    const others = ofOurs().filter((name) => !named.includes(name));
    expect(ofOurs()).toEqual(expect.arrayContaining([...named]));
    // It looks which templates the office serves and which are kept here; what reads them comes where there are some.
    expect(others.filter((name) => !name.startsWith("parts/"))).toEqual(["templates/index.json"]);
    expect(sum(others)).toBeLessThan(5);
    expect(sum(ofOurs())).toBeLessThan(mostFirst);
    await page
      .getByRole("radio", { name: /Post-tensioned/ })
      .first()
      .click();
    await page.getByRole("heading", { name: "Inputs" }).waitFor();
    const templates = ofOurs().filter((name) => /tensioned-/.test(name));
    expect(templates.map((name) => name.replace(/\.[^.]+\.js$/, ""))).toEqual(["parts/post-tensioned-en1992-2004"]);
  });

  it.each(["light", "dark"] as const)(
    "registers every function, shows the panel and traces a cell, asking only for the program's script (%s)",
    async (theme) => {
      const { page, errors, external } = await open(answerAsProgram, theme);
      await page.getByRole("tab", { name: "Build" }).waitFor();
      const { associated, startup } = await page.evaluate(() => ({
        associated: window.program.associated,
        startup: window.program.startup,
      }));
      const { functions } = JSON.parse(await readFile(join(dist, "functions.json"), "utf8")) as {
        readonly functions: readonly { readonly id: string }[];
      };
      expect(associated).toEqual(functions.map(({ id }) => id));
      expect(startup).toEqual(["Load"]);
      expect(await page.evaluate(() => document.documentElement.dataset["theme"])).toBe(theme);
      expect(await seriousProblems(page)).toEqual([]);
      await picture(page, `build-${theme}`);

      await page.evaluate(() => window.program.type(0, 0, '=KERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m",1395,12)'));
      await page.getByRole("tab", { name: "Trace" }).click();
      // 1395·e^−0.096
      await page
        .getByText(/1267\.31/)
        .first()
        .waitFor();
      await page.locator("#kb-view-trace math").first().waitFor();
      expect(await seriousProblems(page)).toEqual([]);
      await picture(page, `trace-${theme}`);

      await page.getByRole("tab", { name: "Insert" }).click();
      await page.getByRole("combobox").fill("friction_stress");
      await page.keyboard.press("Enter");
      await page.locator("#kb-view-insert math").first().waitFor();
      expect(await seriousProblems(page)).toEqual([]);
      await picture(page, `insert-${theme}`);

      expect(errors).toEqual([]);
      expect(external).toEqual([hostScript]);
    },
  );

  it("says that part of a sheet is still there where it can be neither completed nor removed", async () => {
    const { page } = await open(answerAsProgram);
    await page.getByRole("radio", { name: /^Pre-tensioned.*IS 1343:1980/ }).check();
    await page.getByRole("button", { name: "Fill with the invented example" }).click();
    await page.evaluate(() => window.program.refuse(["WorksheetProtection.protect", "Worksheet.delete"]));
    await page.getByRole("button", { name: "Build the sheet" }).click();
    const alert = page.getByRole("alert").filter({ hasText: "part of it is still in the workbook" });
    await alert.waitFor({ timeout: 90_000 });
    expect(await alert.innerText()).toMatch(/no WorksheetProtection\.protect.*delete the sheet “/s);
    expect(await alert.innerText()).not.toContain("nothing was left");
  });

  it("removes what a build that broke off long ago left, and says so", async () => {
    const { page } = await open(async (next) => {
      await next.addInitScript(() => {
        window.programSheets = ["kb-m0000000-0123abcd", "Mine"];
      });
      await answerAsProgram(next);
    });
    await page.getByText("The sheet kb-m0000000-0123abcd was removed: it was unfinished").waitFor();
  });

  it("stands in the built folder with everything that the manifest names", async () => {
    const manifest = await readFile(join(dist, "manifest.xml"), "utf8");
    const source = /<SourceLocation DefaultValue="(.*)\/taskpane\.html"\/>/.exec(manifest)![1]!;
    const files = [...new Set([...manifest.matchAll(/DefaultValue="(https:[^"]*)"/g)].map(([, url]) => url!))];
    expect(files.length).toBeGreaterThan(6);
    for (const url of files) {
      expect(url.startsWith(`${source}/`), url).toBe(true);
      expect(existsSync(join(dist, url.slice(source.length + 1))), url).toBe(true);
    }
  });
});
