/**
 * The linked sheets of strength: both invented members once more, straight from the equations, and what must not be OK.
 */
import { beforeAll, describe, expect, test } from "vitest";
import { alderQuay } from "../independent/alderQuay.ts";
import { alderQuayRoof } from "../independent/alderQuayRoof.ts";
import { postTensionedBeam, roofBeam } from "../independent/strengthMembers.ts";
import { bendingAt, shearAt } from "../independent/strength.ts";
import { builtSheet, exampleOf, type BuiltSheet } from "./builtSheet.ts";
import { linkedTemplates } from "../../src/templates/index.ts";

const post = "strength-post-tensioned-en1992-2004";
const pre = "strength-pre-tensioned-en1992-2004";
const inputsOf = (id: string, changes: Readonly<Record<string, unknown>>) => ({
  ...exampleOf(linkedTemplates.find((one) => one.id === id)!),
  ...(changes as Record<string, string | number | null>),
});
const built = new Map<string, BuiltSheet>();
beforeAll(() => {
  built.set(post, builtSheet(post));
  built.set(pre, builtSheet(pre));
}, 180_000);

const members = [
  [post, postTensionedBeam(alderQuay)],
  [pre, roofBeam(alderQuayRoof)],
] as const;

describe.each(members)("%s against a recomputation from the equations", (id, { member, places }) => {
  const column = (name: string): readonly unknown[] => built.get(id)!.column(name);
  /** To as many digits as slices and fibres give. */
  const near = (name: string, values: readonly number[], within: number): void => {
    const found = column(name);
    expect(found).toHaveLength(values.length);
    const scale = Math.max(...values.map(Math.abs));
    values.forEach((value, i) => {
      expect(
        Math.abs(Number(found[i]) - value),
        `${name} row ${i + 1}: ${String(found[i])}, recomputed ${value}`,
      ).toBeLessThan(within * scale);
    });
  };
  const bending = places.map((place) => bendingAt(member, place));
  const shear = places.map((place) => shearAt(member, place));

  test("stations, design moments and shear forces", () => {
    near(
      "dex",
      places.map(({ x }) => x / 1e3),
      1e-9,
    );
    near(
      "mHi",
      places.map(({ M }) => M / 1e6),
      1e-9,
    );
    near(
      "vEd",
      places.map(({ V }) => V / 1e3),
      1e-9,
    );
  });
  test("prestress, neutral axis, effective depth and moment resistance", () => {
    near(
      "pTen",
      bending.map(({ force }) => force / 1e3),
      1e-9,
    );
    near(
      "mRd",
      bending.map(({ M }) => M / 1e6),
      2e-5,
    );
    near(
      "xu",
      bending.map(({ x }) => x),
      1e-4,
    );
    near(
      "dEff",
      bending.map(({ d }) => d),
      1e-4,
    );
  });
  test("cracking moment", () => {
    const fct = Math.max(1.6 - member.h / 1000, 1) * member.fctm;
    const W = member.Ic / member.yb;
    near(
      "mCr",
      bending.map(({ force, e }) => (W * (fct + force / member.Ac) + force * e) / 1e6),
      1e-9,
    );
  });
  test("shear resistance without and with links, crushing of the web", () => {
    near(
      "vRdW",
      shear.map(({ uncracked }) => uncracked / 1e3),
      2e-4,
    );
    near(
      "vRdX",
      shear.map(({ cracked }) => cracked / 1e3),
      1e-4,
    );
    near(
      "vRdS",
      shear.map(({ links }) => links / 1e3),
      1e-4,
    );
    near(
      "vMax",
      shear.map(({ crushing }) => crushing / 1e3),
      1e-4,
    );
  });
  test("the sheet uses the resistance of the uncracked web only where the stations beside are uncracked too", () => {
    const open = shear.map(({ uncracked }) => uncracked > 0);
    const expected = open.map((here, i) => (here && (open[i - 1] ?? true) && (open[i + 1] ?? true) ? 1 : 0));
    expect(column("unc")).toEqual(expected);
  });
});

const verdictOf = (sheet: BuiltSheet, description: string): unknown =>
  sheet.verdicts().checks.find((one) => one.description === description)!.verdict;

describe("what must not be OK", () => {
  const bend = "bending, sagging: demand / resistance";
  const shear = "shear: demand / resistance";

  test.each<[string, string, Readonly<Record<string, unknown>>, string, string]>([
    ["a factor of the loads is missing", post, { inQ: null }, bend, "LIMIT MISSING"],
    ["the kind of the ducts is missing", post, { inDuct: null }, shear, "LIMIT MISSING"],
    ["the links are missing", pre, { inAsw: null }, shear, "LIMIT MISSING"],
    [
      "the limit of the neutral axis is missing",
      post,
      { inXd: null },
      "ductility: neutral axis / its limit",
      "LIMIT MISSING",
    ],
    ["hardly any links", post, { inAsw: 10 }, shear, "FAIL"],
    ["wide spacing right behind the supports", post, { inA1: 0.5, inS2: 900 }, "shear where the links change", "FAIL"],
    ["links wider apart than allowed", pre, { inS2: 700 }, "spacing of the links, min. links", "FAIL"],
    ["a thin web full of ducts", post, { bwi: 90, inDuct: "OTHER" }, "crushing of the web", "FAIL"],
    ["twice the load", post, { ql: 40 }, bend, "FAIL"],
    ["strands that do not reach the support, and no bars", pre, { inAb: 0 }, bend, "FAIL"],
    [
      "hogging moments and nothing at the top",
      post,
      { loads: "FURTHER", momentPoints: 3, pointLoads: 1, furQ: [0, -4000, 0] },
      "bending, hogging: demand / resistance",
      "FAIL",
    ],
  ])("%s", (_, id, changes, description, verdict) => {
    const sheet = builtSheet(id, inputsOf(id, changes));
    expect(verdictOf(sheet, description)).toBe(verdict);
    expect(sheet.verdicts().overall).not.toBe("OK");
  });

  test("a stress check built without shear forces leaves shear open", () => {
    const sheet = builtSheet(post, inputsOf(post, { web: "NO" }));
    expect(verdictOf(sheet, "shear")).toBe("OPEN");
    // Without shear nothing says how far the moments are shifted.
    expect(verdictOf(sheet, "bending, sagging: demand / resistance")).toBe("OPEN");
    expect(sheet.column("beOk")).not.toContain("OK");
    expect(sheet.verdicts().overall).toBe("INCOMPLETE");
  });
});
