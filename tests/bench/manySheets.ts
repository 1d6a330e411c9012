/**
 * `npx tsx tests/bench/manySheets.ts`: the workbench with many sheets, over a slow connection and in two tabs at once.
 * Times and memory of one run on one machine; ends with 1 where a sheet is missing or wrong. `--sheets 50` sets how many.
 */
import type { Page } from "playwright-core";
import { buildIfStale } from "../../src/command/build.ts";
import {
  cellNamed,
  cellWhen,
  openWorkshop,
  readCell,
  typeInCell,
  whenReady,
  type Workshop,
} from "../browser/browser.ts";

const demonstration = "Alder Quay footbridge beam";
const at = process.argv.indexOf("--sheets");
const sheets = at < 0 ? 50 : Number(process.argv[at + 1]);
const say = (what: string, value: string): void => console.log(`${what.padEnd(58)}${value.padStart(22)}`);
const faults: string[] = [];

async function heap(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send("HeapProfiler.collectGarbage");
  const { usedSize } = await session.send("Runtime.getHeapUsage");
  await session.detach();
  return usedSize / 1e6;
}

async function build(page: Page, name: string): Promise<number> {
  await page.getByRole("button", { name: "Build another" }).click();
  await page.getByRole("radio", { name: /^Post-tensioned beam.*EN 1992-1-1:2004/ }).check();
  await page.getByRole("button", { name: "Fill with the invented example" }).click();
  await page.getByLabel("Name of the new sheet").fill(name);
  const began = Date.now();
  await page.getByRole("button", { name: "Build the sheet" }).click();
  await page.getByRole("button", { name, exact: true }).first().waitFor({ timeout: 120_000 });
  return (Date.now() - began) / 1000;
}

async function manySheets(shop: Workshop): Promise<void> {
  const { page, errors } = await shop.open();
  // The page may stand still while many sheets are computed: that is measured, not a fault.
  page.setDefaultTimeout(120_000);
  await whenReady(page);
  say("heap with the demonstration sheet", `${(await heap(page)).toFixed(0)} MB`);
  const times: number[] = [];
  for (let i = 1; i < sheets; i++) {
    times.push(await build(page, `Beam ${i}`));
    if (i % 10 === 9)
      say(`sheet ${i + 1}: built in; heap`, `${times.at(-1)!.toFixed(1)} s; ${(await heap(page)).toFixed(0)} MB`);
  }
  const names = await page.evaluate(() => window.kernbook!.host!.sheetNames());
  if (names.length !== sheets + 1) faults.push(`${names.length} sheets stand, ${sheets + 1} should`);
  for (const name of names.slice(1)) {
    const { value } = await readCell(page, name, await cellNamed(page, name, "overall"));
    if (value !== "OK") faults.push(`${name}: verdict ${String(value)}`);
  }
  const began = Date.now();
  await typeInCell(page, names.at(-1)!, await cellNamed(page, names.at(-1)!, "fck"), "12");
  await cellWhen(
    page,
    names.at(-1)!,
    await cellNamed(page, names.at(-1)!, "overall"),
    ({ value }) => value !== "OK",
    60,
  );
  say(`an input of sheet ${sheets} changed, verdict there after`, `${((Date.now() - began) / 1000).toFixed(1)} s`);
  faults.push(...errors);
  await page.context().close();
}

/** 50 kB and 300 ms a request, as a telephone gives in the country. */
async function slowly(shop: Workshop): Promise<void> {
  const context = await shop.browser.newContext();
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send("Network.emulateNetworkConditions", {
    offline: false,
    latency: 300,
    downloadThroughput: 200_000,
    uploadThroughput: 50_000,
  });
  const began = Date.now();
  await page.goto(shop.url, { timeout: 120_000, waitUntil: "commit" });
  while (!(await page.evaluate(() => window.kernbook?.ready === true))) {
    if (Date.now() - began > 180_000) {
      faults.push("the workbench is not ready after three minutes of a slow connection");
      break;
    }
    await page.waitForTimeout(200);
  }
  say("ready at 200 kB/s and 300 ms", `${((Date.now() - began) / 1000).toFixed(0)} s`);
  await context.close();
}

/** What is done in one tab must not reach the other. */
async function twoTabs(shop: Workshop): Promise<void> {
  const context = await shop.browser.newContext();
  const [first, second] = [await context.newPage(), await context.newPage()];
  for (const page of [first, second]) {
    await page.goto(shop.url);
    await whenReady(page);
  }
  const force = await cellNamed(second, demonstration, "overall");
  await first.bringToFront();
  await typeInCell(first, demonstration, await cellNamed(first, demonstration, "fck"), "12");
  await cellWhen(first, demonstration, force, ({ value }) => value !== "OK", 60);
  const there = await readCell(second, demonstration, force);
  if (there.value !== "OK") faults.push(`the other tab's verdict became ${String(there.value)}`);
  say("two tabs, an input changed in one", `the other stays ${String(there.value)}`);
  await context.close();
}

await buildIfStale((text) => console.error(text));
const shop = await openWorkshop();
try {
  await slowly(shop);
  await twoTabs(shop);
  await manySheets(shop);
} finally {
  await shop.close();
}
for (const fault of faults) console.log(`fault: ${fault}`);
process.exitCode = faults.length === 0 ? 0 : 1;
