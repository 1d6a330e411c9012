/**
 * The sheet of a member with a topping, recomputed from the values it takes and its inputs without the core: the topping
 * in the ratio of the moduli, stresses by stage, unequal shrinkage in equilibrium, shear of the joint. Mechanics, and the
 * formulas of EN 1992-1-1 written out anew; the example is invented.
 */
import { describe, expect, test } from "vitest";
import type { Inputs } from "../../src/sheet/index.ts";
import { linkedTemplates } from "../../src/templates/index.ts";
import { builtSheet, exampleOf, planned } from "./builtSheet.ts";

const ids = linkedTemplates.map(({ id }) => id).filter((id) => id.startsWith("composite-"));
const post = "composite-post-tensioned-en1992-2004";
const inputsOf = (id: string, set: Inputs = {}): Inputs => ({
  ...exampleOf(linkedTemplates.find((one) => one.id === id)!),
  ...set,
});
const sheetOf = (id: string, set: Inputs = {}) => builtSheet(id, inputsOf(id, set));
type Sheet = ReturnType<typeof sheetOf>;
const numbers = (sheet: Sheet, id: string): readonly number[] => sheet.column(id).map(Number);
const one = (sheet: Sheet, id: string): number => numbers(sheet, id)[0]!;

/** Strain plane of a section in two parts by integration over strips, in the member's terms. */
interface Parts {
  readonly A: number;
  readonly S: number;
  readonly I: number;
}
/** Area, first and second moment about the soffit. */
function together(sheet: Sheet, station: number, n: number): Parts {
  const [A, y, I] = ["Atr", "ytr", "Itr"].map((id) => numbers(sheet, id)[station]!) as [number, number, number];
  const [b, t, h] = ["bEff", "tpT", "tpY"].map((id) => one(sheet, id)) as [number, number, number];
  const width = n * b;
  return {
    A: A + width * t,
    S: A * y + (width * ((h + t) ** 2 - h ** 2)) / 2,
    I: I + A * y ** 2 + (width * ((h + t) ** 3 - h ** 3)) / 3,
  };
}

/** Stress of the member's concrete at a height under a force (compression positive) at a height and a moment. */
function plane(all: Parts, height: number, N: number, at: number, M: number): number {
  const yc = all.S / all.A;
  const Ic = all.I - all.S * yc;
  return N / all.A + ((N * (at - yc) + M) * (height - yc)) / Ic;
}

const near = (found: readonly number[], wanted: readonly number[], scale = Math.max(...wanted.map(Math.abs))): void => {
  expect(found).toHaveLength(wanted.length);
  wanted.forEach((value, i) =>
    expect(Math.abs(found[i]! - value), `${i}: ${found[i]} ${value}`).toBeLessThan(1e-9 * scale),
  );
};

