import { beforeAll, describe, expect, test } from "vitest";
import { templates } from "../../src/templates/index.ts";
import { crackedSection } from "../independent/crackedSection.ts";
import type { Inputs } from "../../src/sheet/index.ts";
import { computedSheet } from "../draws/sheet.ts";
import { builtSheet, type BuiltSheet } from "./builtSheet.ts";
import { profile } from "./profile.ts";

const example = (id: string) => templates.find((t) => t.id === id)!.example.inputs;

describe("designs that fail the further checks say so with figures", () => {
  let built: BuiltSheet;
  beforeAll(() => {
    built = builtSheet("post-tensioned-en1992-2004", {
      ...example("post-tensioned-en1992-2004"),
      Rlim: [6, 6, 500],
      zt: [-60, 60, 30],
      cDur: 90,
      webRule: "ENTERED",
      f1In: 0.05,
      decompression: "TENDON",
      psi2: 0.9,
      psi1: 0.9,
      ql: 30,
      AsB: 200,
    });
  }, 180_000);

  test("radius, cover, spacing, web, decompression round the tendons, reinforcement", () => {
    const { overall, checks } = built.verdicts();
    expect(overall).not.toBe("OK");
    for (const part of ["radius of", "concrete cover", "clear spacing", "in the web", "minimum reinforcement"])
      expect(
        checks.find(({ description }) => description.startsWith(part) || description.includes(part))?.verdict,
        part,
      ).toBe("FAIL");
    expect(built.column("decOk")).toContain("FAIL");
    expect(Math.min(...(built.column("sDec") as number[]))).toBeLessThan(0);
  });
  test("no cell holds an error", () => expect(built.errors()).toEqual([]));
  test("a tendon off the axis stresses the corners at midspan", () => {
    const [z, P] = [[-60, 60, 30], (built.column("stForce0") as number[]).slice(7 * 3, 7 * 3 + 3)];
    const M = P.reduce((sum, p, i) => sum + (p * z[i]!) / 1000, 0);
    expect(built.column("Mw")[7]).toBeCloseTo(M, 8);
  });
});

describe("the pre-tensioned beam with cracking allowed", () => {
  let built: BuiltSheet;
  beforeAll(() => {
    built = builtSheet("pre-tensioned-en1992-2004", {
      ...example("pre-tensioned-en1992-2004"),
      cracking: "ALLOWED",
      ql: 16,
      psi1: 0.9,
      ftFict: -8,
      sBar: 60,
      AsB: 452,
    });
  }, 180_000);

  test("stresses of the cracked section at midspan and crack width, by strips and bisection", () => {
    const cracked = built.column("zK") as number[];
    const at = cracked.lastIndexOf(1);
    expect(at).toBeGreaterThan(0);
    const pick = (id: string): number[] => (built.column(id) as number[]).slice(at * 5, at * 5 + 5);
    const [A, y, E, free] = [pick("yA"), pick("yY"), pick("yE"), pick("y0")];
    const strips = [
      { b: 450, from: 0, to: 180 },
      { b: 140, from: 180, to: 600 },
      { b: 400, from: 600, to: 750 },
    ];
    const [yb] = built.column("yb") as number[];
    const [Ecm] = built.column("Ecm") as number[];
    const M = (built.column("zMf") as number[])[at]!;
    const own = crackedSection(
      strips,
      A.map((area, i) => ({ A: area, y: y[i]!, E: E[i]! * 1000, free: free[i]! })),
      Ecm! * 1000,
      M * 1e6,
      yb!,
    );
    expect((built.column("zX") as number[])[at]).toBeCloseTo(own.x, 3);
    const bar = Math.max(0, own.stress[4]!);
    expect((built.column("zBar") as number[])[at]).toBeCloseTo(bar, 4);
    expect(bar).toBeGreaterThan(0);
    // Effective zone 2.5·60 or (h − x)/3; bars 452 mm², 12 mm; tendons inside; cover 54.
    const zone = Math.min(150, (750 - own.x) / 3, 375);
    const Ap = A.slice(0, 4).reduce((sum, area, i) => (y[i]! <= zone ? sum + area : sum), 0);
    const xi = Math.sqrt((0.6 * 12) / (1.6 * Math.sqrt(93)));
    const rho = (452 + xi ** 2 * Ap) / (450 * zone);
    const fctm = 0.3 * 45 ** (2 / 3);
    const strain = Math.max((bar - ((0.4 * fctm) / rho) * (1 + (200 / Ecm!) * rho)) / 200e3, (0.6 * bar) / 200e3);
    const w = strain * (3.4 * 54 + (0.425 * 0.8 * 0.5 * 12) / rho);
    expect((built.column("zW") as number[])[at]).toBeCloseTo(w, 6);
  });
  test("no cell holds an error", () => expect(built.errors()).toEqual([]));
});

