import { describe, expect, test } from "vitest";
import { planFor } from "../../src/office/index.ts";
import { expand, type Inputs, type InputValue } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { alderQuay } from "../independent/alderQuay.ts";
import { beam } from "../independent/postTensionedBeam.ts";
import { builtSheet, type BuiltSheet } from "./builtSheet.ts";

const post = "post-tensioned-en1992-2004";
const pre = "pre-tensioned-en1992-2004";
const templateOf = (id: string) => templates.find((t) => t.id === id)!;
const exampleOf = (id: string): Inputs => templateOf(id).example.inputs;
/** The example without its uniform loads, which a sheet of entered moments has not. */
const withoutLoads = (id: string): Inputs =>
  Object.fromEntries(Object.entries(exampleOf(id)).filter(([key]) => key !== "gs" && key !== "ql"));

let built: BuiltSheet;
/** Straight between points, in kN·m and m; the result in N·mm at x in mm. */
const straight =
  (xs: readonly number[], ms: readonly number[]) =>
  (x: number): number => {
    const at = xs.findIndex((place, i) => i > 0 && x <= place * 1000 + 1e-6);
    const [a, b] = [xs[at - 1]! * 1000, xs[at]! * 1000];
    return 1e6 * (ms[at - 1]! + ((ms[at]! - ms[at - 1]!) * (x - a)) / (b - a));
  };
const sum =
  (...parts: readonly ((x: number) => number)[]) =>
  (x: number): number =>
    parts.reduce((all, part) => all + part(x), 0);
/** Point load in kN at a in m of a simply supported span of 24 m, by its reactions. */
const point =
  (F: number, a: number) =>
  (x: number): number => {
    const left = (F * 1000 * (24 - a)) / 24;
    return left * x - F * 1000 * Math.max(x - a * 1000, 0);
  };
const agreeing = ["x", "Mg", "Ms", "Mq", "P0", "dcsr", "spInf", "lowTop", "lowBottom", "vmin", "vmax"] as const;

function agreeWith(sheet: BuiltSheet, expected: ReturnType<typeof beam>): void {
  const r = expected.rows;
  const values: Readonly<Record<(typeof agreeing)[number], readonly number[]>> = {
    x: r.map((row) => row.x / 1000),
    Mg: r.map((row) => row.Mg / 1e6),
    Ms: r.map((row) => row.Ms / 1e6),
    Mq: r.map((row) => row.Mq / 1e6),
    P0: r.map((row) => row.P0 / 1000),
    dcsr: r.map((row) => row.dcsr),
    spInf: r.map((row) => row.spInf),
    lowTop: expected.steps.flatMap((s) => s.stresses.map(({ top }) => top)),
    lowBottom: expected.steps.flatMap((s) => s.stresses.map(({ bottom }) => bottom)),
    vmin: expected.stages.flatMap((s) => s.at.map((a) => a.min)),
    vmax: expected.stages.flatMap((s) => s.at.map((a) => a.max)),
  };
  for (const id of agreeing) sheet.agree(id, values[id]);
}

