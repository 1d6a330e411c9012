import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { createRequire } from "node:module";
import { afterAll, afterEach } from "vitest";
import { chromium, type Browser, type Page } from "playwright-core";
import sirv from "sirv";
import type { AxeResults } from "axe-core";
import { dist } from "../../src/command/build.ts";
import type { CellContent, GridHost } from "../../src/hosts/index.ts";
import { findChromium } from "./chromium.ts";

declare global {
  interface Window {
    /** What the workbench page hands to tests. */
    readonly kernbook?: {
      readonly ready: boolean;
      readonly host?: GridHost;
      readonly cellBox?: (address: string) => DOMRect;
    };
    readonly axe: { readonly run: (context: unknown, options: unknown) => Promise<AxeResults> };
  }
}

export type Theme = "light" | "dark";

export interface OpenPage {
  readonly page: Page;
  readonly url: string;
  /** Console errors and uncaught exceptions so far. */
  readonly errors: readonly string[];
  /** Requests to anywhere but our own server. */
  readonly external: readonly string[];
}

export interface Workshop {
  readonly browser: Browser;
  readonly url: string;
  /** Opens a page of the built folder in a fresh profile. */
  readonly open: (options?: {
    readonly path?: string;
    readonly theme?: Theme;
    readonly width?: number;
    readonly height?: number;
  }) => Promise<OpenPage>;
  readonly close: () => Promise<void>;
}

function serve(folder: string): Promise<Server> {
  const files = sirv(folder, { etag: true });
  const server = createServer((request, response) =>
    files(request, response, () => {
      response.statusCode = 404;
      response.end();
    }),
  );
  return new Promise((resolve) => server.listen(0, "127.0.0.1", () => resolve(server)));
}

