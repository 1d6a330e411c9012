import { describe, expect, it } from "vitest";
import { templatePart } from "../../../src/command/templateParts.ts";
import type { Template } from "../../../src/sheet/index.ts";
import { catalogue, loadTemplate } from "../../../src/templates/catalogue.ts";
import { allTemplates } from "../../../src/templates/index.ts";

/** A template put together as pages do it: its own part, and that of its source. */
function fromParts(id: string): Template {
  const own = JSON.parse(templatePart(`?${id}`)) as Template;
  const source = catalogue.find((entry) => entry.id === id)!.source;
  return source === undefined ? own : { ...own, source: { ...own.source!, template: fromParts(source) } };
}

describe("the templates as pages load them", () => {
  // Hashes are taken over the text: the order counts, too.
  it.each(allTemplates)("$id comes as the commands have it", async (template) => {
    expect(JSON.stringify(fromParts(template.id))).toBe(JSON.stringify(template));
    expect(await loadTemplate(template.id)).toBe(template);
  });

  it("are listed before they are loaded, each in a part of its own", () => {
    const text = templatePart("");
    expect(text).toContain(`catalogue = ${JSON.stringify(catalogue)};`);
    const parts = [...text.matchAll(/"\.\/catalogue\.ts\?([^"]+)"/g)].map(([, id]) => id);
    expect(parts).toEqual(allTemplates.map(({ id }) => id));
    for (const { source } of catalogue) if (source !== undefined) expect(parts).toContain(source);
  });

  it("are no others", async () => {
    expect(() => templatePart("?no-such")).toThrow("there is no template no-such");
    await expect(loadTemplate("no-such")).rejects.toThrow("there is no template no-such");
  });
});
