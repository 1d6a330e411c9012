/** A sheet whose template may be loaded at any moment while somebody looks at it. */
import { afterEach, expect, it, vi } from "vitest";
import type { Template } from "../../../src/sheet/index.ts";
import { addLoaded, officeState, removeLoaded } from "../../../taskpane/templates/loaded.ts";
import { followMissing } from "../../../taskpane/templates/missing.ts";
import { small } from "../office/smallTemplate.ts";

const template = small as unknown as Template;
const load = () => addLoaded({ from: "file", file: "a.json", template, readAgain: () => Promise.resolve(template) });
const head = { templateId: template.id };

/** What is told of a sheet; `missing` is asked for what the sheet says at its head. */
function follow(missing: () => Promise<typeof head | undefined>, isBuilt = false, read = Promise.resolve()) {
  const told: string[] = [];
  const end = followMissing(
    { read: () => read, missing, isBuilt: () => Promise.resolve(isBuilt) },
    {
      found: (of) => told.push(of ? `needs ${of.templateId}` : "none built it"),
      known: () => told.push("known"),
      failed: (error) => told.push(String(error)),
    },
  );
  ends.push(end);
  return { told, end };
}

const ends: (() => void)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0)) end();
  for (const one of officeState().loaded) await removeLoaded(one);
});

it("is looked at once the templates kept and served are read", async () => {
  const missing = vi.fn(() => Promise.resolve(undefined));
  let resolve: () => void = () => undefined;
  const read = new Promise<void>((done) => (resolve = done));
  const { told } = follow(missing, false, read);
  await Promise.resolve();
  expect(missing).not.toHaveBeenCalled();
  resolve();
  await vi.waitFor(() => expect(told).toEqual(["none built it"]));
});

it("is known where its template was loaded before anybody looked", async () => {
  const { told } = follow(() => Promise.resolve(undefined), true);
  await vi.waitFor(() => expect(told).toEqual(["known"]));
});

it("is known where its template is loaded while its head is read", async () => {
  const { told } = follow(async () => {
    await load();
    return head;
  });
  await vi.waitFor(() => expect(told).toEqual(["known"]));
});

it("needs its template until that is loaded; this is told once", async () => {
  const { told } = follow(() => Promise.resolve(head));
  await vi.waitFor(() => expect(told).toEqual(["needs small-check"]));
  await load();
  await load();
  expect(told).toEqual(["needs small-check", "known"]);
});

it("is not spoken of any more once nobody looks", async () => {
  const { told, end } = follow(() => Promise.resolve(head));
  await vi.waitFor(() => expect(told).toHaveLength(1));
  end();
  await load();
  expect(told).toEqual(["needs small-check"]);
});

it("that cannot be read is told with the reason", async () => {
  const { told } = follow(() => Promise.reject(new Error("no sheet")));
  await vi.waitFor(() => expect(told).toEqual(["Error: no sheet"]));
});
