import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { catalogue, loadTemplate } from "../../../src/templates/catalogue.ts";
import {
  foundOffice,
  keepOffice,
  origin,
  problemsOf,
  wantNone,
  wantServed,
} from "../../../taskpane/build/officeDefaults.ts";

const engine = {
  templates: catalogue.filter(({ id }) => id === "post-tensioned-en1992-2004"),
  choosingTemplates: [],
  linkedTemplates: [],
  template: loadTemplate,
};
const file = (version: string, fck = 45): string =>
  JSON.stringify({
    kind: "kernbook office defaults",
    office: "Alder Office (invented)",
    version,
    date: "2026-11-01",
    inputs: [{ id: "fck", value: fck, unit: "MPa" }],
  });
const serves = (text: string | undefined) => () => Promise.resolve(text);
const bytes = (text: string): ArrayBuffer => new TextEncoder().encode(text).buffer;
const versionOf = async (text: string | undefined): Promise<string | undefined> =>
  (await foundOffice(engine, serves(text)))?.file.version;

describe("the office's defaults in the panel", () => {
  beforeEach(() => {
    const kept = new Map<string, string>();
    vi.stubGlobal("localStorage", {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => kept.set(key, value),
      removeItem: (key: string) => kept.delete(key),
    });
  });
  afterEach(() => vi.unstubAllGlobals());

  it("are those that the office serves; without such a file there are none", async () => {
    expect(await versionOf(file("served"))).toBe("served");
    expect(origin()).toBe("served");
    expect(await versionOf(undefined)).toBeUndefined();
    expect(await versionOf("null\n")).toBeUndefined();
  });

  it("are those of the file chosen here before them, none where none are wanted, and the office's again", async () => {
    await keepOffice(bytes(file("chosen")), engine, () => true);
    expect(origin()).toBe("file");
    expect(await versionOf(file("served"))).toBe("chosen");
    wantNone();
    expect(origin()).toBe("none");
    expect(await versionOf(file("served"))).toBeUndefined();
    wantServed();
    expect(await versionOf(file("served"))).toBe("served");
  });

  it("are refused with the input, the value and what is allowed, and when they do not come", async () => {
    const refused = await foundOffice(engine, serves(file("served", 4500))).catch(problemsOf);
    expect(refused).toEqual([expect.stringMatching(/fck = 4500.*\d/)]);
    expect(await foundOffice(engine, serves("{")).catch(problemsOf)).toEqual([expect.stringContaining("JSON")]);
    const failed = () => Promise.reject(new Error("the server answers 500"));
    expect(await foundOffice(engine, failed).catch(problemsOf)).toEqual(["the server answers 500"]);
  });
});