describe("tendons in the concrete at every station", () => {
  const post = "post-tensioned-en1992-2004";
  const computed = (id: string, changes: Inputs) =>
    computedSheet(
      templates.find((t) => t.id === id)!,
      changes,
    );
  const draped: Inputs = {
    ...profile({
      cpe: [
        [360, 550, 360],
        [20, 550, 20],
        [-320, 400, -320],
      ],
    }),
  };

  /** In the web of 220 mm: from its side at 110 mm to a duct of 65 mm centred at 85 or 140 mm. */
  test.each<[string, Inputs, number]>([
    ["a duct that rises out of the flange beside the web", draped, 110 - 85 - 32.5],
    ["ducts 140 mm off the axis", { ...draped, zt: [-140, 140, 0] }, 110 - 140 - 32.5],
    ["widened without a width", { ...draped, detFrom: 12 }, 110 - 85 - 32.5],
  ])("%s: FAIL with its cover", (_what, changes, cover) => {
    const sheet = computed(post, changes);
    expect(sheet.valuesOf("covMin")[0]).toBeCloseTo(cover, 9);
    expect(sheet.check("uCover").verdict).toBe("FAIL");
    expect(sheet.check("uCover").utilisation).toBeCloseTo(1 + (75 - cover) / 75, 9);
    expect(sheet.check("uCover").where).toBe("outside: no. 1, x = 0.00 m");
    expect(sheet.errors).toEqual([]);
  });

  test("within the width entered for the widened section the same ducts have their cover, and no further in", () => {
    const wide = computed(post, { ...draped, detFrom: 9.5, detWidth: 600 });
    // 300 − 85 − 32.5 at the side.
    expect(wide.valuesOf("covMin")[0]).toBeCloseTo(182.5, 9);
    expect(wide.check("uCover").verdict).toBe("OK");
    expect(computed(post, { ...draped, detFrom: 5, detWidth: 600 }).check("uCover").verdict).toBe("FAIL");
    // 100 mm too narrow for 75 mm of cover: 160 − 85 − 32.5 = 42.5.
    const narrow = computed(post, { ...draped, detFrom: 9.5, detWidth: 320 });
    expect(narrow.valuesOf("covMin")[0]).toBeCloseTo(42.5, 9);
    expect(narrow.check("uCover").verdict).toBe("FAIL");
  });

  test("far outside it is a verdict with figures, in every template", () => {
    for (const id of templates.map((t) => t.id)) {
      const sheet = computed(id, { zt: id.startsWith("post") ? [-1400, 140, 0] : [0, 3000, 0, 0] });
      expect(sheet.errors, id).toEqual([]);
      expect(sheet.check("uCover").verdict, id).toBe("FAIL");
      expect(Number(sheet.check("uCover").utilisation), id).toBeGreaterThan(10);
      expect(sheet.overall, id).toBe("FAIL");
    }
  });

  test("without a limit of cover a duct outside is still FAIL", () => {
    const sheet = computed("post-tensioned-is1343-1980", { zt: [-140, 140, 0], cNomIn: null, ...draped });
    expect(sheet.check("uCover").verdict).toBe("FAIL");
  });
});