describe("loads as they come, against a second computation", () => {
  const xs = [0, 6, 12, 18, 24];

  test("point loads and further moments of every action, beside the uniform loads", () => {
    built = builtSheet(post, {
      ...exampleOf(post),
      loads: "FURTHER",
      momentPoints: 5,
      furX: xs,
      furG: [0, 15, 20, 15, 0],
      furL: [0, 10, 14, 10, 0],
      furS: [0, 0, 20, 0, 0],
      furQ: [0, 0, 0, 40, 0],
      pointLoads: 2,
      plX: [9, 18],
      plS: [10, 0],
      plQ: [0, 30],
    });
    const own = beam({
      ...alderQuay,
      further: {
        places: [...xs.map((x) => x * 1000), 9000, 18000],
        Mg: straight(xs, [0, 15, 20, 15, 0]),
        Ms: sum(straight(xs, [0, 0, 20, 0, 0]), point(10, 9)),
        Mq: sum(straight(xs, [0, 0, 0, 40, 0]), point(30, 18)),
        Ml: straight(xs, [0, 10, 14, 10, 0]),
      },
    });
    for (const id of ["x", "Mg", "Ms", "Mq", "Ml"] as const)
      built.agree(
        id,
        own.rows.map((row) => (id === "x" ? row.x / 1000 : row[id] / 1e6)),
      );
    built.agree(
      "dcsr",
      own.rows.map((row) => row.dcsr),
    );
    expect(built.errors()).toEqual([]);
  });

  test("moments entered for a member that no span formula describes", () => {
    const places = [0, 4, 8, 12, 16, 20, 24];
    const [furG, furS, furQ] = [
      [0, 300, 600, 820, 600, 300, 0],
      [0, 200, 300, 400, 300, 200, 0],
      [0, 500, 800, 900, 800, 500, 0],
    ];
    built = builtSheet(post, { ...withoutLoads(post), loads: "MOMENTS", momentPoints: 7, furG, furS, furQ });
    agreeWith(
      built,
      beam({
        ...alderQuay,
        noSpan: true,
        further: {
          places: places.map((x) => x * 1000),
          Mg: straight(places, furG),
          Ms: straight(places, furS),
          Mq: straight(places, furQ),
        },
      }),
    );
    // Only the web, whose shear nobody entered, withholds OK.
    const { overall, checks } = built.verdicts();
    expect(overall).toBe("INCOMPLETE");
    expect(checks.filter(({ verdict }) => verdict !== "OK").map(({ description }) => description)).toEqual([
      "principal tension in the web",
    ]);
  });
});

describe("a member without end supports", () => {
  test.each(templates.map(({ id }) => id))(
    "%s: no moment entered is INCOMPLETE, whatever the span",
    (id) => {
      built = builtSheet(id, { ...withoutLoads(id), loads: "MOMENTS" });
      expect(built.verdicts().overall).toBe("INCOMPLETE");
      const own = built.column("Mg") as number[];
      expect(own.every((M) => M === 0)).toBe(true);
    },
    120_000,
  );

  test("its uniform loads are refused, so that none is left out in silence", () => {
    const settings = new Map<string, InputValue>([
      ["loads", "MOMENTS"],
      ["ql", 15],
    ]);
    expect(() => planFor(templateOf(post), settings, {})).toThrow(/input ql has no place on a sheet of this shape/);
  });

  test("points that do not reach both ends: FAIL", () => {
    built = builtSheet(post, {
      ...withoutLoads(post),
      loads: "MOMENTS",
      furX: [0, 12, 23],
      furG: [0, 800, 0],
      furS: [0, 400, 0],
      furQ: [0, 900, 0],
    });
    expect(built.verdicts().overall).toBe("FAIL");
    expect(built.errors()).toEqual([]);
  });
});

test("pre-tensioned: point loads stand left and right, one at midspan once; the self-weight entered shortens the strands", () => {
  built = builtSheet(pre, {
    ...exampleOf(pre),
    loads: "FURTHER",
    pointLoads: 2,
    plX: [5, 7.5],
    plQ: [10, 20],
    furG: [0, 5, 9],
    furL: [0, 1, 1],
  });
  const { L, ql } = exampleOf(pre) as { readonly L: number; readonly ql: number };
  const [x, Mq] = [built.column("x") as number[], built.column("Mq") as number[]];
  // Pair of 10 kN: 10·x up to 5 m, then 50; 20 kN at midspan: 10·x.
  x.forEach((at, i) => expect(Mq[i]).toBeCloseTo((ql * at * (L - at)) / 2 + 10 * Math.min(at, 5) + 10 * at, 6));
  const g = (built.column("g") as number[])[0]!;
  expect(built.column("MgMid")[0]).toBeCloseTo((g * L * L) / 8 + 9, 6);
});

test("further self-weight without its moments while lifting leaves the sheet incomplete", () => {
  built = builtSheet(post, { ...exampleOf(post), loads: "FURTHER", furG: [0, 30, 0] });
  expect(built.verdicts().overall).toBe("INCOMPLETE");
});

describe.each(templates)("$id", (template) => {
  test.each([
    ["FURTHER", "NO"],
    ["MOMENTS", "NO"],
    ["MOMENTS", "YES"],
  ])("%s, lifted %s: the sheet can be built", (loads, lifted) => {
    expect(() => expand(template, { loads, lifted })).not.toThrow();
  });
});
