import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { worksheetFunctions } from "../../../functions/index.ts";
import { openGridInNode, type GridHost } from "../../../src/hosts/index.ts";
import { publishedCases } from "../../../src/command/cases.ts";
import { uncounted } from "../../../src/published/index.ts";
import { referenceFiles } from "../../../src/command/reference.ts";
import { families, sources, variantsOf } from "../../../src/core/index.ts";
import { exampleOf, tasks } from "../../../src/reference/index.ts";

const pages = new Map(referenceFiles());
const textOf = (id: string): string => pages.get(`reference/${id}.html`) ?? "";
const cases = publishedCases();

const entities: Readonly<Record<string, string>> = {
  "&amp;": "&",
  "&lt;": "<",
  "&gt;": ">",
  "&quot;": '"',
  "&#39;": "'",
};
const plain = (html: string): string =>
  html.replace(/<[^>]*>/g, "").replace(/&(?:amp|lt|gt|quot|#39);/g, (e) => entities[e]!);
/** The formula and the value of the executed example, as they stand on the page. */
function exampleOn(id: string): { readonly formula: string; readonly value: unknown } {
  const formula = /<code class="kr-call">(.*?)<\/code>/.exec(textOf(id))?.[1];
  const value = /<data class="kr-result" value="(.*?)">/.exec(textOf(id))?.[1];
  if (formula === undefined || value === undefined) throw new Error(`the page of ${id} shows no executed example`);
  return { formula: plain(formula), value: JSON.parse(plain(value)) as unknown };
}

describe("the reference pages", () => {
  it("are one a function, and two lists", () => {
    expect([...pages.keys()].sort()).toEqual(
      [
        "reference/index.html",
        "reference/names.html",
        ...worksheetFunctions.map(({ id }) => `reference/${id}.html`),
      ].sort(),
    );
  });

  it("hold no link that leads nowhere", () => {
    for (const [path, text] of pages) {
      for (const [, href] of text.matchAll(/href="([^"]*)"/g)) {
        const [file, anchor] = href!.split("#");
        const target = file === "" ? text : pages.get(`reference/${file}`);
        expect(target, `${path} → ${href}`).toBeDefined();
        if (anchor !== undefined) expect(target, `${path} → ${href}`).toContain(`id="${anchor}"`);
      }
    }
  });

  it("give no place on a page twice", () => {
    for (const [path, text] of pages) {
      const ids = [...text.matchAll(/\bid="([^"]*)"/g)].map(([, id]) => id);
      expect(new Set(ids).size, path).toBe(ids.length);
    }
  });

  it("list every function by task and by name", () => {
    for (const list of ["reference/index.html", "reference/names.html"])
      for (const { id } of worksheetFunctions) expect(pages.get(list), `${list}: ${id}`).toContain(`href="${id}.html"`);
    expect(pages.get("reference/index.html")).not.toContain("task-further");
  });

  it.each(worksheetFunctions.filter((f) => f.formula ?? f.spill).map((f) => [f.id, (f.formula ?? f.spill)!] as const))(
    "%s says source and basis, arguments, checks or why there are none",
    (id, declaration) => {
      const text = plain(textOf(id));
      expect(text).toContain(sources[declaration.source.key]);
      expect(text).toMatch(/Basis: \S/);
      if (declaration.source.basis !== "derived") expect(text).toContain("Check against your own copy");
      for (const parameter of Object.values(declaration.params))
        expect(text).toContain(parameter.text.slice(0, 12).replace(/_.*/, ""));
      const own = cases.filter((c) => c.function === id);
      for (const c of own) {
        expect(text, c.id).toContain(c.where);
        for (const { printed } of c.rows) expect(text, c.id).toContain(printed.replace("-", "−"));
      }
      for (const { basis } of own) if (basis !== "published") expect(text).toContain(uncounted[basis]);
      if (!own.some((c) => c.basis === "published" && !c.mustDiffer))
        expect(text).toContain(declaration.unpublished!.replace(/\.$/, ""));
    },
  );

  it("say of an argument with which choices it is used, and whether it must be blank otherwise", () => {
    expect(plain(textOf("MOMENT_UNIFORM"))).toContain("used only with supports OVERHANG; leave it blank otherwise");
    expect(plain(textOf("OUTLINE_SECTION"))).toMatch(/used only with property .*PERIMETER; leave it blank otherwise/);
    expect(plain(textOf("CRACKED_SECTION"))).toContain(
      "used only with property STEEL_STRESS; ignored otherwise, so that one call serves every property",
    );
  });

  it.each(worksheetFunctions.filter((f) => f.formula).map((f) => [f.id, f.formula!] as const))(
    "%s sets every equation and shows every table",
    (id, formula) => {
      const steps = variantsOf(formula).flatMap((f) => Object.values(f.steps));
      const text = textOf(id);
      expect(text.split("<math").length - 1).toBe(steps.filter((s) => !("lookup" in s)).length);
      expect(text.split('kr-lookup"').length - 1).toBe(steps.filter((s) => "lookup" in s).length);
      expect(text).not.toMatch(/temml-error|<merror/);
    },
  );

  it.each([
    "TENDON_ELONGATION",
    "ELONGATION_UNIFORM",
    "FRICTION_STRESS",
    "DRAW_IN",
    "BED_ELONGATION",
    "TENDON_STRESS_LIMIT_EN1992_2004",
  ])("%s warns of the energy in the tendon", (id) => {
    expect(plain(textOf(id))).toContain("lethal energy");
  });

  it("run no script, and load nothing", () => {
    for (const [path, text] of pages) {
      expect(text, path).not.toMatch(/<script|<link|<img|src=|url\(|@import/);
      expect(text, path).toContain("default-src 'none'");
    }
  });
});

describe("the executed examples", () => {
  let grid: GridHost;
  beforeAll(async () => {
    grid = await openGridInNode();
  });
  afterAll(() => grid?.dispose());

  it.each(worksheetFunctions.map((f) => [f.id, f] as const))("%s gives in a grid what its page says", async (id, f) => {
    const { formula, value } = exampleOn(id);
    const result = f.call(exampleOf(f, cases).args);
    expect(result).toEqual({ value });
    const [sheet] = await grid.sheetNames();
    const cells = await grid.evaluate(formula, sheet!);
    const shown = cells.map((row) => row.map((cell) => cell.error?.message ?? cell.value));
    expect(Array.isArray(value) ? shown : shown[0]![0]).toEqual(value);
  });

  it("take the arguments of a published check wherever one stands against the function", () => {
    for (const f of worksheetFunctions) {
      const published = cases.some((c) => c.function === f.id && c.basis === "published" && !c.mustDiffer);
      expect(plain(textOf(f.id)).includes("The arguments are those of the published check"), f.id).toBe(published);
    }
  });

  it("are the same each time", () => {
    for (const f of worksheetFunctions) expect(exampleOf(f, cases).args, f.id).toEqual(exampleOf(f, cases).args);
  });
});

describe("the tasks", () => {
  it("hold every subject once", () => {
    const held = tasks.flatMap((t) => t.families);
    expect([...held].sort()).toEqual(Object.keys(families).sort());
  });
});