describe.each(ids)("%s", (id) => {
  const sheet = sheetOf(id);
  const stations = numbers(sheet, "x");
  const n = one(sheet, "EcmT") / one(sheet, "Ecm");
  const [h, t, b] = ["tpY", "tpT", "bEff"].map((row) => one(sheet, row)) as [number, number, number];

  test("a station that repeats the one before is left blank among the stresses read across", () => {
    const repeats = sheet.column("label").map((label) => label === "as above");
    expect(repeats).toContain(true);
    for (const id of ["ssx", "ssCB", "ssCT"]) {
      const shown = sheet.column(id);
      repeats.forEach((again, i) => expect(typeof shown[i], `${id} ${i + 1}`).toBe(again ? "string" : "number"));
      expect(shown.filter((value) => value === "")).toHaveLength(repeats.filter(Boolean).length);
    }
  });

  test("stresses of the last stage at every station", () => {
    const stages = sheet.column("smN").length;
    const from = (stages - 1) * stations.length;
    const last = (column: string) => numbers(sheet, column).slice(from);
    const [s2, q2, L] = [2, 6, Number(sheet.column("L")[0])];
    const phi = one(sheet, "phiR");
    const F = one(sheet, "dEps") * n * one(sheet, "Ecm") * 1000 * b * t * ((1 - Math.exp(-phi)) / phi);
    const wanted = stations.map((x, i) => {
      const all = together(sheet, i, n);
      const M = (((s2 + q2) * x * (L - x)) / 2) * 1e6;
      const stress = (height: number): number => plane(all, height, F, h + t / 2, M);
      const alone = (fibre: "t" | "b"): number =>
        numbers(sheet, `f${fibre}Inf`)[i]! +
        numbers(sheet, "Mg")[i]! * numbers(sheet, `fg${fibre}`)[i]! +
        numbers(sheet, "Ms")[i]! * numbers(sheet, `fl${fibre}`)[i]!;
      const held = F / (b * t);
      return {
        b: alone("b") + stress(0),
        m: alone("t") + stress(h),
        tb: n * stress(h) - held,
        tt: n * stress(h + t) - held,
      };
    });
    near(
      last("cvB"),
      wanted.map((one) => one.b),
    );
    near(
      last("cvT"),
      wanted.map((one) => one.m),
    );
    near(
      last("cvTb"),
      wanted.map((one) => one.tb),
    );
    near(
      last("cvTt"),
      wanted.map((one) => one.tt),
    );
  });

  test("the stresses by unequal shrinkage have neither force nor moment", () => {
    stations.forEach((_, i) => {
      const [bottom, top, below, above] = ["shB", "shM", "shL", "shU"].map((id) => numbers(sheet, id)[i]!) as [
        number,
        number,
        number,
        number,
      ];
      const [A, y, I] = ["Atr", "ytr", "Itr"].map((id) => numbers(sheet, id)[i]!) as [number, number, number];
      const slope = (top - bottom) / h;
      const N = A * (bottom + slope * y);
      const rise = (above - below) / t;
      const Nt = ((below + above) / 2) * b * t;
      const M = N * y + slope * I + Nt * (h + t / 2) + (rise * b * t ** 3) / 12;
      expect(Math.abs(N + Nt)).toBeLessThan(1e-9 * Math.abs(Nt));
      expect(Math.abs(M)).toBeLessThan(1e-9 * Math.abs(Nt * h));
    });
  });

  test.each(["inTt", "inBi", "inProp", "inQ2", "inGq"])("without %s nothing says OK", (input) => {
    const verdicts = sheetOf(id, { [input]: null }).verdicts();
    expect(verdicts.overall).toBe("INCOMPLETE");
    for (const { description, verdict } of verdicts.checks) expect(verdict, description).not.toBe("OK");
  });

  test("a stress check that does not say a topping comes: never OK", () => {
    const sheet = sheetOf(id, { topping: "NO" });
    expect(sheet.verdicts().overall).toBe("INCOMPLETE");
    expect(sheet.verdicts().checks[0]).toMatchObject({ verdict: "OPEN" });
  });

  test("a superimposed load that lacks the wet topping fails; propped it need not hold it", () => {
    expect(sheetOf(id, { gs: 0 }).verdicts()).toMatchObject({ overall: "FAIL" });
    const propped = sheetOf(id, { gs: 0, inProp: "PROPPED" });
    expect(propped.column("uWeight")).toEqual([0]);
    const M = numbers(propped, "cvM");
    const top = numbers(propped, "mTop");
    const s2 = numbers(propped, "mS2");
    // The third stage is the first on the composite section, with permanent loads alone.
    const from = 2 * stations.length;
    near(
      M.slice(from, from + stations.length),
      top.map((one, i) => one + s2[i]!),
    );
  });
});

