import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import { columnLetters } from "../../src/cells/index.ts";
import { columns } from "../../src/sheet/columns.ts";
import {
  cellNamed,
  cellWhen,
  openWorkshop,
  placeOf,
  readCell,
  seriousProblems,
  sharedPage,
  whenReady,
  type Workshop,
} from "./browser.ts";

let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

const panel = (page: Page) => page.locator("#kb-view-check");
const beam = "Alder Quay footbridge beam";

async function openTool(page: Page, name: string): Promise<void> {
  await page.getByRole("tab", { name: "Check" }).click();
  await panel(page).getByRole("radio", { name }).check({ force: true });
  await panel(page).getByRole("heading", { name, level: 2, exact: true }).waitFor();
}

/** By how much the panel and the page are wider than they show. */
const overflow = (page: Page): Promise<readonly number[]> =>
  page.evaluate(() =>
    [document.querySelector(".kb-views")!, document.querySelector("#panel")!, document.documentElement].map(
      (e) => e.scrollWidth - e.clientWidth,
    ),
  );

describe("the checker's tools in the panel", () => {
  const shared = sharedPage(() => shop);

  it("what if: bars and verdicts without touching the sheet", async () => {
    const { page, errors } = await shared();
    const before = await page.evaluate(
      async (sheet) =>
        (await window.kernbook!.host!.read(sheet, { row: 0, column: 0, rows: 1000, columns: 12 })).map((row) =>
          row.map(({ formula, value }) => formula ?? value),
        ),
      beam,
    );
    await openTool(page, "What if");
    await panel(page)
      .getByRole("button", { name: `Load inputs of “${beam}”` })
      .click();
    await panel(page).getByRole("button", { name: "Show which inputs matter" }).click();
    await panel(page)
      .getByText(/inputs moved/)
      .waitFor({ timeout: 90_000 });
    expect(await panel(page).locator("svg, .kb-bars").count()).toBeGreaterThan(0);
    const after = await page.evaluate(
      async (sheet) =>
        (await window.kernbook!.host!.read(sheet, { row: 0, column: 0, rows: 1000, columns: 12 })).map((row) =>
          row.map(({ formula, value }) => formula ?? value),
        ),
      beam,
    );
    expect(after).toEqual(before);
    expect(errors).toEqual([]);
  });

  it("compare: no difference at first; a wrong input is found, leads to its cell, and the list goes onto a sheet", async () => {
    const { page, errors, external } = await shared();
    await openTool(page, "Compare");
    await panel(page)
      .getByRole("button", { name: `Compare “${beam}”` })
      .click();
    await panel(page).getByText("AS ITS TEMPLATE").waitFor({ timeout: 60_000 });
    await panel(page)
      .getByText(/as the sheet says/)
      .waitFor();
    const strength = await cellNamed(page, beam, "fck");
    // As another program would leave it: the grid's own refusal of such an entry is passed by.
    await page.evaluate(([sheet, place]) => window.kernbook!.host!.enterAll(sheet, [{ ...place, value: "40" }]), [
      beam,
      placeOf(strength),
    ] as const);
    await panel(page)
      .getByRole("button", { name: `Compare “${beam}”` })
      .click();
    await panel(page).getByText("DIFFERS", { exact: true }).waitFor({ timeout: 60_000 });
    await panel(page)
      .getByText(/stored as text/)
      .waitFor();
    await panel(page)
      .getByRole("button", { name: new RegExp(`^Go to ${strength}`) })
      .click();
    expect(await page.evaluate(async () => window.kernbook!.host!.selection())).toMatchObject({
      sheet: beam,
      ...placeOf(strength),
    });
    await panel(page).getByRole("button", { name: "Put the list on a new sheet" }).click();
    await panel(page)
      .getByText(/The list is on/)
      .filter({ visible: true })
      .waitFor({ timeout: 60_000 });
    const names = await page.evaluate(() => window.kernbook!.host!.sheetNames());
    const listed = names.find((name) => name.startsWith("Findings"))!;
    expect((await readCell(page, listed, "A1")).text).toContain(beam);
    await page.evaluate(([sheet, place]) => window.kernbook!.host!.enter({ sheet, ...place }, 40), [
      beam,
      placeOf(strength),
    ] as const);
    expect(errors).toEqual([]);
    expect(external).toEqual([]);
  });

  it("identify: names hand-typed formulas, sets the function beside one, never over it, and lists them on a sheet", async () => {
    const { page, errors, external } = await shared();
    const sheet = "Sheet1";
    await page.evaluate(async (on) => {
      const host = window.kernbook!.host!;
      const typed = [
        ["jacking stress", 1395, "MPa"],
        ["friction coefficient μ", 0.2, "1/rad"],
        ["angle α", 0.3, "rad"],
        ["wobble k", 0.003, "1/m"],
        ["distance x", 12, "m"],
      ];
      await host.insert(on, [
        ...typed.flatMap((row, r) => row.map((value, c) => ({ row: 20 + r, column: 7 + c, value }))),
        { row: 25, column: 8, formula: "=I21*EXP(-I22*(I23+I24*I25))" },
        { row: 26, column: 8, formula: "=I21*7+I22" },
      ]);
      await host.select({ sheet: on, row: 25, column: 8 });
    }, sheet);
    await openTool(page, "Identify");
    await panel(page).getByRole("button", { name: "Identify the whole sheet" }).click();
    await panel(page)
      .getByText(/2 hand-typed formulas: 0 identified, 1 nearly, 1 not recognised/)
      .first()
      .waitFor({ timeout: 60_000 });
    await panel(page)
      .getByText(/the label of I24 gives 1\/m/)
      .waitFor();
    await panel(page)
      .getByRole("button", { name: /Set the function beside it/ })
      .click();
    await page.evaluate((on) => window.kernbook!.host!.select({ sheet: on, row: 25, column: 8 }), sheet);
    await panel(page).getByRole("button", { name: "Put it in I26" }).click();
    await panel(page)
      .getByText(/not empty; nothing was written/)
      .waitFor();
    expect((await readCell(page, sheet, "I26")).formula).toContain("EXP");
    await page.evaluate((on) => window.kernbook!.host!.select({ sheet: on, row: 25, column: 10 }), sheet);
    await panel(page).getByRole("button", { name: "Put it in K26" }).click();
    await panel(page)
      .getByText(/which shows 1267/)
      .waitFor();
    await panel(page).getByRole("button", { name: "Put the list on a new sheet" }).click();
    await panel(page)
      .getByText(/The list is on/)
      .filter({ visible: true })
      .waitFor({ timeout: 60_000 });
    const names = await page.evaluate(() => window.kernbook!.host!.sheetNames());
    const listed = names.find((name) => name.startsWith("Formulas"))!;
    expect((await readCell(page, listed, "A1")).text).toContain(sheet);
    expect(errors).toEqual([]);
    expect(external).toEqual([]);
    await page.evaluate((on) => window.kernbook!.host!.select({ sheet: on, row: 0, column: 0 }), beam);
  });

  it("sign off: a mark stands on the sheet and turns stale when a value changes", async () => {
    const { page, errors } = await shared();
    await page.evaluate((sheet) => window.kernbook!.host!.select({ sheet, row: 0, column: 0 }), beam);
    await openTool(page, "Sign off");
    await panel(page).getByLabel("Your initials").fill("AB");
    const strength = { sheet: beam, ...placeOf(await cellNamed(page, beam, "fck")) };
    const mark = `${columnLetters(columns.mark)}${strength.row + 1}`;
    const row = (await readCell(page, beam, `A${strength.row + 1}`)).text;
    await page.evaluate((cell) => window.kernbook!.host!.select(cell), strength);
    await panel(page)
      .getByRole("button", { name: new RegExp(`^Mark .*${row.replace(".", "\\.")}`) })
      .click();
    await cellWhen(page, beam, mark, ({ text }) => /^AB 2\d{3}-/.test(text), 60);
    const done = panel(page)
      .getByRole("status")
      .filter({ hasText: `row ${row}` });
    await done.getByText(/stands at/).waitFor();
    await page.evaluate((cell) => window.kernbook!.host!.enter(cell, 42), strength);
    await cellWhen(page, beam, mark, ({ text }) => text.startsWith("STALE"), 60);
    await done.getByText(/values changed since/).waitFor();
    // The value it had, while another view is looked at.
    await page.getByRole("tab", { name: "Build" }).click();
    await page.evaluate((cell) => window.kernbook!.host!.enter(cell, 40), strength);
    await cellWhen(page, beam, mark, ({ text }) => /^AB 2\d{3}-/.test(text), 60);
    await page.waitForTimeout(1500);
    await page.getByRole("tab", { name: "Check" }).click();
    await done.getByText(/stands at/).waitFor();
    await page.evaluate((cell) => window.kernbook!.host!.select({ ...cell, row: cell.row + 1 }), strength);
    await done.waitFor({ state: "detached" });
    expect(errors).toEqual([]);
  });

  it.each(["light", "dark"] as const)("has no serious accessibility problem and fits 320 px, %s", async (theme) => {
    const { page } = await shop.open({ theme, width: 320, height: 900 });
    await whenReady(page);
    for (const tool of ["Compare", "Identify", "What if", "Sign off", "Prove", "Hand-out copy"]) {
      await openTool(page, tool);
      await page.waitForTimeout(300);
      expect(await overflow(page), tool).toEqual([0, 0, 0]);
      expect(await seriousProblems(page, "#panel"), tool).toEqual([]);
    }
    await page.context().close();
  });
});
