/**
 * A limit that one stage lacks hides no failure that another stage proves. The limits are inputs of these sheets; the
 * examples are invented. IS 1343:1980 22.7.1: no tension in members of type 1. From memory.
 */
import { expect, test } from "vitest";
import { builtSheet, exampleOf } from "./builtSheet.ts";
import { allTemplates } from "../../src/templates/index.ts";
import type { Inputs } from "../../src/sheet/index.ts";

const built = (id: string, changes: Inputs) =>
  builtSheet(id, { ...exampleOf(allTemplates.find((one) => one.id === id)!), ...changes });
type Built = ReturnType<typeof built>;
const check = (sheet: Built, words: string) =>
  sheet.verdicts().checks.find(({ description }) => description.includes(words))!;
const tension = "tension demand / resistance, all stages";
const stress = ["post-tensioned-is1343-1980", "pre-tensioned-is1343-1980"];

test.each(stress)("%s: tension in service fails though the limit at transfer is missing", (id) => {
  const changes = { memberType: 1, ql: 25 };
  const known = built(id, { ...changes, ftTransferIn: -1 });
  const missing = built(id, { ...changes, ftTransferIn: null });
  // No tension is allowed in service, and there is some.
  const last = missing.column("ft").length - 1;
  const stations = missing.column("x").length;
  expect(missing.column("ft")[last]).toBe(0);
  expect(Math.min(...missing.column("vmin").slice(-stations).map(Number))).toBeLessThan(0);
  expect(check(missing, tension)).toEqual(check(known, tension));
  expect(check(missing, tension)).toMatchObject({ verdict: "FAIL" });
  expect(Number(check(missing, tension).utilisation)).toBeGreaterThan(1);
  expect(check(missing, tension).where).toMatch(/, x = \d+\.\d\d m$/);
  expect(missing.verdicts().overall).toBe("FAIL");
  expect(missing.errors()).toEqual([]);
});

test.each(stress)("%s: where nothing fails and a limit is missing it is not OK", (id) => {
  const sheet = built(id, { ftTransferIn: null });
  expect(check(sheet, tension)).toMatchObject({ verdict: "LIMIT MISSING", where: "input f_t,0 is empty" });
  expect(sheet.column("gok")).toContain("LIMIT MISSING");
  expect(sheet.verdicts().overall).not.toBe("OK");
});

test("compression over its limit fails at a stage whose limit of tension is missing", () => {
  // So much load that the concrete is over its limit in service, where a member of type 3 has no limit of tension yet.
  const sheet = built("pre-tensioned-is1343-1980", { memberType: 3, ftType3In: null, ql: 60 });
  const [high, limit] = [sheet.column("vmax"), sheet.column("vfc")].map((all) => all.map(Number));
  const rows = sheet.column("vok");
  const tensions = sheet.column("vft");
  const over = rows.filter((_row, i) => high![i]! > limit![i]! && typeof tensions[i] !== "number");
  expect(over.length).toBeGreaterThan(0);
  expect(new Set(over)).toEqual(new Set(["FAIL"]));
});

test.each(["feasible-domain-post-tensioned-is1343-1980", "feasible-domain-pre-tensioned-is1343-1980"])(
  "%s: the design's point beyond a limit that is given fails though another is missing",
  (id) => {
    const sheet = built(id, { memberType: 1, ql: 25, ftTransferIn: null });
    const left = sheet.column("cdToT").filter((one) => typeof one === "number");
    expect(Math.min(...left.map(Number))).toBeLessThan(0);
    expect(check(sheet, "midspan")).toMatchObject({ verdict: "FAIL" });
    expect(check(sheet, "midspan").where).toContain("limit exceeded");
    expect(check(built(id, { ftTransferIn: null }), "midspan")).toMatchObject({ verdict: "LIMIT MISSING" });
  },
);

test("composite: compression of the member over its limit fails though the topping has no limit yet", () => {
  const id = "composite-post-tensioned-is1343-1980";
  const words = "compression, member and topping";
  const sheet = built(id, { inFcT: null, inQ2: 80 });
  const [high, limit] = [sheet.column("cvMax"), sheet.column("cvFc")].map((all) => all.map(Number));
  const ratios = high!.map((one, i) => one / limit![i]!);
  expect(Math.max(...ratios)).toBeGreaterThan(1);
  expect(check(sheet, words)).toMatchObject({ verdict: "FAIL" });
  expect(check(sheet, words).utilisation).toBeCloseTo(Math.max(...ratios), 9);
  expect(sheet.column("cvOk")).toContain("FAIL");
  expect(check(built(id, { inFcT: null }), words)).toMatchObject({ verdict: "LIMIT MISSING", utilisation: "no limit" });
});

test("what fails is named in a row of its own without a stray mark; the first page has the number of the first", () => {
  const sheet = built("post-tensioned-is1343-1980", { memberType: 1, ql: 25, ftTransferIn: -1 });
  const [said] = sheet.column("failingNames");
  const names = String(said).split("; ");
  for (const name of names) expect(name).toMatch(/^\d+\.\d+ \S[^;|]*[^;| ]$/);
  // Counted apart: the checks and the tables with a verdict of their own that say FAIL.
  const { checks } = sheet.verdicts();
  const failing = checks.filter(({ verdict, description }) => verdict === "FAIL" && description !== "failed checks");
  const tables = ["pOk", "vok", "gok", "bok", "wOk", "dOk", "ctOk"].filter((id) => sheet.column(id).includes("FAIL"));
  expect(tables.length).toBeGreaterThan(0);
  expect(names).toHaveLength(failing.length + tables.length);
  expect(check(sheet, "failed checks").where).toBe(`${/^\d+\.\d+/.exec(names[0]!)![0]} and others`);
  expect(built("post-tensioned-is1343-1980", {}).column("failingNames")).toEqual(["nothing"]);
});
