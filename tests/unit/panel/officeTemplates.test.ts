import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { lintWithPauses, onSource, type Template } from "../../../src/sheet/index.ts";
import { indexOf, readTemplate, templateText, type Indexed } from "../../../src/office/index.ts";
import { allTemplates } from "../../../src/templates/index.ts";
import { officeTemplates } from "../../../src/templates/offices.ts";
import { checkInSteps } from "../../../taskpane/templates/check.ts";
import type { Question } from "../../../taskpane/templates/checkWorker.ts";
import {
  addLoaded,
  addNotTaken,
  byVersion,
  forgetNotTaken,
  inUse,
  officeState,
  onOtherTemplates,
  removeLoaded,
  startOfficeTemplates,
  type From,
  type Loaded,
} from "../../../taskpane/templates/loaded.ts";
import { readAll, removeTemplate, takeTemplate } from "../../../taskpane/templates/reading.ts";
import { fetchBeside } from "../../../taskpane/fetchBeside.ts";
import { readFolder } from "../../../taskpane/templates/served.ts";
import { small } from "../office/smallTemplate.ts";

const template = (more: object = {}): Template => ({ ...small, ...more }) as unknown as Template;
const text = (more: object = {}): string => JSON.stringify({ ...small, ...more });
const loaded = (from: From, version: string, more: object = {}): Loaded => {
  const of = template({ version, ...more });
  return { from, file: `${from}-${version}.json`, template: of, readAgain: () => Promise.resolve(of) };
};

/** Checks where it stands what a page has checked beside it. */
class WorkerHere {
  static ended = 0;
  onmessage: ((event: { readonly data: unknown }) => void) | undefined;
  postMessage({ template: of, which }: Question): void {
    const answer = (data: unknown): void => this.onmessage?.({ data });
    const told = (done: number, all: number): Promise<void> => Promise.resolve(answer({ done, of: all }));
    lintWithPauses(structuredClone(of), told, which).then(
      (problems) => answer({ problems }),
      (error: unknown) => answer({ failed: String(error) }),
    );
  }
  terminate(): void {
    WorkerHere.ended++;
  }
}

beforeEach(() => {
  WorkerHere.ended = 0;
  vi.stubGlobal("Worker", WorkerHere);
});
afterEach(async () => {
  vi.unstubAllGlobals();
  // Linked ones before those that they take their values from.
  const all = [...officeState().loaded, ...officeState().older];
  for (const one of all.sort((a, b) => Number(!a.template.source) - Number(!b.template.source)))
    await removeLoaded(one);
  forgetNotTaken();
});

const untold = { progress: () => undefined, signal: new AbortController().signal };

describe("which of several templates of one id is in use", () => {
  it("is the newest, by numbers and not by letters", () => {
    expect(byVersion("1.10.0", "1.9.2")).toBeGreaterThan(0);
    expect(byVersion("1.0.0", "1.0.0")).toBe(0);
    const [old, recent] = [loaded("folder", "1.9.2"), loaded("file", "1.10.0")];
    expect(inUse([old, recent])).toEqual({ loaded: [recent], older: [old] });
  });

  it("is the office's own of two of the same version, whichever came first", () => {
    const [chosen, served] = [loaded("file", "1.0.0"), loaded("folder", "1.0.0")];
    expect(inUse([chosen, served]).loaded).toEqual([served]);
    expect(inUse([served, chosen]).loaded).toEqual([served]);
  });
});

describe("files that are chosen", () => {
  it("are checked and known to the rest of the panel until they are removed", async () => {
    const steps: string[] = [];
    const said = await takeTemplate("small.json", text(), {
      ...untold,
      progress: (done, of) => steps.push(`${done} of ${of}`),
    });
    // There is no store in this test: it says so and does not fail.
    expect(said).toMatch(/loaded until this page is closed; it could not be kept in this browser/);
    // Also where it is seen when the view that took the file has gone.
    expect(officeState().notTaken).toEqual([{ file: "small.json", reasons: [said], isLoaded: true }]);
    expect(steps).toEqual(["1 of 1"]);
    expect(officeTemplates().map(({ id }) => id)).toEqual(["small-check"]);
    expect(await removeTemplate(officeState().loaded[0]!)).toMatch(/removed until this page is closed/);
    expect(officeTemplates()).toEqual([]);
    expect(officeState().notTaken).toEqual([]);
  });

  it("of an older version are refused while a newer one from a file is there, in use or not", async () => {
    await takeTemplate("newer.json", text({ version: "1.2.0" }), untold);
    const older = () => takeTemplate("older.json", text(), untold);
    const why = "version 1.2.0 of small-check is loaded (newer.json): remove it first to use 1.0.0";
    await expect(older()).rejects.toThrow(why);
    await addLoaded(loaded("folder", "1.3.0"));
    await expect(older()).rejects.toThrow(why);
    expect(officeState().older.map(({ file }) => file)).toEqual(["newer.json"]);
    await removeTemplate(officeState().older[0]!);
    await older();
    expect(officeState().older.map(({ file }) => file)).toEqual(["older.json"]);
  });

  it("are refused by reason: unsafe, faulty, or in the place of another office's", async () => {
    const unsafe = text().replace('"=20"', '"=WEBSERVICE(\\"x\\")"');
    await expect(takeTemplate("unsafe.json", unsafe, untold)).rejects.toThrow(/WEBSERVICE is not among/);
    const faulty = text().replace("{F}/{Fmax}", "{F}/{none}");
    await expect(takeTemplate("faulty.json", faulty, untold)).rejects.toThrow(/none/);
    expect(officeState().loaded).toEqual([]);
    await takeTemplate("small.json", text(), untold);
    await expect(takeTemplate("other.json", text({ office: "Birch Office (invented)" }), untold)).rejects.toThrow(
      /small-check is that of a template of Alder Office/,
    );
    expect(officeTemplates().map(({ office }) => office)).toEqual(["Alder Office (invented)"]);
  });

  it("leave all as it was when the check is cancelled", async () => {
    const cancel = new AbortController();
    cancel.abort();
    await expect(takeTemplate("small.json", text(), { ...untold, signal: cancel.signal })).rejects.toThrow(/abort/i);
    expect(officeState().loaded).toEqual([]);
  });
});

