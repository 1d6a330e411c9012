import { describe, expect, it } from "vitest";
import { freeSheetName, type Template } from "../../../src/sheet/index.ts";
import { templates } from "../../../src/templates/index.ts";
import {
  decades,
  decadesApart,
  decadeText,
  goesBack,
  readLines,
  type Line,
} from "../../../taskpane/build/chartData.ts";
import {
  allProblems,
  fieldGroups,
  inputValues,
  problemOf,
  problemOfName,
  shapeValues,
  typedDefaults,
  typedExample,
  type Field,
} from "../../../taskpane/build/fields.ts";
import { numberText } from "../../../src/typeset/index.ts";
import { FakeHost } from "./fakeHost.ts";

const beam: Template = templates[0]!;
const humidity: Field = {
  id: "RH",
  text: "relative humidity",
  symbol: "RH",
  unit: "%",
  bounds: { min: 0, max: 100 },
  freeText: false,
  mayBeEmpty: false,
  default: "70",
  allowed: "0 to 100 %",
};

describe("a typed input", () => {
  it.each([["70"], ["0"], ["100"], [""], ["  "]])("takes “%s”", (typed) =>
    expect(problemOf(humidity, typed)).toBeUndefined(),
  );

  it.each([
    ["-1", "too low"],
    ["100.5", "too high"],
    ["dry", "no number"],
    ["7,5", "decimal point"],
    ["1e999", "no number"],
  ])("refuses “%s”, naming input, value and range", (typed, why) => {
    const problem = problemOf(humidity, typed)!;
    expect(problem).toContain("RH (relative humidity)");
    expect(problem).toContain(typed.replace("-", "−"));
    expect(problem).toContain(why);
    expect(problem).toContain("allowed: 0 to 100 %");
  });

  it("keeps to exclusive bounds and whole numbers", () => {
    expect(problemOf({ ...humidity, bounds: { above: 0 } }, "0")).toContain("too low");
    expect(problemOf({ ...humidity, bounds: { below: 5 } }, "5")).toContain("too high");
    expect(problemOf({ ...humidity, bounds: { whole: true } }, "1.5")).toContain("not a whole number");
  });

  it("never judges free text", () => expect(problemOf({ ...humidity, freeText: true }, "=1+1")).toBeUndefined());
});

describe("the form of the beam template", () => {
  const groupsFor = (typed: Record<string, string>) =>
    fieldGroups(beam, shapeValues(beam, { ...typedDefaults(beam), ...typed }));

  it("shows the dimensions of the chosen section only", () => {
    const ids = (section: string): readonly string[] =>
      groupsFor({ section }).flatMap((g) => g.fields.map((f) => f.id));
    expect(ids("RECTANGLE")).toContain("b");
    expect(ids("RECTANGLE")).not.toContain("btop");
    expect(ids("I")).toContain("btop");
  });

  it("has a row for each tendon and each of its points", () => {
    const tables = groupsFor({ tendons: "2", points: "4" }).flatMap((g) => g.tables);
    expect(tables.find((t) => t.id === "controlPoints")!.over.map((o) => o.length)).toEqual([2, 4]);
  });

  it("takes the example without a complaint and gives it back as the template has it", () => {
    const typed = typedExample(beam);
    expect([...allProblems(beam, typed).values()]).toEqual([]);
    const given = inputValues(beam, typed);
    // Asked for only where cracking is allowed, which the example does not say.
    const { sBar, ftFict, ...asked } = beam.example.inputs;
    expect([sBar, ftFict, given["sBar"], given["ftFict"]]).toEqual([100, -8, undefined, undefined]);
    for (const [id, value] of Object.entries(asked)) expect(given[id], id).toEqual(value === "" ? null : value);
  });

  it("keeps what was typed for rows that are not there for the moment", () => {
    const typed = { ...typedExample(beam), tendons: "1" };
    expect((inputValues(beam, typed)["strands"] as readonly unknown[]).length).toBe(1);
    expect(inputValues(beam, { ...typed, tendons: "3" })["strands"] as readonly unknown[]).toEqual(
      beam.example.inputs["strands"],
    );
  });

  it("names the member where a table's cell is wrong", () => {
    const problems = allProblems(beam, { ...typedExample(beam), "cpL/1/2": "far" });
    expect(problems.get("cpL/1/2")).toMatch(/tendon 2, point 3.*far/);
  });

  it("asks for shape inputs that are empty or out of range", () => {
    expect(allProblems(beam, { ...typedExample(beam), tendons: "" }).get("tendons")).toContain("is empty");
    expect(allProblems(beam, { ...typedExample(beam), tendons: "60" }).get("tendons")).toContain("too high");
  });
});

