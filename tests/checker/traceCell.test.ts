import { describe, expect, it } from "vitest";
import { traceCell, type TracedCell } from "../../src/checker/index.ts";
import { at, staticHost, type StaticCell } from "./staticHost.ts";

const stress = "KERN.FRICTION_STRESS";
const trace = (cells: Readonly<Record<string, StaticCell>>, where = "F1", names = {}): Promise<TracedCell> =>
  traceCell(staticHost(cells, names), at(where));
const flags = ({ calls }: TracedCell): readonly (readonly [string, string])[] =>
  calls.flatMap((c) => c.flags.map((f) => [f.parameter, f.kind] as const));

/** An everyday sheet of someone's own: texts, values, units. 1395·e^−(0.2·0.3 + 0.003·12) = 1267.31, by hand calculator. */
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
  B5: 12,
  C5: "m",
  F1: { f: `=${stress}(B3,B2,B4,"1/m",B1,B5)`, v: 1267.3073024158452 },
};

describe("tracing a cell of any sheet", () => {
  it("follows arguments to their cells, with labels and units, in few calls of the host and without evaluations", async () => {
    const host = staticHost(sheet);
    const {
      calls: [call],
    } = await traceCell(host, at("F1"));
    expect(
      call!.arguments.map(({ origin, value }) => [
        origin?.address,
        value,
        origin?.label?.description,
        origin?.label?.unit,
      ]),
    ).toEqual([
      ["B3", 0.3, "Angle", "rad"],
      ["B2", 0.2, "Friction coefficient", "1/rad"],
      ["B4", 0.003, "Wobble", "1/m"],
      [undefined, "1/m", undefined, undefined],
      ["B1", 1395, "Stress at the jack", "MPa"],
      ["B5", 12, "Distance from the jack", "m"],
    ]);
    expect(call!.trace!.result).toBeCloseTo(1267.307, 3);
    expect(call!.flags).toEqual([]);
    expect(host.asked.evaluate).toBe(0);
    const before = host.asked.read;
    await traceCell(host, at("F1"));
    expect(host.asked.read - before).toBeLessThanOrEqual(3);
  });

  it("goes through names, other sheets and quoted sheets", async () => {
    const cell = await trace(
      {
        F1: { f: `=IF(TRUE,${stress}(0.3,'My data'!B2,0.003,"1/m",jack,Data!B5*1)+1,0)` },
        "Data!A1": "Stress at the jack",
        "Data!B1": 1395,
        "Data!C1": "MPa",
        "My data!A2": "Friction",
        "My data!B2": 0.2,
        "Data!B5": 12,
      },
      "F1",
      { jack: "Data!$B$1" },
    );
    const [call] = cell.calls;
    expect(call!.arguments.map(({ origin, value }) => [origin?.address, value])).toEqual([
      [undefined, 0.3],
      ["My data!B2", 0.2],
      [undefined, 0.003],
      [undefined, "1/m"],
      ["Data!B1", 1395],
      [undefined, 12],
    ]);
    expect(call!.arguments[4]!.origin!.label!.description).toBe("Stress at the jack");
    expect(call!.arguments[5]!.origins.map((o) => o.address)).toEqual(["Data!B5"]);
    expect(call!.trace!.result).toBeCloseTo(1267.307, 3);
  });

  it("says where a reference leads nowhere", async () => {
    const cell = await trace({ F1: { f: "=Gone!A1+nowhere+[Other.xlsx]S!A1" } });
    expect(cell.precedents.map(({ text, problem }) => [text, problem])).toEqual([
      ["Gone!A1", expect.stringContaining("no sheet “Gone”")],
      ["nowhere", expect.stringContaining("no cells")],
      ["[Other.xlsx]S!A1", expect.stringContaining("another workbook")],
    ]);
  });

  it("hands the result of an inner call to the outer one", async () => {
    const { calls } = await trace({
      ...sheet,
      F1: { f: `=KERN.TENDON_FORCE(B6,${stress}(B3,B2,B4,"1/m",B1,B5))` },
      A6: "Area",
      B6: 1500,
      C6: "mm2",
    });
    expect(calls.map((c) => c.call.id)).toEqual(["TENDON_FORCE", "FRICTION_STRESS"]);
    // 1267.307 MPa · 1500 mm² = 1900.96 kN
    expect(calls[0]!.trace!.result).toBeCloseTo(1900.96, 2);
  });

  it("says which argument is refused and why", async () => {
    const {
      calls: [call],
    } = await trace({ ...sheet, B2: -0.1 });
    expect(call!.trace).toBeUndefined();
    expect(call!.refused).toMatchObject({
      parameter: "mu",
      message: expect.stringMatching(/−0\.1.*below 0/) as unknown,
    });
  });

  it("shows an argument's own error instead of a calculation", async () => {
    expect((await trace({ ...sheet, B5: { f: "=1/0", error: "#DIV/0!" } })).calls[0]!.refused).toMatchObject({
      parameter: "x",
      message: expect.stringContaining("#DIV/0!") as unknown,
    });
  });

  it.each([
    ["KERN.FRICTION_STRES", "FRICTION_STRESS"],
    ["KERN_FRICTION_STRESS", "FRICTION_STRESS"],
    ["KERN.TENDON_FORC", "TENDON_FORCE"],
    ["KERN.FRICTON_STRESS", "FRICTION_STRESS"],
  ])("names the nearest function to %s", async (name, nearest) => {
    const {
      calls: [call],
    } = await trace({ ...sheet, F1: { f: `=${name}(B3,B2,B4,"1/m",B1,B5)`, error: "#NAME?" } });
    expect(call!.unknown!.nearest[0]).toBe(nearest);
    expect(call!.trace).toBeUndefined();
  });

  it("lists what a plain formula refers to, each once, with ranges and whole columns", async () => {
    const { precedents } = await trace({ ...sheet, F2: { f: "=B1+$B$5+SUM(B1:B5)+b1+SUM(B:B)", v: 0 } }, "F2");
    expect(precedents.map((p) => [p.address, p.contents.length])).toEqual([
      ["B1", 1],
      ["B5", 1],
      ["B1:B5", 5],
      ["B1:B5", 5],
    ]);
  });

  it("says where a cell does not hold what its formula gives, and not where only rounding differs or nothing can be told", async () => {
    const unlike = async (cell: StaticCell): Promise<string | undefined> =>
      (await trace({ ...sheet, D1: cell }, "D1")).unlike;
    expect(await unlike({ f: "=ROUND(B5*B2,1)", v: 2.4 })).toBeUndefined();
    expect(await unlike({ f: "=ROUND(B5*B2,1)", v: 2.5 })).toMatch(/holds 2\.5, but its formula gives 2\.4 /);
    expect(await unlike({ f: `=${stress}(B3,B2,B4,"1/m",B1,B5)/1000`, v: 1.2 })).toMatch(
      /holds 1\.2, but its formula gives 1\.26731 /,
    );
    expect(await unlike({ f: `=IF(${stress}(B3,B2,B4,"1/m",B1,B5)>1260,"FAIL","OK")`, v: "OK" })).toMatch(
      /holds “OK”, but its formula gives “FAIL”/,
    );
    expect(await unlike({ f: "=D1+1", v: 1 })).toMatch(/holds 1, but its formula gives 2 .*refers to itself/);
    expect(await unlike({ f: "=B1*B2-279", v: 5.7e-14 })).toBeUndefined();
    expect(await unlike({ f: "=B1*B2-279", v: 1e-3 })).toMatch(/holds 0\.001/);
    expect(await unlike({ f: "=IF(B5>=12,1,0)", v: 0 })).toMatch(/holds 0, but its formula gives 1/);
    expect(await unlike({ f: "=INDEX(B1:B5,ROUND(B5/4,0))", v: 0.2 })).toMatch(
      /holds 0\.2, but its formula gives 0\.3/,
    );
    expect(await unlike({ f: '=IF(3*B2<=0.6,"OK","FAIL")', v: "OK" })).toBeUndefined();
    expect(await unlike({ f: "=NOW()+RTD(1)", v: 1 })).toBeUndefined();
    expect(await unlike({ f: "=B1/0", error: "#DIV/0!" })).toBeUndefined();
  });

  it("reports a formula that cannot be read, and an empty cell", async () => {
    expect((await trace({ F1: { f: "=SUM(" } })).unreadable).toBeDefined();
    expect((await trace({}, "Z9")).content.text).toBe("");
  });
});