describe("the check beside the page", () => {
  it("ends its worker when it is done, when it is cancelled and when it fails", async () => {
    expect(await checkInSteps(template(), "usual", untold)).toEqual([]);
    const cancel = new AbortController();
    const cancelled = checkInSteps(template(), "usual", { ...untold, signal: cancel.signal });
    cancel.abort();
    await expect(cancelled).rejects.toThrow(/abort/i);
    await expect(checkInSteps({} as Template, "usual", untold)).resolves.not.toEqual([]);
    expect(WorkerHere.ended).toBe(3);
  });
});

describe("the folder of templates beside the panel", () => {
  const entry = async (more: object = {}, file = "small.json"): Promise<Indexed> =>
    indexOf([{ file, of: await readTemplate(text(more), { checked: true }) }]).templates[0]!;
  const index = (...templates: readonly Indexed[]): string => JSON.stringify({ kind: "kernbook templates", templates });
  const folder =
    (files: Readonly<Record<string, string>>) =>
    (file: string): Promise<string | undefined> =>
      Promise.resolve(files[file]);

  it("may be missing, or its index empty: nothing is read then", async () => {
    const nothing = { files: [], notTaken: [] };
    expect(await readFolder(folder({}))).toEqual(nothing);
    expect(await readFolder(folder({ "index.json": JSON.stringify(indexOf([]), null, 2) }))).toEqual(nothing);
  });

  it.each(['{"templates": []}', '{"kind": "kernbook templates", "templates": []', '{"kind": "x", "templates": []}'])(
    "is refused where its index is damaged, however empty: %s",
    async (damaged) => {
      await expect(readFolder(folder({ "index.json": damaged }))).rejects.toThrow(/index\.json is no/);
    },
  );

  it("gives every file that its index names, and says which one is not there", async () => {
    const gone = await entry({ id: "gone-check" }, "gone.json");
    const files = { "index.json": index(await entry(), gone), "small.json": text() };
    const read = await readFolder(folder(files));
    expect(read.files.map(({ entry: { file } }) => file)).toEqual(["small.json"]);
    expect(read.notTaken).toEqual([{ file: "gone.json", reasons: [expect.stringContaining("does not have it")] }]);
  });

  it("counts for a start page shown in place of what a server lacks, and tells of a server in trouble", async () => {
    vi.stubGlobal("document", { baseURI: "https://sheets.example.com/kernbook/taskpane.html" });
    const asked: string[] = [];
    const answer = (status: number, type: string) =>
      vi.stubGlobal("fetch", (address: URL) => {
        asked.push(String(address));
        return Promise.resolve(new Response("{}", { status, headers: { "Content-Type": type } }));
      });
    answer(404, "text/plain");
    expect(await fetchBeside("templates/index.json")).toBeUndefined();
    answer(200, "text/html; charset=utf-8");
    expect(await fetchBeside("templates/index.json")).toBeUndefined();
    answer(200, "application/json");
    expect(await fetchBeside("templates/index.json")).toBe("{}");
    answer(500, "text/plain");
    await expect(fetchBeside("templates/index.json")).rejects.toThrow(/the server answers 500/);
    expect(new Set(asked)).toEqual(new Set(["https://sheets.example.com/kernbook/templates/index.json"]));
  });

  it("is read at the start with what else there is; a file that is not the one of the index is not taken", async () => {
    const good = await entry();
    const other = { ...(await entry({ id: "other-check" }, "other.json")), sha256: "0".repeat(64) };
    vi.stubGlobal("document", { baseURI: "https://sheets.example.com/taskpane.html" });
    const files: Readonly<Record<string, string>> = {
      "index.json": index(good, other),
      "small.json": text(),
      "other.json": text({ id: "other-check" }),
    };
    vi.stubGlobal("fetch", (address: URL) => {
      const body = files[address.pathname.replace("/templates/", "")];
      return Promise.resolve(new Response(body, { headers: { "Content-Type": "application/json" } }));
    });
    const told: boolean[] = [];
    const started = startOfficeTemplates();
    told.push(officeState().isReading);
    await Promise.all([started, startOfficeTemplates()]);
    told.push(officeState().isReading);
    expect(told).toEqual([true, false]);
    expect(officeTemplates().map(({ id }) => id)).toEqual(["small-check"]);
    expect(officeState().loaded[0]).toMatchObject({ from: "folder", file: "small.json" });
    const why = Object.fromEntries(officeState().notTaken.map(({ file, reasons }) => [file, reasons.join()]));
    expect(why["other.json"]).toContain("is not the file of the index");
    // This test has no store: that is told and stands in the way of nothing.
    expect(why["Templates kept in this browser"]).toContain("could not be read");
  });
});