describe("the name of the new sheet", () => {
  it("is free whatever the case of letters", () => {
    expect(freeSheetName("Beam", ["BEAM", "beam 2"])).toBe("Beam 3");
    expect(problemOfName("beam", ["Beam"])).toContain("already has a sheet named “beam”");
  });

  it.each([
    ["", "1 to 31"],
    ["x".repeat(32), "32 characters"],
    ["a/b", "contains /"],
    ["a[1]", "contains [ ]"],
    ["'a", "apostrophe"],
    ["history", "“History”"],
  ])("refuses “%s”", (name, why) => expect(problemOfName(name, [])).toContain(why));

  it.each([["History"], ["'It''s a/b'"], ["x".repeat(40)], [" "], [`${"x".repeat(30)} y`]])(
    "offers in place of “%s” one that can be used, taken or not",
    (wanted) => {
      const first = freeSheetName(wanted, []);
      for (const name of [first, freeSheetName(wanted, [first])]) expect(problemOfName(name, [])).toBeUndefined();
      expect(problemOfName(freeSheetName(wanted, [first]), [first])).toBeUndefined();
    },
  );

  it("takes an ordinary name", () => expect(problemOfName("Beam B1", ["Sheet1"])).toBeUndefined());
});

describe("chart lines", () => {
  it("leaves out points without a number and repeated ones", async () => {
    const host = new FakeHost();
    [
      [0, 5],
      [3, 6],
      [3, 6],
      [6, null],
      [9, 7],
    ].forEach(([x, y], r) => {
      host.put("S", r, 0, { value: x! });
      host.put("S", r, 1, { value: y! });
    });
    const area = (column: number) => ({ row: 0, column, rows: 5, columns: 1 });
    const chart = {
      id: "c",
      title: "c",
      x: { label: "x", unit: "m" },
      y: { label: "y", unit: "kN" },
      at: area(3),
      series: [{ name: "force", kind: "value" as const, x: area(0), y: area(1) }],
    };
    expect(await readLines(host, "S", chart)).toEqual([
      {
        name: "force",
        kind: "value",
        points: [
          { x: 0, y: 5 },
          { x: 3, y: 6 },
          { x: 9, y: 7 },
        ],
      },
    ]);
    expect(await readLines(host, "S", { ...chart, x: { ...chart.x, log: true } })).toEqual([
      {
        name: "force",
        kind: "value",
        points: [
          { x: 3, y: 6 },
          { x: 9, y: 7 },
        ],
      },
    ]);
  });

  it("keeps the order of the rows, so that an outline closes", async () => {
    const host = new FakeHost();
    const outline = [
      [0, 0],
      [4, 1],
      [2, 3],
      [0, 0],
    ] as const;
    outline.forEach((point, r) => point.forEach((value, c) => host.put("S", r, c, { value })));
    const area = (column: number) => ({ row: 0, column, rows: 4, columns: 1 });
    const chart = {
      id: "c",
      title: "c",
      x: { label: "e", unit: "mm" },
      y: { label: "y", unit: "–" },
      at: area(3),
      series: [{ name: "outline", kind: "value" as const, x: area(0), y: area(1) }],
    };
    const lines = await readLines(host, "S", chart);
    expect(lines[0]!.points.map(({ x, y }) => [x, y])).toEqual(outline);
    expect(goesBack(lines)).toBe(true);
  });

  it("goes back only where a line does, not where points lie in any order", () => {
    const line = (kind: Line["kind"], ...xs: number[]): Line => ({
      name: "l",
      kind,
      points: xs.map((x) => ({ x, y: 0 })),
    });
    expect(
      [
        [line("value", 1, 1, 2)],
        [line("value", 1, 2), line("point", 2, 1)],
        [line("value", 1, 2), line("limit", 2, 1)],
      ].map(goesBack),
    ).toEqual([false, false, true]);
  });

  it("marks a logarithmic axis by powers of ten", () => {
    expect(decades([0.5, 20, 20_000])).toEqual([0.1, 1, 10, 100, 1000, 10_000, 100_000]);
    expect(decades([10])).toEqual([10, 100]);
    expect([60, 50, 34, 20].map(decadesApart)).toEqual([1, 1, 2, 3]);
    expect(decades([0.003, 0.1])).toEqual([0.001, 0.01, 0.1]);
    expect([0.001, 0.1, 1, 1000, 10_000, 100_000, 1e6, 1e12, 1e-5].map(decadeText)).toEqual([
      "0.001",
      "0.1",
      "1",
      "1000",
      "10\u202f000",
      "100\u202f000",
      "10⁶",
      "10¹²",
      "10⁻⁵",
    ]);
  });
});

it("writes numbers for reading", () => {
  expect([0, -0.1, 1234.5678, 2.5e-6, 7.73663e10].map(numberText)).toEqual([
    "0",
    "−0.1",
    "1234.57",
    "2.5 × 10⁻⁶",
    "7.73663 × 10¹⁰",
  ]);
});