/** A server for the built pages and a browser to look at them. */
export async function openWorkshop(folder = dist): Promise<Workshop> {
  const { env, ...place } = await findChromium();
  const server = await serve(folder);
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  const browser = await chromium.launch({
    ...place,
    env: { ...(process.env as Record<string, string>), ...env },
    args: ["--no-sandbox", "--no-zygote", "--disable-gpu", "--disable-dev-shm-usage"],
  });
  return {
    browser,
    url,
    async open({ path = "", theme = "light", width = 1400, height = 900 } = {}) {
      const context = await browser.newContext({ viewport: { width, height }, colorScheme: theme });
      const page = await context.newPage();
      page.setDefaultTimeout(45_000);
      const errors: string[] = [];
      const external: string[] = [];
      page.on("console", (message) => {
        if (message.type() === "error") errors.push(message.text());
      });
      page.on("pageerror", (error) => errors.push(error.message));
      page.on("request", (request) => {
        if (!request.url().startsWith(url) && !/^(data|blob):/.test(request.url())) external.push(request.url());
      });
      await page.goto(url + path);
      return { page, url, errors, external };
    },
    async close() {
      await browser.close();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

/**
 * A page with the demonstration sheet that the tests of a group use one after the other, because opening one takes
 * seconds: each test leaves the workbook as the next needs it, and after one that failed the next gets a new page. To be
 * called within the group.
 */
export function sharedPage(
  shop: () => Workshop,
  options: Parameters<Workshop["open"]>[0] = {},
): () => Promise<OpenPage> {
  let kept: OpenPage | undefined;
  const drop = async (): Promise<void> => {
    await kept?.page.context().close();
    kept = undefined;
  };
  afterEach(async ({ task }) => {
    if (task.result?.state === "fail") await drop();
  });
  afterAll(drop);
  return async () => {
    if (kept?.page.isClosed()) await drop();
    if (!kept) {
      kept = await shop().open(options);
      await whenReady(kept.page);
    }
    return kept;
  };
}

/** Waits until the grid stands with the demonstration sheet built. */
export async function whenReady(page: Page): Promise<void> {
  const end = Date.now() + 120_000;
  // Asked from here: the page's content-security policy lets nothing wait by evaluating text inside it.
  while (!(await page.evaluate(() => window.kernbook?.ready === true))) {
    if (Date.now() > end) throw new Error("the workbench is not ready after two minutes");
    await page.waitForTimeout(100);
  }
}

/** Brings the list of templates into view: the result of the sheet looked at loads by itself, and hides it until asked for. */
export async function showTemplates(page: Page): Promise<void> {
  await page.getByRole("tab", { name: "Build" }).click();
  const another = page.getByRole("button", { name: "Build another" });
  const first = page.getByRole("group", { name: "Stress check" }).getByRole("radio").first();
  for (const end = Date.now() + 60_000; !(await first.isVisible()) && Date.now() < end;) {
    if (await another.isVisible()) await another.click();
    else await page.waitForTimeout(100);
  }
}

/** Clicks a cell of a sheet as a person would, after bringing it into view. The grid is a picture: the page says where the cell stands. */
export async function clickCell(page: Page, sheet: string, address: string, clicks = 1): Promise<void> {
  await page.evaluate((place) => window.kernbook!.host!.select(place), { sheet, ...placeOf(address) });
  await page.waitForTimeout(200);
  const [x, y] = await page.evaluate((a) => {
    const box = window.kernbook!.cellBox!(a);
    return [box.x + box.width / 2, box.y + box.height / 2] as const;
  }, address);
  await page.mouse.click(x, y, { clickCount: clicks });
}

/** Clicks a cell, types and presses Enter. */
export async function typeInCell(page: Page, sheet: string, address: string, text: string): Promise<void> {
  await clickCell(page, sheet, address);
  // On a busy machine the grid takes its time to follow the click: what is typed before that is lost.
  const place = { sheet, ...placeOf(address) };
  const end = Date.now() + 30_000;
  while (
    !(await page.evaluate(async (to) => {
      const at = await window.kernbook!.host!.selection();
      return at?.sheet === to.sheet && at.row === to.row && at.column === to.column;
    }, place))
  ) {
    if (Date.now() > end) throw new Error(`the click on ${address} of “${sheet}” did not select it`);
    await page.waitForTimeout(50);
  }
  await page.waitForTimeout(150);
  await page.keyboard.type(text, { delay: 10 });
  await functionListGone(page);
  await page.keyboard.press("Enter");
}

/** While the list of functions is still open, Enter would choose from it. On a busy machine it comes and goes late. */
export async function functionListGone(page: Page): Promise<void> {
  await page.waitForTimeout(200);
  await page.locator('ul[data-u-comp="sheets-formula-editor"]').waitFor({ state: "hidden" });
}

/** Row and column of `D12`, counted from 0. */
export function placeOf(address: string): { readonly row: number; readonly column: number } {
  const found = /^([A-Z]+)(\d+)$/.exec(address);
  if (!found) throw new Error(`${address} is no cell address`);
  return {
    row: Number(found[2]) - 1,
    column: [...found[1]!].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1,
  };
}

/** The upper left cell of a named row or column of the sheet. */
export async function cellNamed(page: Page, sheet: string, id: string): Promise<string> {
  const reference = await page.evaluate(([n, s]) => window.kernbook!.host!.resolveName(n, s), [
    `kb_${id}`,
    sheet,
  ] as const);
  const found = /\$?([A-Z]+)\$?(\d+)/.exec(reference!.slice(reference!.lastIndexOf("!") + 1));
  return `${found![1]}${found![2]}`;
}

/** What stands in a cell, at full precision, as the host reads it. */
export async function readCell(page: Page, sheet: string, address: string): Promise<CellContent> {
  return page.evaluate(
    async ([name, place]) => (await window.kernbook!.host!.read(name, { ...place, rows: 1, columns: 1 }))[0]![0]!,
    [sheet, placeOf(address)] as const,
  );
}

/** Waits until a cell's value passes a test, then gives it. */
export async function cellWhen(
  page: Page,
  sheet: string,
  address: string,
  accept: (cell: CellContent) => boolean,
  seconds = 45,
): Promise<CellContent> {
  const end = Date.now() + seconds * 1000;
  for (;;) {
    const cell = await readCell(page, sheet, address);
    if (accept(cell)) return cell;
    if (Date.now() > end) throw new Error(`${sheet}!${address} stays at ${JSON.stringify(cell)}`);
    await page.waitForTimeout(100);
  }
}

const axeText = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Accessibility problems that count as serious or critical, each with the elements concerned. */
export async function seriousProblems(
  page: Page,
  inside = "body",
  without: readonly string[] = [],
): Promise<readonly string[]> {
  await page.evaluate(axeText);
  const { violations } = await page.evaluate(
    ([include, exclude]) =>
      window.axe.run(
        { include: [include], exclude: exclude.map((selector) => [selector]) },
        { resultTypes: ["violations"] },
      ),
    [inside, without] as const,
  );
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.map(({ target }) => target.join(" ")).join("; ")}`);
}