describe("propped, of one modulus and without prestress or shrinkage", () => {
  const set = { inProp: "PROPPED", inFt: 40, sectionModel: "GROSS", gs: 0, ql: 0, inBs: 900, inBi: 900 };
  const sheet = sheetOf(post, set);

  test("later loads stress member and topping as one section", () => {
    // I-section of the example, 900 × 180, 220 web, 500 × 250, h = 1200, with 900 × 80 on top: strips of one section.
    const strips = [
      [500, 0, 250],
      [220, 250, 1020],
      [900, 1020, 1280],
    ] as const;
    const sum = (f: (b: number, from: number, to: number) => number): number =>
      strips.reduce((all, [b, from, to]) => all + f(b, from, to), 0);
    const A = sum((b, from, to) => b * (to - from));
    const y = sum((b, from, to) => (b * (to ** 2 - from ** 2)) / 2) / A;
    const I = sum((b, from, to) => (b * (to ** 3 - from ** 3)) / 3) - A * y ** 2;
    const mid = one(sheet, "midNo") - 1;
    expect(numbers(sheet, "cmA")[mid]).toBeCloseTo(A, 4);
    const wanted = [-y, 1200 - y, 1200 - y, 1280 - y].map((z) => (1e6 * z) / I);
    near(
      ["c1b", "c1t", "t1b", "t1t"].map((id) => numbers(sheet, id)[mid]!),
      wanted,
    );
    // The weight of the topping, on the composite section: 25 kN/m³ × 0.9 m × 0.08 m on 24 m.
    const M = numbers(sheet, "mTop")[mid]!;
    expect(M).toBeCloseTo((25 * 0.9 * 0.08 * 24 ** 2) / 8, 9);
  });
});

describe("EN 1992-1-1, written out", () => {
  const sheet = sheetOf(post);

  test("effective width, (5.7) and (5.7a), recalled", () => {
    const side = (1500 - 800) / 2;
    expect(one(sheet, "bEff")).toBeCloseTo(800 + 2 * Math.min(0.2 * side + 0.1 * 24000, 0.2 * 24000, side), 9);
    const long = sheetOf(post, { inBs: 8000, inBi: 300 });
    expect(one(long, "bEff")).toBeCloseTo(300 + 2 * Math.min(0.2 * 3850 + 2400, 4800, 3850), 9);
  });

  test("the joint: (6.24), (6.25) and the steel required", () => {
    const fctd = (0.7 * 0.3 * 30 ** (2 / 3)) / 1.5;
    const fyd = 500 / 1.15;
    const rho = 157 / (800 * 200);
    const most = (0.5 * 0.6 * (1 - 30 / 250) * 30) / 1.5;
    const none = 0.4 * fctd;
    const held = Math.min(none + rho * fyd * 0.7, most);
    expect(one(sheet, "vSteel")).toBeCloseTo(held, 9);
    expect(one(sheet, "vMost")).toBeCloseTo(most, 9);
    const depth = 1200 + 80;
    const V = numbers(sheet, "x").map((x) => {
      const permanent = (one(sheet, "g") + 6 + 2) * (12 - x);
      return 1.35 * Math.abs(permanent) + (1.5 * 6 * Math.max(x, 24 - x) ** 2) / 48;
    });
    const yp = numbers(sheet, "ynet").map((y, i) => y - numbers(sheet, "e0")[i]!);
    const v = V.map((kN, i) => (kN * 1000) / (0.9 * (depth - yp[i]!) * 800));
    near(numbers(sheet, "jv1"), v);
    near(
      numbers(sheet, "jReq"),
      v.map((one) => (Math.max(0, one - none) / (0.7 * fyd)) * 800 * 1000),
    );
    expect(one(sheet, "uJoint")).toBeCloseTo(Math.max(...v) / held, 9);
  });

  test("more shear than the joint holds fails", () => {
    const weak = sheetOf(post, { inSurf: "VERY_SMOOTH", inJa: null, inJs: null, inJm: null });
    expect(weak.verdicts().overall).toBe("FAIL");
    expect(one(weak, "uJoint")).toBeGreaterThan(1);
  });

  test("entered moments without the shears of the web check: the joint is not judged", () => {
    const sheet = sheetOf(post, { loads: "FURTHER", web: "NO" });
    expect(sheet.column("uJoint")).toEqual(["no shear"]);
    expect(sheet.verdicts().overall).not.toBe("OK");
  });
});

