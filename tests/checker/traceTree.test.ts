import { all, create } from "mathjs/number";
import temml from "temml";
import { describe, expect, it } from "vitest";
import {
  calculationNote,
  collect,
  linesOf,
  pathText,
  printed,
  rootOf,
  Tracer,
  type Branch,
  type Collected,
  type Setting,
  type TracedCell,
} from "../../src/checker/index.ts";
import { branchesOf } from "../../src/checker/trace/tree.ts";
import { cautions } from "../../src/core/index.ts";
import { at, staticHost, type StaticCell } from "./staticHost.ts";

/** 1395·e^−(0.2·0.3 + 0.003·12) = 1267.31 and 1267.31·1500/1000 = 1900.96, by hand calculator. */
const sheet: Readonly<Record<string, StaticCell>> = {
  A1: "Stress at the jack",
  B1: 1395,
  C1: "MPa",
  A2: "Friction coefficient",
  B2: 0.2,
  C2: "1/rad",
  A3: "Angle",
  B3: 0.3,
  C3: "rad",
  A4: "Wobble",
  B4: 0.003,
  C4: "1/m",
  A5: "Distance from the jack",
  B5: { f: "=B6-B7", v: 12 },
  C5: "m",
  A6: "Length",
  B6: 15,
  C6: "m",
  A7: "Rest",
  B7: 3,
  C7: "m",
  A8: "Area",
  B8: 1500,
  C8: "mm2",
  E1: "Stress",
  F1: { f: '=KERN.FRICTION_STRESS(B3,B2,B4,"1/m",B1,B5)', v: 1267.3073024158452 },
  G1: "MPa",
  E2: "Force",
  F2: { f: "=F1*B8/1000", v: 1900.9609536237678 },
  G2: "kN",
  E3: "Force for each unit of stress",
  F3: { f: "=F2/F1", v: 1.5 },
};
const tracer = (cells: Readonly<Record<string, StaticCell>>): Tracer => new Tracer(staticHost(cells));
const trace = (cells: Readonly<Record<string, StaticCell>>, where: string): Promise<TracedCell> =>
  tracer(cells).trace(at(where));
const addresses = (branches: readonly Branch[]): readonly string[] => branches.map(({ address }) => address);

/** A tree with everything opened that opens. */
async function opened(
  cells: Readonly<Record<string, StaticCell>>,
  where: string,
): Promise<readonly (readonly [string, string, boolean])[]> {
  const of = tracer(cells);
  const root = rootOf(await of.trace(at(where)));
  const behind = new Map<string, readonly Branch[]>();
  const open = new Set<string>();
  for (;;) {
    const closed = linesOf(root, open, behind).filter((line) => line.branch.opens && !line.open && !line.repeated);
    if (closed.length === 0) break;
    for (const { path, branch } of closed) {
      open.add(pathText(path));
      behind.set(branch.key, await of.behind(branch, "Sheet1"));
    }
  }
  return linesOf(root, open, behind).map(
    ({ path, branch, repeated }) =>
      [`${"  ".repeat(path.length - 1)}${branch.address}`, branch.text, repeated] as const,
  );
}

