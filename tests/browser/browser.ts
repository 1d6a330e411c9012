import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { createRequire } from "node:module";
import { chromium, type Browser, type Page } from "playwright-core";
import sirv from "sirv";
import type { AxeResults } from "axe-core";
import { dist } from "../../src/command/build.ts";
import type { CellContent, Place } from "../../src/hosts/index.ts";
import type {} from "../../taskpane/workbench/workbench.ts";
import { findChromium } from "./chromium.ts";

declare global {
  interface Window {
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
  readonly open: (options?: { readonly path?: string; readonly theme?: Theme; readonly width?: number; readonly height?: number }) => Promise<OpenPage>;
  readonly close: () => Promise<void>;
}

function serve(folder: string): Promise<Server> {
  const files = sirv(folder, { etag: true });
  const server = createServer((request, response) => files(request, response, () => {
    response.statusCode = 404;
    response.end();
  }));
  return new Promise((resolve) => server.listen(0, "127.0.0.1", () => resolve(server)));
}

/** A server for the built pages and a browser to look at them. */
export async function openWorkshop(folder = dist): Promise<Workshop> {
  const { executablePath, env } = await findChromium();
  const server = await serve(folder);
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  const browser = await chromium.launch({ executablePath, env: { ...(process.env as Record<string, string>), ...env }, args: ["--no-sandbox", "--no-zygote", "--disable-gpu", "--disable-dev-shm-usage"] });
  return {
    browser,
    url,
    async open({ path = "", theme = "light", width = 1400, height = 900 } = {}) {
      const context = await browser.newContext({ viewport: { width, height }, colorScheme: theme });
      const page = await context.newPage();
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

/** Waits until the grid stands with the demonstration sheet built. */
export async function whenReady(page: Page): Promise<void> {
  await page.waitForFunction("window.kernbook !== undefined", undefined, { timeout: 60_000 });
  await page.evaluate(() => window.kernbook.ready);
}

async function selected(page: Page): Promise<Place> {
  const place = await page.evaluate(() => window.kernbook.host!.selection());
  if (!place) throw new Error("no cell is selected");
  return place;
}

/**
 * Clicks a cell of a sheet as a person would. The grid is a picture, so the place is found by looking where clicks land:
 * halving in both directions until the click hits the cell.
 */
export async function clickCell(page: Page, sheet: string, address: string): Promise<void> {
  const wanted = placeOf(address);
  await page.evaluate((place) => window.kernbook.host!.select(place), { sheet, ...wanted });
  const { x, y, width, height } = await page.evaluate(() => {
    const boxes = [...document.querySelectorAll("canvas")].map((canvas) => canvas.getBoundingClientRect());
    const { x, y, width, height } = boxes.reduce((a, b) => (b.width * b.height > a.width * a.height ? b : a));
    return { x, y, width, height };
  });
  // Row and column headings stand at the left and at the top; scroll bars at the right and at the bottom.
  let [left, right, top, bottom] = [x + 50, x + width - 15, y + 25, y + height - 15];
  for (let tries = 0; tries < 24; tries++) {
    const at = [(left + right) / 2, (top + bottom) / 2] as const;
    await page.mouse.click(...at);
    await page.waitForTimeout(60);
    const { row, column } = await selected(page);
    if (row === wanted.row && column === wanted.column) return;
    if (column < wanted.column) left = at[0];
    if (column > wanted.column) right = at[0];
    if (row < wanted.row) top = at[1];
    if (row > wanted.row) bottom = at[1];
  }
  throw new Error(`no click found ${sheet}!${address}`);
}

/** Clicks a cell, types and presses Enter. */
export async function typeInCell(page: Page, sheet: string, address: string, text: string): Promise<void> {
  await clickCell(page, sheet, address);
  await page.keyboard.type(text, { delay: 10 });
  await page.keyboard.press("Enter");
}

/** Row and column of `D12`, counted from 0. */
export function placeOf(address: string): { readonly row: number; readonly column: number } {
  const found = /^([A-Z]+)(\d+)$/.exec(address);
  if (!found) throw new Error(`${address} is no cell address`);
  return { row: Number(found[2]) - 1, column: [...found[1]!].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1 };
}

/** What stands in a cell, at full precision, as the host reads it. */
export async function readCell(page: Page, sheet: string, address: string): Promise<CellContent> {
  return page.evaluate(async ([name, place]) => (await window.kernbook.host!.read(name, { ...place, rows: 1, columns: 1 }))[0]![0]!, [sheet, placeOf(address)] as const);
}

/** Waits until a cell's value passes a test, then gives it. */
export async function cellWhen(page: Page, sheet: string, address: string, accept: (cell: CellContent) => boolean, seconds = 20): Promise<CellContent> {
  const end = Date.now() + seconds * 1000;
  for (;;) {
    const cell = await readCell(page, sheet, address);
    if (accept(cell)) return cell;
    if (Date.now() > end) throw new Error(`${sheet}!${address} stays at ${JSON.stringify(cell)}`);
    await page.waitForTimeout(100);
  }
}

const axeText = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Accessibility problems that count as serious or critical, each with the elements concerned. The grid's own canvas is not ours to judge. */
export async function seriousProblems(page: Page, inside = "body", without: readonly string[] = []): Promise<readonly string[]> {
  await page.evaluate(axeText);
  const { violations } = await page.evaluate(([include, exclude]) => window.axe.run({ include: [include], exclude: exclude.map((selector) => [selector]) }, { resultTypes: ["violations"] }), [inside, without] as const);
  return violations.filter(({ impact }) => impact === "serious" || impact === "critical").map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.map(({ target }) => target.join(" ")).join("; ")}`);
}
