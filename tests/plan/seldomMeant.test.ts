import { describe, expect, it } from "vitest";
import type { Inputs } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { computedSheet } from "../draws/sheet.ts";
import { creepCoefficient } from "../independent/en1992.ts";
import { alderQuay } from "../independent/alderQuay.ts";
import { beam } from "../independent/postTensionedBeam.ts";

const post = "post-tensioned-en1992-2004";
const pre = "pre-tensioned-en1992-2004";
const preIs = "pre-tensioned-is1343-1980";
const computed = (id: string, changes: Inputs = {}) =>
  computedSheet(
    templates.find((t) => t.id === id)!,
    { opinion: "NO", region: "NO", ...changes },
  );

/** Ordinary advice of the trade; the limit of bars is 9.2.1.1(3) of EN 1992-1-1. */
describe("inputs that are allowed but seldom meant are told in words", () => {
  it.each<[string, Inputs, string]>([
    [post, { liftFactor: 1 }, "counts no shock or adhesion"],
    [post, { liftLow: 1 }, "counts no rebound"],
    [pre, { liftLow: 1 }, "counts no rebound"],
    [post, { cDev: 0 }, "no allowance for deviation"],
    [post, { psi1: 0, psi2: 0, exposure: "XD_XS" }, "without any variable load"],
    [post, { RH: 100 }, "RH (relative humidity of the surroundings) = 100 %"],
    [post, { detFrom: 12, detWidth: 500 }, "more than a quarter of L = 24 m"],
    [post, { AsB: 20_000 }, "more than 4 % of Ac"],
    [post, { bonding: "MEASURED" }, "count on a force measured"],
  ])("%s %o: %s", (id, changes, words) => {
    const sheet = computed(id, changes);
    expect(sheet.warnings.filter((warning) => warning.includes(words)).length).toBeGreaterThan(0);
    expect(sheet.overall).not.toBe("OK");
    expect(sheet.errors).toEqual([]);
    expect(computed(id).warnings).toEqual([]);
  });

  it.each([
    [pre, "fckTest"],
    [preIs, "fciTest"],
  ])("%s: tests without their figure prove nothing, and a lower figure fails", (id, figure) => {
    const without = computed(id, { [figure]: null });
    expect(without.check("uStrength")).toMatchObject({
      verdict: "LIMIT MISSING",
      where: "enter the strength that the tests gave",
    });
    expect(without.overall).toBe("INCOMPLETE");
    const required = id === pre ? 30 : 40;
    const lower = computed(id, { [figure]: id === pre ? 28 : 38 });
    expect(lower.check("uStrength").verdict).toBe("FAIL");
    expect(lower.check("uStrength").utilisation).toBeCloseTo(required / (id === pre ? 28 : 38), 12);
  });
});

describe("tendons stressed at different ages", () => {
  const tStep = [10, 14, 7];
  const sheet = computed(post, { tStep, fckStep: [30, 34, 26] });
  it("creep by the age of each, weighted by its force", () => {
    const { h0 } = beam(alderQuay);
    const phi = tStep.map((age) => creepCoefficient({ ...alderQuay, t0: age }, h0, age));
    // 6, 6 and 5 strands at the same stress.
    const mean = (6 * phi[0]! + 6 * phi[1]! + 5 * phi[2]!) / 17;
    expect(sheet.valuesOf("phi")[0]).toBeCloseTo(mean, 9);
    expect(computed(post).valuesOf("phi")[0]).toBeCloseTo(beam(alderQuay).phi, 9);
  });
  it("strength and modulus of that age: (3.1), (3.2), (3.5)", () => {
    const mean = (age: number): number => 48 * Math.exp(0.25 * (1 - Math.sqrt(28 / age)));
    const proved = [38, 42, 34];
    const used = tStep.map((age, i) => Math.min(mean(age), proved[i]!, mean(14)));
    used.forEach((f, i) => expect(sheet.valuesOf("utMean")[i]).toBeCloseTo(f, 9));
    expect(sheet.valuesOf("Ecmt")[0]).toBeCloseTo((beam(alderQuay).Ecm / 1000) * (Math.min(...used) / 48) ** 0.3, 9);
  });
  it("a strength asked for before the concrete can have it fails", () => {
    const early = computed(post, { tStep: [3.5, 14, 14] });
    expect(early.check("uStepF").verdict).toBe("FAIL");
    expect(Number(early.check("uStepF").utilisation)).toBeGreaterThan(1);
  });
});