describe("how a value comes about as a tree", () => {
  it("has behind each cell what its formula refers to, in its order, and opens the same cell once", async () => {
    expect(await opened(sheet, "F3")).toEqual([
      ["F3", "1.5", false],
      ["  F2", "1900.96", false],
      ["    F1", "1267.31", false],
      ["      B3", "0.3", false],
      ["      B2", "0.2", false],
      ["      B4", "0.003", false],
      ["      B1", "1395", false],
      ["      B5", "12", false],
      ["        B6", "15", false],
      ["        B7", "3", false],
      ["    B8", "1500", false],
      ["  F1", "1267.31", true],
    ]);
  });

  it("ends where cells refer to one another in a circle", async () => {
    expect(await opened({ A1: { f: "=A2", v: 0 }, A2: { f: "=A1", v: 0 } }, "A1")).toEqual([
      ["A1", "0", false],
      ["  A2", "0", false],
      ["    A1", "0", true],
    ]);
  });

  it("keeps a line closed until its path is open and what is behind it was read", async () => {
    const cell = await trace(sheet, "F2");
    const root = rootOf(cell);
    const behind = new Map([[root.key, branchesOf(cell, "Sheet1")]]);
    expect(linesOf(root, new Set(), behind).map(({ branch, open }) => [branch.address, open])).toEqual([["F2", false]]);
    expect(linesOf(root, new Set([root.key]), new Map()).map(({ branch, open }) => [branch.address, open])).toEqual([
      ["F2", false],
    ]);
    expect(linesOf(root, new Set([root.key]), behind).map(({ branch, open }) => [branch.address, open])).toEqual([
      ["F2", true],
      ["F1", false],
      ["B8", false],
    ]);
  });

  it("names cells of another sheet with it, and each cell once however it is written", async () => {
    const cell = await trace({ A1: { f: "=B1+$B$1+b1+Data!B1", v: 9 }, B1: 2, "Data!B1": 3 }, "A1");
    expect(addresses(branchesOf(cell, "Sheet1"))).toEqual(["B1", "Data!B1"]);
    expect(addresses(branchesOf(cell, "Data"))).toEqual(["Sheet1!B1", "B1"]);
  });

  it("says of a range how many cells hold something, from what to what, and whether they are typed or computed", async () => {
    const cells = {
      B1: 3,
      B2: 1,
      B4: "text",
      C1: { f: "=1+1", v: 2 },
      C2: { f: "=2+2", v: 4 },
      D1: 5,
      D2: { f: "=3*2", v: 6 },
      E1: { f: "=1/0", error: "#DIV/0!" },
      A1: { f: "=SUM(B1:B5,C1:C2,D1:D2,E1:E2,Z1:Z3)", v: 21 },
    };
    const branches = branchesOf(await trace(cells, "A1"), "Sheet1");
    expect(branches.map(({ address, text, source, opens, error }) => [address, text, source, opens, error])).toEqual([
      ["B1:B5", "3 cells, 1 to 3", "typed", true, undefined],
      ["C1:C2", "2 cells, 2 to 4", "formulas", true, undefined],
      ["D1:D2", "2 cells, 5 to 6", "formulas and typed values", true, undefined],
      ["E1:E2", "1 cell", "formulas", true, "#DIV/0!"],
      ["Z1:Z3", "0 cells", "typed", false, undefined],
    ]);
    expect(addresses(await tracer(cells).behind(branches[0]!, "Sheet1"))).toEqual(["B1", "B2", "B4"]);
  });

  it("shows what leads nowhere with the reason, and opens nothing there", async () => {
    const of = tracer({ A1: { f: "=Gone!B1+nowhere", error: "#REF!" } });
    const branches = branchesOf(await of.trace(at("A1")), "Sheet1");
    expect(branches.map(({ kind, text, opens }) => [kind, text, opens])).toEqual([
      ["unread", "there is no sheet “Gone”", false],
      ["unread", "no cells stand behind this name", false],
    ]);
    expect(await of.behind(branches[0]!, "Sheet1")).toEqual([]);
  });

  it("says where the rule of a value stands, or that it was typed, left empty or computed by the sheet alone", async () => {
    const cell = await trace({ ...sheet, F4: { f: "=F1+F2+B8+Z9", v: 1 } }, "F4");
    expect(branchesOf(cell, "Sheet1").map(({ source }) => source)).toEqual([
      "Statics and strength of materials: equilibrium",
      "a formula of the sheet",
      "typed",
      "empty",
    ]);
  });

  it("prints a cell as the host does, but no more digits of a bare number than are read", () => {
    expect([
      printed({ value: 1, text: "1.00" }),
      printed({ value: 1 / 3, text: "0.3333333333333333" }),
      printed({ value: null, text: "" }),
      printed({ value: null, text: "#N/A", error: { code: "#N/A" } }),
    ]).toEqual(["1.00", "0.333333", "empty", "#N/A"]);
  });
});