describe("what does not fit", () => {
  const changed = async (cells: Readonly<Record<string, StaticCell>>): Promise<unknown> =>
    flags(await trace({ ...sheet, ...cells }));

  it.each<readonly [string, Readonly<Record<string, StaticCell>>, unknown]>([
    ["nothing", {}, []],
    ["GPa for MPa", { C1: "GPa" }, [["sigma0", "unit"]]],
    ["mm for m", { C5: "mm" }, [["x", "unit"]]],
    ["rad/m for 1/m", { C4: "rad/m" }, [["k", "unit"]]],
    [
      "rad/m where the wobble stands inside μ",
      { B4: 0.008, C4: "rad/m", F1: { f: `=${stress}(B3,B2,B4,"rad/m",B1,B5)` } },
      [],
    ],
    ["1/m for rad/m", { B4: 0.008, F1: { f: `=${stress}(B3,B2,B4,"rad/m",B1,B5)` } }, [["k", "unit"]]],
    ["a unit in brackets", { A5: "Distance (cm)", C5: null }, [["x", "unit"]]],
    ["right conversion", { C5: "mm", B5: 12000, F1: { f: `=${stress}(B3,B2,B4,"1/m",B1,B5/1000)` } }, []],
    [
      "right conversion by CONVERT",
      { C5: "mm", B5: 12000, F1: { f: `=${stress}(B3,B2,B4,"1/m",B1,CONVERT(B5,"mm","m"))` } },
      [],
    ],
    [
      "wrong conversion by CONVERT",
      { C5: "mm", B5: 12000, F1: { f: `=${stress}(B3,B2,B4,"1/m",B1,CONVERT(B5,"cm","m"))` } },
      [["x", "unit"]],
    ],
    ["wrong factor", { C5: "mm", B5: 12000, F1: { f: `=${stress}(B3,B2,B4,"1/m",B1,B5/100)` } }, [["x", "unit"]]],
    [
      "wrong factor inside IFERROR",
      { C5: "mm", B5: 12000, F1: { f: `=${stress}(B3,B2,B4,"1/m",B1,IFERROR(B5/100,"none"))` } },
      [["x", "unit"]],
    ],
    [
      "mm in one choice of two",
      { A6: "Distance, mm", B6: 12, F1: { f: `=${stress}(B3,B2,B4,"1/m",B1,CHOOSE(2,B5,B6))` } },
      [["x", "unit"]],
    ],
    ["rows of several units in one range", { F1: { f: `=${stress}(B3,B2,B4,"1/m",MAX(B1:B5),B5)` } }, []],
    [
      "a conversion too many",
      { F1: { f: `=${stress}(B3,B2,B4,"1/m",B1,B5/1000)` } },
      [
        ["x", "unit"],
        ["x", "unusual"],
      ],
    ],
    ["half of it", { F1: { f: `=${stress}(B3,B2,B4,"1/m",B1,B5/2)` } }, []],
    ["degrees", { B3: 17.2, C3: "deg", F1: { f: `=${stress}(RADIANS(B3),B2,B4,"1/m",B1,B5)` } }, []],
    [
      "swapped",
      { F1: { f: `=${stress}(B2,B3,B4,"1/m",B1,B5)` } },
      [
        ["alpha", "swapped"],
        ["mu", "swapped"],
      ],
    ],
    ["a number as text", { B2: { v: "0.2", text: "0.2" } }, [["mu", "text"]]],
    ["an empty cell in a sum", { F1: { f: `=${stress}(B3,B2,B4,"1/m",B1,B5+B9)` } }, [["x", "empty"]]],
    ["out of the everyday range", { B2: 0.9 }, [["mu", "unusual"]]],
  ])("%s", async (_, cells, expected) => expect(await changed(cells)).toEqual(expected));

  it.each([
    ["Cube strength", "sort"],
    ["Concrete strength, cube, 28 days", "sort"],
    ["Mean strength of concrete", "sort"],
    ["Characteristic cylinder strength", undefined],
    ["Concrete strength", undefined],
  ])("for a characteristic cylinder strength: %s", async (text, kind) => {
    const cell = await trace({
      A1: text,
      B1: 40,
      C1: "N/mm²",
      F1: { f: "=KERN.CONCRETE_MEAN_STRENGTH_EN1992_2004(B1)" },
    });
    expect(flags(cell).map(([, k]) => k)).toEqual(kind ? [kind] : []);
  });

  it.each<readonly [string, StaticCell, string | null, number]>([
    ["a ratio shown as a per cent, without a unit beside it", { v: 0.7, text: "70%" }, null, 1],
    ["per cent with the sign written behind", { v: 70, text: "70 %" }, null, 0],
    ["per cent", 70, "%", 0],
    ["a ratio shown as a per cent beside a %", { v: 0.7, text: "70.0 %" }, "%", 1],
  ])("for a per cent: %s", async (_, cell, unit, count) => {
    const traced = await trace({
      A1: "Relative humidity",
      B1: cell,
      C1: unit,
      F1: { f: '=KERN.DRYING_SHRINKAGE_NOMINAL_EN1992_2004(38,"N",B1)' },
    });
    expect(flags(traced).filter(([, kind]) => kind === "unit")).toHaveLength(count);
  });

  it.each<readonly [string, string, string | null, RegExp | undefined]>([
    ["the result's own unit", "=KERN.TENDON_FORCE(B8,B1)", "kN", undefined],
    ["converted rightly", "=ROUND(KERN.TENDON_FORCE(B8,B1)/1000,2)", "MN", undefined],
    ["four tendons", "=4*KERN.TENDON_FORCE(B8,B1)", "kN", undefined],
    ["no unit said", "=KERN.TENDON_FORCE(B8,B1)", null, undefined],
    ["more than a result", "=KERN.TENDON_FORCE(B8,B1)/B8", "MPa", undefined],
    [
      "kN called N",
      "=KERN.TENDON_FORCE(B8,B1)",
      "N",
      /KERN\.TENDON_FORCE gives kN, but what stands beside the cell says N: the number is 1000 times too small/,
    ],
    [
      "a conversion too many",
      "=ROUND(KERN.TENDON_FORCE(B8,B1)/1000,1)",
      "kN",
      /multiplied by 0\.001.* 1000 times too small/,
    ],
    ["another dimension", "=IFERROR(KERN.TENDON_FORCE(B8,B1),0)", "MPa", /gives kN, but .* says MPa$/],
  ])("between a result and the unit beside it: %s", async (_, f, unit, expected) => {
    const { misfit } = await trace({
      ...sheet,
      B8: 1500,
      C8: "mm2",
      E1: "Force in the tendon",
      F1: { f, v: 2092.5 },
      G1: unit,
    });
    if (expected) expect(misfit).toMatch(expected);
    else expect(misfit).toBeUndefined();
  });

  it.each<readonly [string, string, string, readonly string[]]>([
    ["a part of it", "0.8*B1", "MPa", []],
    ["an eighth more", "1.125*B1", "MPa", []],
    ["in another unit", "1000*B1", "GPa", ["sort"]],
    ["as it stands", "B1", "MPa", ["sort"]],
  ])(
    "takes a cube strength for a cylinder strength only where it is not reckoned over: %s",
    async (_, argument, unit, expected) => {
      const traced = await trace({
        A1: "Cube strength",
        B1: unit === "GPa" ? 0.04 : 40,
        C1: unit,
        F1: { f: `=KERN.CONCRETE_MEAN_STRENGTH_EN1992_2004(${argument})` },
      });
      expect(flags(traced).map(([, kind]) => kind)).toEqual(expected);
    },
  );

  it("names the cell, what stands beside it and what is wanted", async () => {
    const [flag] = (
      await trace({ A1: "f_cu", B1: 40, C1: "MPa", F1: { f: "=KERN.CONCRETE_MEAN_STRENGTH_EN1992_2004(B1)" } })
    ).calls[0]!.flags;
    expect(flag!.message).toBe(
      "B1 (f_cu) is something else by its text; this argument is: characteristic cylinder strength at 28 days",
    );
  });

  it("takes a cell shown as a per cent for the ratio it holds, and a plain 5 % not", async () => {
    const ratio = (cell: StaticCell): Promise<TracedCell> =>
      trace({
        A1: "Gauge pressure",
        B1: 400,
        C1: "bar",
        A2: "Ram area",
        B2: 25000,
        C2: "mm2",
        A3: "Loss in the jack",
        B3: cell,
        C3: "%",
        F1: { f: "=KERN.JACK_FORCE(B2,B3,0,B1)" },
      });
    expect(flags(await ratio({ v: 0.02, text: "2%" })).filter(([, kind]) => kind === "unit")).toEqual([]);
    expect(flags(await ratio(2)).filter(([, kind]) => kind === "unit")).toHaveLength(1);
  });
});
