import { describe, expect, it } from "vitest";
import { worksheetFunctions } from "../../functions/index.ts";
import { publishedCases } from "../../src/command/cases.ts";
import { declarations, formulas, sources } from "../../src/core/index.ts";
import { countsAsPublished } from "../../src/published/index.ts";
import { broken, kept, promises, type Promised, type PromisedArgument } from "./snapshot.ts";

const cases = publishedCases();

describe("every function", () => {
  it("has an id of its own, in capitals with underscores, of at most 58 characters", () => {
    expect(new Set(declarations.map(({ id }) => id)).size).toBe(declarations.length);
    for (const { id } of declarations) {
      expect(id).toMatch(/^[A-Z][A-Z0-9]*(_[A-Z0-9]+)*$/);
      expect(id.length, id).toBeLessThanOrEqual(58);
    }
  });

  it("names sources of the bibliography", () => {
    for (const { id, source } of declarations) {
      expect(Object.keys(sources), id).toContain(source.key);
      if (source.readIn) expect(Object.keys(sources), id).toContain(source.readIn);
    }
  });

  it("carries standard and edition in its id exactly where it belongs to a standard", () => {
    for (const { id, source } of declarations)
      expect(id.endsWith("_EN1992_2004"), id).toBe(source.key === "EN1992-1-1:2004");
  });

  it.each(declarations.map((f) => [f.id, f] as const))("%s has a published result or says why not", (id, f) => {
    const published = cases.filter((c) => c.function === id && countsAsPublished(c));
    expect(
      published.length > 0 || (f.unpublished ?? "").length > 10,
      `${id} has neither a case in src/published/cases nor a reason in \`unpublished\``,
    ).toBe(true);
  });

  it("gives no step the name of a parameter where equations read both", () => {
    for (const f of formulas.filter(({ steps }) => Object.values(steps).some((step) => "equation" in step)))
      for (const name of Object.keys(f.steps)) expect(Object.keys(f.params), `${f.id}: ${name}`).not.toContain(name);
  });
});

describe("promises to old workbooks", () => {
  it("are kept: ids, argument order, units and what may be left out never change", () => {
    expect(
      broken(kept(), promises()),
      "Ids, argument order, units and defaults are promises to old workbooks. Keep the old function and add another.",
    ).toEqual([]);
  });

  it("cover every function: after adding one run `npx tsx tests/contract/update.ts`", () => {
    expect(kept()).toEqual(promises());
    expect(kept().map(({ id }) => id)).toEqual(worksheetFunctions.map(({ id }) => id));
  });

  const x: PromisedArgument = { name: "x", takes: "mm" };
  const y: PromisedArgument = { name: "y", takes: "MPa", optional: true, default: 5 };
  const old: readonly Promised[] = [{ id: "A", arguments: [x, y], result: "mm" }];
  const withArguments = (...list: readonly PromisedArgument[]): readonly Promised[] => [
    { id: "A", arguments: list, result: "mm" },
  ];

  it("are broken by a function gone, an argument moved or gone, or a unit changed", () => {
    expect(broken(old, old)).toEqual([]);
    expect(broken(old, [])).toEqual(["A is gone"]);
    expect(broken(old, withArguments(y, x))).toHaveLength(2);
    expect(broken(old, withArguments(x))).toEqual(["A: argument 2 was “y: MPa”, now gone"]);
    expect(broken(old, withArguments({ ...x, takes: "m" }, y))).toEqual(["A: argument 1 was “x: mm”, now “x: m”"]);
    expect(broken(old, [{ ...old[0]!, result: "m" }])).toEqual(["A: the result was in mm, now in m"]);
  });

  it("are broken by an argument that must now be given, and by another default", () => {
    expect(broken(old, withArguments(x, y, { name: "z", takes: "–" }))).toEqual([
      "A: “z” is new and cannot be left out",
    ]);
    expect(broken(old, withArguments(x, { name: "y", takes: "MPa" }))).toEqual([
      "A: argument 2 “y” could be left out, now it cannot",
    ]);
    expect(broken(old, withArguments(x, { ...y, default: 6 }))).toEqual([
      "A: argument 2 “y” had default 5, now default 6",
    ]);
    expect(broken(withArguments({ ...x, repeating: true }), withArguments(x))).toEqual([
      "A: argument 1 “x” could be repeated, now it cannot",
    ]);
  });

  it("are kept by a new argument at the end that may be left out, and by leave to omit an old one", () => {
    expect(broken(old, withArguments(x, y, { name: "z", takes: "–", optional: true, default: 0 }))).toEqual([]);
    expect(broken(old, withArguments({ ...x, optional: true, default: 1 }, y))).toEqual([]);
  });
});