test("a stress check with a topping to come warns, so that it is not OK before somebody has looked", () => {
  for (const id of ids) {
    const { source } = planned(
      linkedTemplates.find((one) => one.id === id)!,
      inputsOf(id),
    );
    const { row, column } = source!.plan.summary.overall;
    expect(source!.sheet.cells[row]![column]!.value).toBe("WARNINGS");
  }
});

describe.each(ids)("%s, the first page", (id) => {
  test("value over limit is the utilisation shown, where both are numbers", () => {
    const template = linkedTemplates.find((one) => one.id === id)!;
    const { plan, values } = planned(template, inputsOf(id));
    const head = plan.cells.find(({ value, row }) => value === "limit" && row < 20)!;
    const [at, limitAt, ratioAt] = ["value", "limit", "util."].map(
      (word) => plan.cells.find(({ row, value }) => row === head.row && value === word)!.column,
    ) as [number, number, number];
    const rows = plan.summary.checks
      .map((_, i) => values[head.row + 1 + i]!)
      .map((line) => [line[at]!.value, line[limitAt]!.value, line[ratioAt]!.value])
      .filter((line): line is [number, number, number] => line.every((one) => typeof one === "number"));
    expect(rows.length).toBeGreaterThanOrEqual(4);
    // The weight of the topping is rounded to four digits, so that the place it governs does not hang on the last ones.
    for (const [value, limit, ratio] of rows) expect(Math.abs(value / limit - ratio)).toBeLessThan(1e-4);
  });

  test("tension of the member: what pulls and what holds at the fibre that governs, from its stresses", () => {
    const sheet = sheetOf(id);
    const [rsup, rinf] = [one(sheet, "rsup"), one(sheet, "rinf")];
    const columns = ["cvPt", "cvPb", "cvLt", "cvLb", "cvFt", "cvPull", "cvUt", "cvn"].map((name) =>
      numbers(sheet, name),
    );
    const [Pt, Pb, Lt, Lb, ft, pulls, ratios, place] = columns;
    const second = id.includes("pre-") ? ["cvPt2", "cvPb2"].map((name) => numbers(sheet, name)) : [Pt!, Pb!];
    const late = numbers(sheet, "smSh");
    const stations = numbers(sheet, "x").length;
    const [shM, shB] = ["shM", "shB"].map((name) => numbers(sheet, name)) as [readonly number[], readonly number[]];
    ratios!.forEach((ratio, i) => {
      const shrinks = late[Math.floor(i / stations)]! > 0;
      const fibres = (
        [
          [Math.min(Pt![i]!, second[0]![i]!), Lt![i]!, shM[place![i]! - 1]!],
          [Math.min(Pb![i]!, second[1]![i]!), Lb![i]!, shB[place![i]! - 1]!],
        ] as const
      ).map(([prestress, loads, shrinkage]) => {
        const M = loads + (shrinks ? Math.min(shrinkage, 0) : 0);
        const p = prestress > 0 ? rinf * prestress : rsup * prestress;
        const parts = [p, M];
        const pull = -parts.filter((x) => x < 0).reduce((all, x) => all + x, 0);
        const hold = parts.filter((x) => x > 0).reduce((all, x) => all + x, 0) - ft![i]!;
        return { pull, ratio: pull === 0 ? 0 : pull / hold };
      });
      const worst = fibres.reduce((a, b) => (b.ratio > a.ratio ? b : a));
      expect(Math.abs(ratio - worst.ratio), `${i}`).toBeLessThan(1e-9);
      expect(Math.abs(pulls![i]! - worst.pull), `${i}`).toBeLessThan(1e-9 * Math.max(1, worst.pull));
    });
  });
});