describe("what a value comes about from, in order of calculation", () => {
  const collected = (
    where: string,
    depth: number,
    options: Partial<Parameters<typeof collect>[2]> = {},
    cells = sheet,
  ): Promise<Collected> => collect(tracer(cells), at(where), { depth, ...options });
  const quantities = ({ quantities: all }: Collected): readonly string[] => all.map(({ address }) => address);

  it("down to the inputs: each quantity once, after those it is computed from", async () => {
    const progress: number[] = [];
    const all = await collected("F3", Infinity, { progress: (done) => progress.push(done) });
    expect(quantities(all)).toEqual(["B5", "F1", "F2", "F3"]);
    expect(addresses(all.inputs)).toEqual(["B3", "B2", "B4", "B1", "B6", "B7", "B8"]);
    expect(all.notFollowed).toEqual([]);
    expect(all.root.address).toBe("F3");
    expect(progress).toEqual([1, 2, 3, 4]);
  });

  it("so many steps back, and says which formulas it leaves", async () => {
    const one = await collected("F2", 1);
    expect([quantities(one), addresses(one.inputs), addresses(one.notFollowed)]).toEqual([
      ["F1", "F2"],
      ["B3", "B2", "B4", "B1", "B8"],
      ["B5"],
    ]);
    const none = await collected("F2", 0);
    expect([quantities(none), addresses(none.notFollowed)]).toEqual([["F2"], ["F1"]]);
  });

  it("does not call a cell left that was followed on another way", async () => {
    // B1 is first met two steps back and then one step back.
    const cells = {
      A1: { f: "=A2+B1", v: 3 },
      A2: { f: "=A3", v: 1 },
      A3: { f: "=B1", v: 1 },
      B1: { f: "=C1", v: 2 },
      C1: 2,
    };
    const all = await collected("A1", 2, {}, cells);
    expect([quantities(all), addresses(all.notFollowed), addresses(all.inputs)]).toEqual([
      ["A3", "A2", "B1", "A1"],
      [],
      ["C1"],
    ]);
  });

  it("ends in a circle, and at the greatest number of quantities", async () => {
    expect(quantities(await collected("A1", Infinity, {}, { A1: { f: "=A2", v: 0 }, A2: { f: "=A1", v: 0 } }))).toEqual(
      ["A2", "A1"],
    );
    const some = await collected("F3", Infinity, { most: 2 });
    expect([quantities(some), addresses(some.notFollowed)]).toEqual([["F2", "F3"], ["F1"]]);
  });

  it("takes the cells of a short range one by one where they are computed, and all others together", async () => {
    const cells = { A1: { f: "=SUM(B1:B2,C1:C2)", v: 10 }, B1: { f: "=D1", v: 1 }, B2: 2, C1: 3, C2: 4, D1: 1 };
    const short = await collected("A1", Infinity, {}, cells);
    expect([quantities(short), addresses(short.inputs)]).toEqual([
      ["B1", "A1"],
      ["D1", "B2", "C1:C2"],
    ]);
    const together = await collected("A1", Infinity, { range: 1 }, cells);
    expect([quantities(together), addresses(together.inputs)]).toEqual([["A1"], ["B1:B2", "C1:C2"]]);
  });
});

