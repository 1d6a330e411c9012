import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import { indexOf, readTemplate } from "../../src/office/index.ts";
import { columns } from "../../src/sheet/columns.ts";
import { small } from "../unit/office/smallTemplate.ts";
import { cellNamed, openWorkshop, placeOf, seriousProblems, sharedPage, whenReady, type Workshop } from "./browser.ts";

let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

const sheet = "Hanger";
const contents = JSON.stringify(small);
const file = (name: string, text: string) => ({ name, mimeType: "application/json", buffer: Buffer.from(text) });
const build = (page: Page) => page.locator("#kb-view-build");
const check = (page: Page) => page.locator("#kb-view-check");
const remove = (page: Page) => build(page).getByRole("button", { name: /^Remove “/ });
/** The office's template in the list, by its version. */
const choice = (page: Page, version: string) =>
  build(page).getByRole("radio", { name: new RegExp(`Small check.*Alder Office.*${version}`) });

/** Opens what is folded away under a summary. */
async function unfold(page: Page, summary: RegExp | string): Promise<void> {
  const place = build(page).locator("summary", { hasText: summary }).filter({ visible: true }).first();
  if (!(await place.evaluate((one) => (one.parentElement as HTMLDetailsElement).open))) await place.click();
}

/** One after the other on one page: each needs what the one before left. */
describe("templates of an office in the panel", () => {
  const shared = sharedPage(() => shop);

  it("are chosen, refused by reason, used, and missed by their sheets", async () => {
    const { page, errors, external } = await shared();
    await page.getByRole("button", { name: "Build another" }).click();
    await unfold(page, /^Templates of the office: none/);
    await build(page)
      .getByLabel("Load files")
      .setInputFiles([
        file("unsafe.json", contents.replace('"=20"', '"=WEBSERVICE(1)"')),
        file("small.json", contents),
      ]);
    await build(page).getByText("small.json is loaded and kept in this browser.").waitFor();
    await build(page).getByText("unsafe.json was not taken:").waitFor();
    expect(
      await build(page)
        .getByText(/WEBSERVICE is not among/)
        .count(),
    ).toBeGreaterThan(0);

    await choice(page, "1.0.0").check();
    await build(page).getByLabel("Name of the new sheet").fill(sheet);
    await build(page).getByRole("button", { name: "Build the sheet" }).click();
    await build(page).getByRole("button", { name: sheet, exact: true }).waitFor();
    await page.getByRole("button", { name: "Build another" }).click();
    await remove(page).click();
    await page.getByRole("tab", { name: "Check" }).click();
    await page.evaluate((name) => window.kernbook!.host!.select({ sheet: name, row: 3, column: 0 }), sheet);
    await check(page)
      .getByRole("button", { name: `Compare “${sheet}”` })
      .click();
    await check(page)
      .getByText(`“${sheet}” was built with the template small-check, version 1.0.0, of ${small.office}`)
      .waitFor({ timeout: 60_000 });
    expect(await seriousProblems(page, "#kb-view-check")).toEqual([]);
    await check(page)
      .getByLabel("Load its file")
      .setInputFiles([file("small.json", contents)]);
    await check(page).getByText("AS ITS TEMPLATE").waitFor({ timeout: 60_000 });
    expect(errors).toEqual([]);
    expect(external).toEqual([]);
  });

  it("are made of a sheet that was changed by hand, with the cell where that cannot be", async () => {
    const { page, errors, external } = await shared();
    await page.getByRole("tab", { name: "Build" }).click();
    await unfold(page, "Keep a sheet as a template");
    await build(page)
      .getByRole("button", { name: `Take off the protection of “${sheet}”` })
      .click();
    await build(page)
      .getByText(/The protection of .* is off/)
      .waitFor();
    const { row } = placeOf(await cellNamed(page, sheet, "F"));
    const put = (value: string): Promise<void> =>
      page.evaluate(([name, cell]) => window.kernbook!.host!.enterAll(name, [cell]), [
        sheet,
        { row, column: columns.description, value },
      ] as const);
    await put("force as ordered, see http://example.org");
    const form = build(page).locator(".kb-keep");
    const read = build(page).getByRole("button", { name: `Read “${sheet}”` });
    await read.click();
    await form.getByText("No template is made of the sheet as it is").waitFor({ timeout: 60_000 });
    expect(await form.locator(".kb-failure").textContent()).toContain("http://example.org");
    await form
      .getByRole("button", { name: new RegExp(`^Go to [A-Z]+${row + 1} of`) })
      .first()
      .click();
    expect(await page.evaluate(() => window.kernbook!.host!.selection())).toMatchObject({ sheet, row });

    await put("force as ordered");
    await read.click();
    await form.getByText("Changed: 1").waitFor();
    await form.getByLabel("Version of the template").fill("1.0.0");
    await form.getByRole("button", { name: "Make the template" }).click();
    await form.getByText(/is of version 1\.0\.0 of this template: give a higher version/).waitFor();
    await form.getByLabel("Version of the template").fill("1.1.0");
    await form.getByText(/^Locked rows/).click();
    await form.getByRole("checkbox", { name: /limit Fmax/ }).check();
    expect(await seriousProblems(page, "#kb-view-build")).toEqual([]);
    await form.getByRole("button", { name: "Make the template" }).click();
    await form.getByText(/The template is made: small-check-1\.1\.0\.json/).waitFor({ timeout: 60_000 });
    const downloaded = page.waitForEvent("download");
    await form.getByRole("button", { name: "Save the file" }).click();
    const saved = readFileSync(await (await downloaded).path(), "utf8");
    expect(JSON.parse(saved)).toMatchObject({ id: "small-check", version: "1.1.0", locked: ["Fmax"] });
    expect(saved).toContain("force as ordered");
    await form.getByRole("button", { name: "Load it here" }).click();
    await form.getByText(/It is loaded, kept in this browser/).waitFor();
    await choice(page, "1.1.0").waitFor();
    expect(errors).toEqual([]);
    expect(external).toEqual([]);
  });

  it("are there again at the next start, beside those that the office serves, and the newest is in use", async () => {
    const { page, errors, external } = await shared();
    const newer = contents.replace('"1.0.0"', '"1.10.0"');
    const of = await readTemplate(newer, { checked: true });
    const served: Readonly<Record<string, string>> = {
      "index.json": JSON.stringify(indexOf([{ file: "served.json", of }])),
      "served.json": newer,
    };
    await page.route("**/templates/*.json", (route) =>
      route.fulfill({ contentType: "application/json", body: served[route.request().url().split("/").at(-1)!]! }),
    );
    await page.reload();
    await whenReady(page);
    await page.getByRole("tab", { name: "Build" }).click();
    const another = page.getByRole("button", { name: "Build another" });
    if (await another.isVisible()) await another.click();
    await choice(page, "1.10.0").waitFor();
    await unfold(page, /^Templates of the office: 1/);
    await build(page)
      .getByText(/Served with this panel/)
      .waitFor();
    await build(page)
      .getByText(/Chosen here .*Not in use: version 1\.10\.0 from served\.json is used\./)
      .waitFor();
    expect(await seriousProblems(page, "#kb-view-build")).toEqual([]);
    await remove(page).click();
    await build(page)
      .getByText(/ is removed\.$/)
      .waitFor();
    expect(await remove(page).count()).toBe(0);
    expect(await choice(page, "1.10.0").count()).toBe(1);
    expect(errors).toEqual([]);
    expect(external).toEqual([]);
  });
});
