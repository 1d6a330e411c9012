/** The loss by time steps may differ from the standard's in both directions; the figures are of a computation outside the project. */
import { describe, expect, test } from "vitest";
import type { Inputs } from "../../src/sheet/index.ts";
import { linkedTemplates } from "../../src/templates/index.ts";
import { computedSheet } from "../draws/sheet.ts";
import { profile } from "./profile.ts";

const sheet = (id: string, set?: Inputs) =>
  computedSheet(
    linkedTemplates.find((one) => one.id === `cross-check-${id}`)!,
    set,
  );
const post = "post-tensioned-en1992-2004";
const pre = "pre-tensioned-en1992-2004";
const postIs = "post-tensioned-is1343-1980";
const preIs = "pre-tensioned-is1343-1980";

/** Lower tendons that rise out of the flange: the figures for post-tensioned beams are those of such a one. */
const draped = (upper: number): Inputs => ({
  ...profile({
    cpe: [
      [360, 550, 360],
      [20, 550, 20],
      [-320, upper, -320],
    ],
  }),
});

describe("less loss by time steps than the allowance withholds OK", () => {
  test.each([
    [pre, "-6.5%"],
    // The sheet's own figure: not recomputed outside since later loads creep on the section with bonded tendons.
    [postIs, "-21.4%"],
    [preIs, "-22.2%"],
  ])("%s, five per cent allowed: %s", (id, share) => {
    const computed = sheet(id, { lifted: "NO", soTolLow: 0.05 });
    // A limit stands, and it is kept: what is withheld until it is explained is the overall OK, by a warning.
    expect(computed.check("soU").verdict).toBe("OK");
    expect(computed.check("soU").where).toContain(share);
    expect(computed.check("soU").where).toContain("unsafe only where prestress is unfavourable");
    expect(computed.warnings).toHaveLength(1);
    expect(computed.warnings[0]).toContain("explain it and enter what you allow");
    expect(computed.overall).toBe("WARNINGS");
    expect(computed.checks.some(({ verdict }) => verdict !== "OK")).toBe(false);
  });

  test("a post-tensioned beam with draped tendons keeps to 5 % both ways", () => {
    expect(sheet(post, { ...draped(400), lifted: "NO", soTolLow: 0.05 }).check("soU").verdict).toBe("OK");
    const below = sheet(post, { ...draped(400), lifted: "NO", soTolLow: 0.04 });
    expect(below.warnings.some((warning) => warning.includes("more than δinf = 0.04 below"))).toBe(true);
    expect(below.overall).not.toBe("OK");
  });

  test("more than 5 % allowed without a reason in words withholds OK", () => {
    for (const id of [post, pre, postIs, preIs]) {
      const { overall, warnings } = sheet(id, { soWhy: "" });
      expect(warnings).toHaveLength(1);
      expect(warnings[0]).toContain("no reason stands below it");
      expect(overall).toBe("WARNINGS");
    }
  });

  test("with the difference explained and allowed for the examples are OK, and show it", () => {
    for (const id of [post, pre, postIs, preIs]) {
      const { overall, checks } = sheet(id);
      expect(overall).toBe("OK");
      expect(String(checks.find((one) => one.id === "soU")!.where)).toMatch(/^-/);
    }
  });
});

describe("what the difference is", () => {
  /** Elastic and creep restraint by the age-adjusted modulus: 1 + E_p/E_c·A_p(1/A + e²/I)(1 + 0.8φ). */
  const restraint = (n: number, Ap: number, A: number, e: number, I: number, phi: number): number =>
    1 + n * Ap * (1 / A + (e * e) / I) * (1 + 0.8 * phi);

  test.each([
    // Shrinkage, creep, relaxation at falling stress (own integration), section at midspan; loss by that integration.
    [preIs, 58.5, 105.96, 33.1, restraint(195 / 40.305, 1381.8, 199_800, 189.678, 1.30996e10, 2.2), 169.78],
    [postIs, 32.39, 102.2, 53.64, restraint(195 / 40.305, 2520, 446_445, 520.793, 7.54733e10, 1.9), 157.53],
    [pre, 107.16, 85.74, 9.8, restraint(195 / 36.283, 1302, 199_800, 189.678, 1.30996e10, 2.0713), 175.13],
  ])("%s: restraint by the section, and relaxation under falling stress", (id, shrinkage, creep, relaxed, by, own) => {
    const computed = sheet(id, { ...(id === postIs ? { ...draped(425), fci: 40 } : {}), lifted: "NO" });
    const mid = Number(computed.valuesOf("midNo")[0]) - 1;
    const steps = Number(computed.valuesOf("soLoss")[mid]);
    expect(Math.abs(steps - own)).toBeLessThan(0.1);
    // The closed form lies within 2 % of the integration once both effects are in it.
    expect(Math.abs((shrinkage + creep + relaxed) / by / own - 1)).toBeLessThan(0.02);
  });
});