describe("the calculation note", () => {
  const setting: Setting = { math: create(all!), mathml: (tex) => temml.renderToString(tex, { throwOnError: true }) };
  const note = async (
    where: string,
    depth: number,
    cells: Readonly<Record<string, StaticCell>> = sheet,
  ): Promise<string> =>
    calculationNote(
      await collect(tracer(cells), at(where), { depth }),
      { date: "1 May 2026", host: "static", depth },
      setting,
    );
  /** As it is read, without the equations' marks. */
  const words = (html: string): string =>
    html
      .replaceAll("&#39;", "'")
      .replace(/<style>[\s\S]*?<\/style>/g, "")
      .replace(/<math[\s\S]*?<\/math>/g, "[equation]")
      .replace(/<[^>]*>/g, " ")
      .replace(/\s+/g, " ");

  it("has the inputs with units, then each quantity with its rule, numbers and result", async () => {
    const text = words(await note("F2", Infinity));
    expect(text).toMatch(/Cell F2 Date 1 May 2026 .*Read from static Followed down to the inputs/);
    expect(text).toMatch(/Inputs .*Stress at the jack 1395 MPa typed B1 .*Area 1500 mm2 typed B8/);
    expect(text.indexOf("Distance from the jack B5")).toBeLessThan(text.indexOf("By KERN.FRICTION_STRESS"));
    const argument = /x distance along the span from the jack = 12 m, from B5; put in as 12000 mm/;
    const result = /\[equation\] \[equation\] σ p = 1267\.31 MPa/;
    const source = /Statics and strength of materials: equilibrium\. Basis: derived from mechanics\./;
    expect(text).toMatch(
      new RegExp(`By KERN\\.FRICTION_STRESS : .*${argument.source} ${result.source} ${source.source}`),
    );
    expect(text).toMatch(/Stress \[F1\] \* Area \[B8\] \/1000 = 1267\.31\*1500\/1000 = 1900\.96 kN/);
    expect(text).toContain(cautions.stressing);
    expect(text).toContain(cautions.competence);
  });

  it("calls ranges in formulas by what all their cells are called, with the address beside, and cells with a symbol by it", async () => {
    const cells = {
      A1: "part",
      B1: "Moment (kNm)",
      C1: "h",
      D1: "Width (mm)",
      A2: "T1",
      B2: 100,
      C2: 150,
      D2: 20,
      A3: "T2",
      B3: 200,
      C3: 160,
      D3: 30,
      A4: "T3",
      B4: 300,
      C4: 170,
      D4: 40,
      F6: "Dead load",
      G6: 5,
      H6: "kN",
      F7: "Live load",
      G7: 6,
      H7: "kN",
      F8: "Wind",
      G8: 7,
      H8: "kN",
      F9: "Factor",
      G9: "γ_F",
      H9: 1.5,
      J6: 1,
      J7: 2,
      F10: "Total",
      G10: { f: "=H9*SUM(B2:B4)+MAX(C2:C4)+SUM(G6:G8)+SUM(B2:D4)+SUM(B3:C3)+SUM(J6:J7)+G6", v: 1 },
    };
    expect(words(await note("G10", 0, cells))).toContain(
      "γ F *SUM( Moment [B2:B4] )+MAX( h [C2:C4] )+SUM( Dead load to Wind [G6:G8] )+SUM( Moment to Width " +
        "[B2:D4] )+SUM( Moment, T2 to h [B3:C3] )+SUM(J6:J7)+ Dead load [G6]",
    );
  });

  it("says how far it goes, and lists apart what it takes as it stands", async () => {
    const text = words(await note("F2", 0));
    expect(text).toContain("Followed 0 steps back");
    expect(text).toMatch(/Values taken as they stand .*Stress 1267\.31 MPa .* F1 /);
    expect(text).not.toContain("By KERN.FRICTION_STRESS");
    expect(words(await note("F2", Infinity))).not.toContain("Values taken as they stand");
  });

  it("says of each argument where it comes from, and how it is put into the equation", async () => {
    const text = words(
      await note("F9", 1, {
        A1: "Prestressing force",
        B1: 1200,
        C1: "kN",
        A2: "Area",
        B2: 0.3,
        C2: "m2",
        F9: { f: "=KERN.FIBRE_STRESS(B2*10^6,2*10^10,0,B1,0,350)", v: 4 },
      }),
    );
    expect(text).toMatch(
      /prestressing force, 0 for loads alone, negative for a force lost = 1200 kN, from B1; put in as 1200000 N /,
    );
    expect(text).toMatch(/area of the section = 300000 mm², from B2\*10\^6 /);
    expect(text).toMatch(/= 350 mm, typed in the formula /);
    expect(
      words(
        await note("F1", 1, {
          ...sheet,
          B2: 0.9,
          F1: { f: '=KERN.FRICTION_STRESS(B3,B2,B4,"1/m",B1,B5)', v: 1027.27 },
        }),
      ),
    ).toMatch(/Look at .*outside the everyday range/);
  });

  it("gives a range of rows in several units no unit", async () => {
    const text = words(await note("F9", 1, { ...sheet, F9: { f: "=SUM(B1:B4)", v: 1395.503 } }));
    expect(text).toMatch(/Inputs .* 4 cells, 0\.003 to 1395 typed B1:B4/);
  });

  it("says where the value on the sheet is not what the steps beside it give", async () => {
    expect(words(await note("F2", 1, { ...sheet, F2: { f: "=F1*B8/1000", v: 1800 } }))).toMatch(
      /The cell holds 1800, but its formula gives 1900\.96 .*Do not use this value before the workbook is recalculated/,
    );
    expect(
      words(await note("F1", 1, { ...sheet, F1: { f: '=KERN.FRICTION_STRESS(B3,B2,B4,"1/m",B1,B5)', v: 1300 } })),
    ).toMatch(/The cell holds 1300, but its formula gives 1267\.31/);
    expect(words(await note("F2", 1))).not.toContain("The cell holds");
  });

  it("says of a result that is refused why, and which argument does not fit", async () => {
    expect(words(await note("F1", 1, { ...sheet, B2: -0.1 }))).toMatch(/No result: .*−0\.1/);
    expect(words(await note("F1", 1, { ...sheet, C1: "GPa" }))).toMatch(/Look at .*GPa/);
    expect(words(await note("F1", 1, { ...sheet, F1: { f: "=KERN.FRICTON_STRESS(B1)", error: "#NAME?" } }))).toContain(
      "FRICTON_STRESS. The name may be misspelt",
    );
    expect(words(await note("F1", 1, { ...sheet, F1: { f: "=SUM(", error: "#NAME?" } }))).toContain(
      "The formula cannot be read",
    );
  });

  it("takes what stands on the sheet as text, never as marks", async () => {
    const html = await note("F1", 1, { ...sheet, E1: "<img src=x onerror=alert(1)>", A1: "a & b <script>" });
    expect(html).not.toMatch(/<img|<script/);
    expect(html).toContain("&lt;img src=x onerror=alert(1)&gt;");
  });

  it("keeps an equation that cannot be set as plain text", async () => {
    const of = await collect(tracer(sheet), at("F1"), { depth: 0 });
    const html = calculationNote(
      of,
      { date: "1 May 2026", host: "static", depth: 0 },
      {
        ...setting,
        mathml: () => {
          throw new Error("cannot be set");
        },
      },
    );
    expect(words(html)).toMatch(/exp\(.*= 1267\.31 MPa/);
    expect(html).not.toContain("<code></code>");
  });
});
