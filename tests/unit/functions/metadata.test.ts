import { describe, expect, it } from "vitest";
import { metadata, worksheetFunctions } from "../../../functions/index.ts";

// The limits are those of the host's published schema for function metadata.
const made = metadata();

describe("functions.json", () => {
  it("holds every function once", () => {
    const ids = made.functions.map(({ id }) => id);
    expect(ids).toEqual(worksheetFunctions.map(({ id }) => id));
    expect(new Set(ids.map((id) => id.toUpperCase())).size).toBe(ids.length);
  });

  it.each(made.functions.map((f) => [f.id, f] as const))("%s keeps the host's rules", (_id, f) => {
    expect(f.id).toMatch(/^[A-Z][A-Z0-9_]*$/);
    expect(f.id.length).toBeGreaterThanOrEqual(3);
    // With the namespace and the prefix on disk the host allows 64.
    expect(f.id.length).toBeLessThanOrEqual(58);
    expect(f.name).toBe(f.id);
    expect(f.description.length).toBeGreaterThan(0);
    expect(f.description.length).toBeLessThanOrEqual(1024);
    expect(f.parameters.length).toBeLessThanOrEqual(128);
    expect(["number", "string"]).toContain(f.result.type);
    f.parameters.forEach((p, i) => {
      expect(p.name).toMatch(/^[A-Za-z]\w{0,63}$/);
      expect(p.description.length).toBeGreaterThan(0);
      expect(p.description.length).toBeLessThanOrEqual(512);
      expect(["number", "string", "any"]).toContain(p.type);
      if (p.dimensionality === "matrix") expect(p.type).toBe("any");
      if (p.repeating) expect(i).toBe(f.parameters.length - 1);
      if (p.customEnumId) expect(made.enums.map(({ id }) => id)).toContain(p.customEnumId);
    });
    const firstOptional = f.parameters.findIndex((p) => p.optional);
    const lastNeeded = f.parameters.findLastIndex((p) => !p.optional && !p.repeating);
    if (firstOptional >= 0)
      expect(lastNeeded, "an argument after one that may be left out").toBeLessThan(firstOptional);
  });

  it("links each function to its reference page, where the address of the pages is known", () => {
    expect(made.functions.filter((f) => "helpUrl" in f)).toEqual([]);
    for (const f of metadata("https://sheets.example.com/kernbook").functions)
      expect(f.helpUrl).toBe(`https://sheets.example.com/kernbook/reference/${f.id}.html`);
  });

  it("says unit, range and default of each number", () => {
    const about = (id: string, name: string) =>
      made.functions.find((f) => f.id === id)!.parameters.find((p) => p.name === name)!.description;
    expect(about("FRICTION_STRESS", "sigma0")).toBe(
      "tendon stress at the jack; σp0 in MPa; allowed: above 0 and at most 2500 MPa",
    );
    for (const f of worksheetFunctions) {
      for (const { name, parameter: p } of f.parameters) {
        if (p.kind !== "number") continue;
        expect(about(f.id, name)).toContain(p.unit === "–" ? "plain number" : ` in ${p.unit}`);
        if (p.default !== undefined) expect(about(f.id, name)).toMatch(/default: /);
      }
    }
  });

  it.each(made.enums.map((e) => [e.id, e] as const))("%s is a list of choices the host can show", (_id, e) => {
    expect(e.id).toMatch(/^[A-Za-z][A-Za-z0-9._]{2,63}$/);
    expect(e.values.length).toBeGreaterThan(1);
    for (const value of e.values) {
      expect(value.tooltip.length).toBeLessThanOrEqual(256);
      expect(value.name.length).toBeLessThanOrEqual(256);
      expect(e.type === "number" ? "numberValue" in value : "stringValue" in value).toBe(true);
    }
  });

  it("types each choice as its list is typed", () => {
    for (const f of made.functions)
      for (const p of f.parameters)
        if (p.customEnumId) expect(p.type).toBe(made.enums.find(({ id }) => id === p.customEnumId)!.type);
  });
});
