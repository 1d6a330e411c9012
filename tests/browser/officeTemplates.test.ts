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
  const shared = sharedPage(() => shop);

  it("are made of a sheet that was changed by hand, with the cell where that cannot be", async () => {
    const { page, errors, external } = await shared();
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
    expect(await form.locator(".kb-failure").textContent()).toContain("http://example.org");
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
    await form.getByRole("button", { name: "Load it here" }).click();
    await form.getByText(/It is loaded, kept in this browser/).waitFor();
    await page.getByRole("button", { name: "Build another" }).click();
    await build(page)
      .getByRole("radio", { name: new RegExp(`${beam}.*Alder Office.*1\\.0\\.0`) })
      .waitFor();
    await unfold(page, "Templates of the office: 1");
    await build(page)
      .getByRole("button", { name: /^Remove “/ })
      .click();
    expect(errors).toEqual([]);
    expect(external).toEqual([]);
  });

  it("are chosen, refused by reason, used, missed by their sheets, kept, served, and removed", async () => {
    const { page, errors, external } = await shared();
    const contents = JSON.stringify(small);
    const file = (name: string, text: string) => ({ name, mimeType: "application/json", buffer: Buffer.from(text) });
    await unfold(page, /^Templates of the office/);
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

    const choice = (version: string) =>
      build(page).getByRole("radio", { name: new RegExp(`Small check.*Alder Office.*${version}`) });
    await choice("1.0.0").check();
    const name = build(page).getByLabel("Name of the new sheet");
    await name.fill("Hanger");
    await build(page).getByRole("button", { name: "Build the sheet" }).click();
    await build(page).getByRole("button", { name: "Hanger", exact: true }).waitFor();
    await page.getByRole("button", { name: "Build another" }).click();
    const remove = build(page).getByRole("button", { name: /^Remove “/ });
    await remove.click();
    await page.getByRole("tab", { name: "Check" }).click();
    await page.evaluate(() => window.kernbook!.host!.select({ sheet: "Hanger", row: 3, column: 0 }));
    await check(page).getByRole("button", { name: "Compare “Hanger”" }).click();
    await check(page)
      .getByText(`“Hanger” was built with the template small-check, version 1.0.0, of ${office}`)
      .waitFor({ timeout: 60_000 });
    expect(await seriousProblems(page, "#kb-view-check")).toEqual([]);
    await check(page)
      .getByLabel("Load its file")
      .setInputFiles([file("small.json", contents)]);
    await check(page).getByText("AS ITS TEMPLATE").waitFor({ timeout: 60_000 });

    // At the next start it is there again, beside what the office serves; the newer version is in use.
    const newer = contents.replace('"1.0.0"', '"1.1.0"');
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
    await choice("1.1.0").waitFor();
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
