/**
 * `npx tsx tests/bench/workbench.ts`: what a user waits for in the workbench, by the clock of the page: a first verdict after
 * the last answer of the quick start, a built sheet, the verdict after an input, Compare. Medians of `--times` (5) on one
 * machine, beside the aims; decides no test.
 */
import type { Page } from "playwright-core";
import { buildIfStale } from "../../src/command/build.ts";
import { cellNamed, cellWhen, openWorkshop, placeOf, whenReady } from "../browser/browser.ts";

const at = process.argv.indexOf("--times");
const times = at < 0 ? 5 : Number(process.argv[at + 1]);
const demonstration = "Alder Quay footbridge beam";

async function seconds(what: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await what();
  return (performance.now() - began) / 1000;
}

async function report(what: string, aim: number, once: (turn: number) => Promise<number>): Promise<void> {
  const taken: number[] = [];
  for (let turn = 1; turn <= times; turn++) taken.push(await once(turn));
  const sorted = [...taken].sort((a, b) => a - b);
  const median = sorted[Math.floor(sorted.length / 2)]!;
  const first = taken[0]!.toFixed(2);
  const span = `${sorted[0]!.toFixed(2)}–${sorted.at(-1)!.toFixed(2)}`;
  console.log(`${what.padEnd(44)}${median.toFixed(2)} s (${span}, the first ${first}); aim ${aim}`);
}

const form = (page: Page) => page.locator("#kb-view-build");

async function chooseTemplate(page: Page, name: RegExp): Promise<void> {
  await page.getByRole("tab", { name: "Build" }).click();
  const another = page.getByRole("button", { name: "Build another" });
  const template = page.getByRole("radio", { name });
  await another.or(template).first().waitFor();
  if (await another.isVisible()) await another.click();
  await template.check();
}

/** A T-beam of 30 m, invented; the tendons are found. */
async function firstVerdict(page: Page): Promise<number> {
  await chooseTemplate(page, /^Post-tensioned beam.*EN 1992-1-1:2004/);
  await page.getByRole("checkbox", { name: /^Quick start/ }).check();
  await page.getByLabel("Span", { exact: true }).fill("30");
  await page.getByLabel("Section", { exact: true }).selectOption("T");
  await page.getByLabel("Depth", { exact: true }).fill("1600");
  await page.getByLabel(/^Concrete, cylinder/).fill("45");
  await page.getByLabel("Superimposed permanent load").fill("5");
  await page.getByLabel("Variable load").fill("10");
  await page.getByLabel("Exposure").selectOption("XC2_XC4");
  await page.getByLabel("Strand, wire or bar").selectOption({ index: 3 });
  // As long as it takes to read the last two questions, which may stay empty.
  await page.waitForTimeout(2000);
  return seconds(async () => {
    await form(page).getByRole("button", { name: "Show the first verdict" }).click();
    await form(page).getByText("Overall verdict").waitFor({ timeout: 120_000 });
  });
}

async function built(page: Page, turn: number): Promise<number> {
  await chooseTemplate(page, /^Post-tensioned beam.*EN 1992-1-1:2004/);
  await page.getByRole("checkbox", { name: /^Quick start/ }).uncheck();
  await page.getByRole("button", { name: "Fill with the invented example" }).click();
  await page.getByLabel("Name of the new sheet").fill(`Built ${turn}`);
  return seconds(async () => {
    await page.getByRole("button", { name: "Build the sheet" }).click();
    await form(page).getByText("Overall verdict").waitFor({ timeout: 120_000 });
  });
}

async function recalculated(page: Page, turn: number): Promise<number> {
  const strength = await cellNamed(page, demonstration, "fck");
  const verdict = await cellNamed(page, demonstration, "overall");
  const value = turn % 2 === 1 ? 12 : 40;
  return seconds(async () => {
    await page.evaluate(
      ([sheet, place, typed]) => window.kernbook!.host!.enterAll(sheet, [{ ...place, value: typed }]),
      [demonstration, placeOf(strength), value] as const,
    );
    await cellWhen(page, demonstration, verdict, (cell) => (cell.value === "OK") === (value === 40));
  });
}

/** On a page of its own: what was found before would stand there. */
async function compared(): Promise<number> {
  const { page } = await shop.open({ width: 1400, height: 1000 });
  await whenReady(page);
  await page.getByRole("tab", { name: "Check" }).click();
  const panel = page.locator("#kb-view-check");
  await panel.getByRole("radio", { name: "Compare" }).check({ force: true });
  const compare = panel.getByRole("button", { name: /^Compare “/ });
  await compare.waitFor();
  const taken = await seconds(async () => {
    await compare.click();
    await panel.getByText("AS ITS TEMPLATE").waitFor({ timeout: 120_000 });
  });
  await page.context().close();
  return taken;
}

await buildIfStale((text) => console.error(text));
const shop = await openWorkshop();
try {
  const { page, errors } = await shop.open({ width: 1400, height: 1000 });
  page.setDefaultTimeout(120_000);
  await whenReady(page);
  await report("an input changed, verdict in its cell", 0.5, (turn) => recalculated(page, turn));
  if (times % 2 === 1) await recalculated(page, 2);
  await report("Compare, the first of a page", 1.5, compared);
  await report("a sheet built from the form", 1.5, (turn) => built(page, turn));
  await report("first verdict after the last answer", 2, () => firstVerdict(page));
  for (const error of errors) console.log(`error on the page: ${error}`);
} finally {
  await shop.close();
}