/** A beam of an office, in some version, and a linked template that takes its values from it. */
function beamAndLinked() {
  const strength = allTemplates.find(({ id }) => id === "strength-post-tensioned-en1992-2004")!;
  const check = strength.source!.template;
  const office = "Alder Office (invented)";
  const made = { madeFrom: { template: check.id, version: check.version } };
  const beamOf = (version: string): Template => ({ ...check, id: "alder-beam", version, office, ...made });
  const beam = beamOf("1.0.0");
  const linked = onSource(strength, beam, "alder-strength");
  const read = (name: string, of: Template) => ({
    from: "file" as const,
    file: name,
    read: () => readTemplate(templateText(of), { checked: true }),
  });
  return { beamOf, files: [read("strength.json", linked), read("beam.json", beam)], read };
}

it("a template that takes from another is read once that one is there, in whatever order the files come", async () => {
  await readAll(beamAndLinked().files);
  expect(officeState().notTaken).toEqual([]);
  expect(officeTemplates().map(({ id }) => id)).toEqual(["alder-beam", "alder-strength"]);
  expect(officeTemplates()[1]!.source!.template.id).toBe("alder-beam");
});

describe("a template of the office that others take their values from", () => {
  const sourceOf = (id: string) => officeTemplates().find((one) => one.id === id)!.source!.template;
  const inUseNow = (id: string): Loaded => officeState().loaded.find(({ template: one }) => one.id === id)!;

  it("is not removed under them, and all is as it was", async () => {
    await readAll(beamAndLinked().files);
    const before = officeState().loaded;
    await expect(removeTemplate(inUseNow("alder-beam"))).rejects.toThrow(
      /alder-strength\) takes its values from alder-beam: remove alder-strength first/,
    );
    expect(officeState().loaded).toEqual(before);
    expect(sourceOf("alder-strength")).toBe(inUseNow("alder-beam").template);
    await removeTemplate(inUseNow("alder-strength"));
    await removeTemplate(inUseNow("alder-beam"));
    expect(officeTemplates()).toEqual([]);
  });

  it("reaches them in its newer version, and in the older one once the newer is removed", async () => {
    const { beamOf, files, read } = beamAndLinked();
    await readAll(files);
    await readAll([{ ...read("newer.json", beamOf("1.1.0")), from: "folder" }]);
    expect(sourceOf("alder-strength")).toBe(inUseNow("alder-beam").template);
    expect(sourceOf("alder-strength").version).toBe("1.1.0");
    expect(inUseNow("alder-strength").template).toBe(officeTemplates().find(({ id }) => id === "alder-strength"));
    await removeLoaded(inUseNow("alder-beam"));
    expect(sourceOf("alder-strength").version).toBe("1.0.0");
  });

  it("is not taken in a version with which they cannot be read again", async () => {
    const { beamOf, files, read } = beamAndLinked();
    await readAll(files);
    await addLoaded({ ...inUseNow("alder-strength"), readAgain: () => Promise.reject(new Error("damaged")) });
    await readAll([read("newer.json", beamOf("1.1.0"))]);
    expect(officeState().notTaken).toEqual([
      {
        file: "newer.json",
        reasons: ["alder-strength takes its values from alder-beam and could not be read again: damaged"],
      },
    ]);
    expect(sourceOf("alder-strength").version).toBe("1.0.0");
    expect(inUseNow("alder-beam").file).toBe("beam.json");
  });
});

it("who asks is told when other templates are in use, and not of refusals", async () => {
  let told = 0;
  const end = onOtherTemplates(() => told++);
  addNotTaken({ file: "bad.json", reasons: ["no JSON"] });
  expect(told).toBe(0);
  await addLoaded(loaded("folder", "1.0.0"));
  expect(told).toBe(1);
  end();
  await removeLoaded(officeState().loaded[0]!);
  expect(told).toBe(1);
});
