import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import { indexOf, readTemplate } from "../../src/office/index.ts";
import { columns } from "../../src/sheet/columns.ts";
import { cellNamed, openWorkshop, placeOf, seriousProblems, whenReady, type Workshop } from "./browser.ts";

let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

const beam = "Alder Quay footbridge beam";
const office = "Alder Office (invented)";
const build = (page: Page) => page.locator("#kb-view-build");
const check = (page: Page) => page.locator("#kb-view-check");

/** Opens what is folded away under a summary. */
async function unfold(page: Page, summary: RegExp | string): Promise<void> {
  const place = build(page).locator("summary", { hasText: summary }).filter({ visible: true }).first();
  if (!(await place.evaluate((one) => (one.parentElement as HTMLDetailsElement).open))) await place.click();
}

describe("templates of an office in the panel", () => {
  it("a sheet changed by hand becomes a template, which is loaded, kept, missed and removed", async () => {
    const { page, errors, external } = await shop.open();
    await whenReady(page);
    await unfold(page, "Keep a sheet as a template");
    await build(page)
      .getByRole("button", { name: `Take off the protection of “${beam}”` })
      .click();
    await build(page)
      .getByText(/The protection of .* is off/)
      .waitFor();
    const { row } = placeOf(await cellNamed(page, beam, "fck"));
    const put = (value: string): Promise<void> =>
      page.evaluate(([sheet, cell]) => window.kernbook!.host!.enterAll(sheet, [cell]), [
        beam,
        { row, column: columns.description, value },
      ] as const);
    await put("strength as ordered, see http://example.org");
    const form = build(page).locator(".kb-keep");
    const read = build(page).getByRole("button", { name: `Read “${beam}”` });
    await read.click();
    await form.getByText("No template is made of the sheet as it is").waitFor({ timeout: 60_000 });
    expect(await form.getByRole("alert").first().textContent()).toContain("http://example.org");
    await form
      .getByRole("button", { name: new RegExp(`^Go to [A-Z]+${row + 1} of`) })
      .first()
      .click();
    expect(await page.evaluate(() => window.kernbook!.host!.selection())).toMatchObject({ sheet: beam, row });
    await put("cylinder strength as ordered");
    await read.click();
    await form.getByText("Changed: 1").waitFor({ timeout: 60_000 });
    await form.getByLabel("Id of the template").fill("Alder beam");
    await form.getByRole("button", { name: "Make the template" }).click();
    await form.getByText(/“Alder beam” is no id/).waitFor();
    await form.getByLabel("Id of the template").fill("alder-beam");
    await form.getByLabel("Office that answers for it").fill(office);
    expect(await seriousProblems(page, "#kb-view-build")).toEqual([]);
    await form.getByRole("button", { name: "Make the template" }).click();
    await form.getByText(/The template is made: alder-beam-1\.0\.0\.json/).waitFor({ timeout: 60_000 });
    const downloaded = page.waitForEvent("download");
    await form.getByRole("button", { name: "Save the file" }).click();
    const contents = readFileSync(await (await downloaded).path(), "utf8");
    expect(JSON.parse(contents)).toMatchObject({ id: "alder-beam", version: "1.0.0", office });
    expect(contents).toContain("cylinder strength as ordered");

    // Chosen files: what is unsafe is refused by reason, what is good stays through a reload.
    const file = (name: string, text: string) => ({ name, mimeType: "application/json", buffer: Buffer.from(text) });
    await page.getByRole("button", { name: "Build another" }).click();
    await unfold(page, /^Templates of the office/);
    const chooser = build(page).getByLabel("Load files");
    await chooser.setInputFiles([
      file("unsafe.json", contents.replace('"alder-beam"', '"unsafe-beam"').replace('"=', '"=WEBSERVICE(1)+')),
      file("alder.json", contents),
    ]);
    await build(page).getByText("alder.json is loaded and kept in this browser.").waitFor({ timeout: 60_000 });
    await build(page).getByText("unsafe.json was not taken:").waitFor();
    expect(
      await build(page)
        .getByText(/WEBSERVICE is not among/)
        .count(),
    ).toBeGreaterThan(0);

    // A sheet of it, once it is not loaded any more, says what it needs; then the tools know it again.
    const choice = (version: string) =>
      build(page).getByRole("radio", { name: new RegExp(`${beam}.*Alder Office.*${version.replaceAll(".", "\\.")}`) });
    await choice("1.0.0").check();
    await build(page).getByRole("button", { name: "Fill with the invented example" }).click();
    await build(page).getByRole("button", { name: "Build the sheet" }).click();
    const made = `${beam} 2`;
    await build(page).getByRole("button", { name: made, exact: true }).waitFor({ timeout: 60_000 });
    await page.getByRole("button", { name: "Build another" }).click();
    const remove = build(page).getByRole("button", { name: /^Remove “/ });
    await remove.click();
    await page.getByRole("tab", { name: "Check" }).click();
    await check(page)
      .getByRole("button", { name: `Compare “${made}”` })
      .click();
    await check(page)
      .getByText(`“${made}” was built with the template alder-beam, version 1.0.0, of ${office}`)
      .waitFor({ timeout: 60_000 });
    await check(page)
      .getByLabel("Load its file")
      .setInputFiles([file("alder.json", contents)]);
    await check(page).getByText("AS ITS TEMPLATE").waitFor({ timeout: 60_000 });

    // At the next start it is there again, beside what the office serves; the newer version is in use.
    const newer = contents.replace('"version": "1.0.0"', '"version": "1.1.0"');
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
    await page.getByRole("button", { name: "Build another" }).click();
    await choice("1.1.0").waitFor({ timeout: 20_000 });
    await unfold(page, /^Templates of the office: 1/);
    await build(page)
      .getByText(/Served with this panel/)
      .waitFor();
    await build(page)
      .getByText(/Chosen here .*Not in use: another version is/)
      .waitFor();
    expect(await seriousProblems(page, "#kb-view-build")).toEqual([]);
    await remove.click();
    await build(page)
      .getByText(/ is removed\.$/)
      .waitFor();
    expect(await remove.count()).toBe(0);
    expect(await choice("1.1.0").count()).toBe(1);
    expect(errors).toEqual([]);
    expect(external).toEqual([]);
  });
});
