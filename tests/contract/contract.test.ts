import { describe, expect, it } from "vitest";
import { worksheetFunctions } from "../../functions/index.ts";
import { publishedCases } from "../../src/command/cases.ts";
import { formulas, sources } from "../../src/core/index.ts";
import { countsAsPublished } from "../../src/published/index.ts";
import { broken, kept, promises } from "./snapshot.ts";

const cases = publishedCases();

describe("every formula", () => {
  it("has an id of its own, in capitals with underscores, of at most 58 characters", () => {
    expect(new Set(formulas.map(({ id }) => id)).size).toBe(formulas.length);
    for (const { id } of formulas) {
      expect(id).toMatch(/^[A-Z][A-Z0-9]*(_[A-Z0-9]+)*$/);
      expect(id.length, id).toBeLessThanOrEqual(58);
    }
  });

  it("names sources of the bibliography", () => {
    for (const { id, source } of formulas) {
      expect(Object.keys(sources), id).toContain(source.key);
      if (source.readIn) expect(Object.keys(sources), id).toContain(source.readIn);
    }
  });

  it("carries standard and edition in its id exactly where it belongs to a standard", () => {
    for (const { id, source } of formulas) expect(id.endsWith("_EN1992_2004"), id).toBe(source.key === "EN1992-1-1:2004");
  });

  it.each(formulas.map((f) => [f.id, f] as const))("%s has a published result or says why not", (id, f) => {
    const published = cases.filter((c) => c.function === id && countsAsPublished(c));
    expect(published.length > 0 || (f.unpublished ?? "").length > 10, `${id} has neither a case in tests/published nor a reason in \`unpublished\``).toBe(true);
  });

  it("gives no step the name of a parameter where equations read both", () => {
    for (const f of formulas.filter(({ steps }) => Object.values(steps).some((step) => "equation" in step))) for (const name of Object.keys(f.steps)) expect(Object.keys(f.params), `${f.id}: ${name}`).not.toContain(name);
  });
});

describe("promises to old workbooks", () => {
  it("are kept: ids, argument order and units never change", () => {
    expect(broken(kept(), promises()), "Ids, argument order and units are promises to old workbooks. Keep the old function and add another.").toEqual([]);
  });

  it("cover every function: after adding one run `npx tsx tests/contract/update.ts`", () => {
    expect(kept()).toEqual(promises());
    expect(kept().map(({ id }) => id)).toEqual(worksheetFunctions.map(({ id }) => id));
  });

  it("are broken by a function gone, an argument moved or a unit changed", () => {
    const old = [{ id: "A", arguments: ["x: mm", "y: MPa"], result: "mm" }];
    expect(broken(old, [])).toEqual(["A is gone"]);
    expect(broken(old, [{ id: "A", arguments: ["y: MPa", "x: mm"], result: "mm" }])).toHaveLength(2);
    expect(broken(old, [{ id: "A", arguments: ["x: m", "y: MPa"], result: "mm" }])).toHaveLength(1);
    expect(broken(old, [{ id: "A", arguments: ["x: mm", "y: MPa"], result: "m" }])).toHaveLength(1);
    expect(broken(old, [{ id: "A", arguments: ["x: mm", "y: MPa", "z: –"], result: "mm" }])).toEqual([]);
  });
});
