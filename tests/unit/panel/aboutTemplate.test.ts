import { describe, expect, it } from "vitest";
import type { Recognised } from "../../../src/checker/index.ts";
import { hasQuickStart } from "../../../src/checker/index.ts";
import type { Template } from "../../../src/sheet/index.ts";
import { templates } from "../../../src/templates/index.ts";
import { aboutOf, fileOf, firstAbout, lockables, problemsOfAbout } from "../../../taskpane/templates/aboutTemplate.ts";

const shipped = templates[0]!;
const own: Template = { ...shipped, id: "alder-beam", title: "Alder beam", version: "1.4.2", office: "Alder Office" };
const of = (template: Template, sheet = "Alder beam, 2026") =>
  ({ template, snapshot: { sheet } }) as unknown as Recognised;
const typed = { id: "my-beam", name: "My beam", version: "1.0.0", office: "Alder Office" };

describe("what is said of a template that is kept", () => {
  it("begins with the sheet's name, or with the office's template and its next version", () => {
    expect(firstAbout(of(shipped))).toEqual({
      id: "alder-beam-2026",
      name: "Alder beam, 2026",
      version: "1.0.0",
      office: "",
    });
    expect(firstAbout(of(own))).toEqual({
      id: "alder-beam",
      name: "Alder beam",
      version: "1.5.0",
      office: "Alder Office",
    });
  });

  it.each([
    ["id", { id: "My beam" }, /“My beam” is no id/],
    ["id", { id: shipped.id }, /is the id of a shipped template/],
    ["name", { name: " " }, /title is empty/],
    ["office", { office: "" }, /office is empty/],
    ["version", { version: "1" }, /“1” is no version/],
    ["version", { id: "alder-beam", version: "1.4.2" }, /of version 1\.4\.2 of this template: give a higher version/],
    ["version", { id: "alder-beam", version: "1.4.1" }, /give a higher version/],
  ] as const)("is refused by its %s: %j", (field, change, message) => {
    const problems = problemsOfAbout({ ...typed, ...change }, of(own));
    expect(Object.keys(problems)).toEqual([field]);
    expect(problems[field]).toMatch(message);
  });

  it("is taken otherwise, without the blanks round names", () => {
    expect(problemsOfAbout({ ...typed, id: "alder-beam", version: "1.4.10" }, of(own))).toEqual({});
    expect(problemsOfAbout(typed, of(shipped))).toEqual({});
    const about = aboutOf({ ...typed, name: " My beam ", office: " Alder Office " }, new Set(["fck"]), new Set(["mu"]));
    expect(about).toMatchObject({ name: "My beam", office: "Alder Office", locked: ["fck"] });
    expect(fileOf(typed)).toBe("my-beam-1.0.0.json");
  });

  it("offers every row to lock once, those added by hand too, and none that was deleted", () => {
    const meaning = (id: string, item: string) => ({ id, item, description: `text of ${id}` });
    const recognised = { plan: { meanings: [meaning("fck", "1.1"), meaning("fck", "1.2"), meaning("mu", "2.1")] } };
    const rows = [
      { kind: "added", id: "reserve", label: "reserve of the office", what: "an input" },
      { kind: "left out", id: "mu", label: "friction", what: "its rows were deleted" },
    ] as const;
    expect(lockables(recognised as unknown as Recognised, { rows })).toEqual([
      { id: "fck", text: "1.1 text of fck" },
      { id: "reserve", text: "added: reserve of the office" },
    ]);
  });
});

describe("the quick start", () => {
  it("is for every shipped stress check, and for none that leaves out what the questions ask", () => {
    expect(templates.map(hasQuickStart)).toEqual(templates.map(() => true));
    const without = (id: string): Template => ({
      ...own,
      madeFrom: { template: shipped.id, version: shipped.version },
      blocks: own.blocks.map((block) => ({
        ...block,
        items: block.items.filter((item) => !("id" in item && item.id === id)),
      })),
    });
    expect(hasQuickStart(without("no such row"))).toBe(true);
    expect(hasQuickStart(without("product"))).toBe(false);
  });
});
