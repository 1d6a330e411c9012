import { describe, expect, test } from "vitest";
import { conflictsIn } from "../../src/checker/index.ts";
import { openGridInNode, type Values } from "../../src/hosts/index.ts";
import { columns, expand, RefusedSheet, type Inputs, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { valuesOf } from "./builtSheet.ts";
import { profile } from "./profile.ts";

const template = templates.find((t) => t.id === "post-tensioned-en1992-2004")!;
const base = template.example.inputs;

/** Every shape the template can take, with inputs that suit it. */
const variants: readonly (readonly [string, Inputs])[] = [
  ["a rectangle", { section: "RECTANGLE", b: 500 }],
  ["a T-section", { section: "T", bf: 1200, tf: 200, bw: 350 }],
  ["a box", { section: "BOX", bbox: 1000, ttopbox: 200, tbotbox: 180, tweb: 180 }],
  [
    "an outline",
    {
      section: "OUTLINE",
      corners: 8,
      ox: [-250, 250, 250, 110, 110, 450, 450, -450],
      oy: [0, 0, 250, 250, 1020, 1020, 1200, 1200],
      webLow: 250,
      webUp: 1020,
    },
  ],
  [
    "one tendon",
    {
      tendons: 1,
      tendonName: ["all"],
      strands: [17],
      duct: [110],
      sigj: [1400],
      end: ["LEFT"],
      order: [1],
      zt: [0],
      Rlim: [6],
      ...profile({
        cpx: [[0, 12, 24]],
        cpe: [[0, 520, 0]],
        cps: [["TO_LEVEL", "FROM_LEVEL", "LINE"]],
      }),
    },
  ],
  [
    "harped and straight tendons",
    {
      points: 4,
      ...profile({
        cpx: [
          [0, 8, 16, 24],
          [0, 8, 16, 24],
          [0, 8, 16, 24],
        ],
        cpe: [
          [300, 540, 540, 300],
          [0, 540, 540, 0],
          [300, 300, 300, 300],
        ],
        cps: [
          ["LINE", "LINE", "LINE", "LINE"],
          ["LINE", "LINE", "LINE", "LINE"],
          ["LINE", "LINE", "LINE", "LINE"],
        ],
      }),
    },
  ],
  [
    "reverse curves",
    {
      points: 5,
      ...profile({
        cpx: [
          [0, 3, 12, 21, 24],
          [0, 3, 12, 21, 24],
          [0, 3, 12, 21, 24],
        ],
        cpe: [
          [300, 360, 540, 360, 300],
          [0, 120, 540, 120, 0],
          [-300, -200, 450, -200, -300],
        ],
        cps: [
          ["FROM_LEVEL", "TO_LEVEL", "FROM_LEVEL", "TO_LEVEL", "LINE"],
          ["FROM_LEVEL", "TO_LEVEL", "FROM_LEVEL", "TO_LEVEL", "LINE"],
          ["FROM_LEVEL", "TO_LEVEL", "FROM_LEVEL", "TO_LEVEL", "LINE"],
        ],
      }),
    },
  ],
  [
    "two control points",
    {
      points: 2,
      ...profile({
        cpx: [
          [0, 24],
          [0, 24],
          [0, 24],
        ],
        cpe: [
          [300, 300],
          [300, 300],
          [300, 300],
        ],
        cps: [
          ["LINE", "LINE"],
          ["LINE", "LINE"],
          ["LINE", "LINE"],
        ],
      }),
    },
  ],
  ["two tendons jacked from both ends", { twoJacks: "YES", both: ["YES", "NO", "YES"] }],
  ["storage and lifting points far in", { liftAt: 5 }],
  ["stressed before the end of curing", { ts: 20 }],
  [
    "no hold in top fibres",
    {
      ...profile({
        cpe: [
          [500, 550, 500],
          [400, 550, 400],
          [300, 450, 300],
        ],
      }),
    },
  ],
  [
    "three intervals in each half, at a span that does not divide evenly",
    {
      intervals: 3,
      L: 24.1,
    },
  ],
  ["stressed in place", { lifted: "NO" }],
  ["gross section", { sectionModel: "GROSS" }],
  ["chlorides, high strength, late stressing", { exposure: "XD_XS", fck: 60, t0: 40, fckt: 60 }],
];

interface Made {
  readonly plan: Plan;
  readonly cells: Values;
}

function build(inputs: Inputs): Made {
  const plan = expand(template, { ...base, ...inputs });
  return { plan, cells: valuesOf(plan) };
}

describe("every shape builds", () => {
  test.each(variants)("%s: without an error cell, with a verdict", (_name, inputs) => {
    const { plan, cells } = build(inputs);
    expect(
      cells.flatMap((row, i) =>
        row.flatMap((cell) =>
          cell.error ? [`row ${i + 1}: ${cell.formula} ${cell.error.code} ${cell.error.message ?? ""}`] : [],
        ),
      ),
    ).toEqual([]);
    const { overall } = plan.summary;
    expect(["OK", "WARNINGS", "FAIL"]).toContain(cells[overall.row]![overall.column]!.value);
  });
});

describe("the states of the sheet", () => {
  const overallOf = ({ plan: { summary }, cells }: Made): unknown =>
    cells[summary.overall.row]![summary.overall.column]!.value;

  test("an input left out: INCOMPLETE, and the row says MISSING", () => {
    const made = build({ slip: null });
    expect(overallOf(made)).toBe("INCOMPLETE");
    const { row } = made.plan.meanings.find((m) => m.id === "slip")!.at;
    expect(made.cells[row]![columns.verdict]!.value).toBe("MISSING");
  });

  test("a coordinate of an outline left out: MISSING in its row alone, and no contradiction", () => {
    const outline = variants.find(([name]) => name === "an outline")![1];
    const half = (outline["oy"] as readonly number[]).map((y, i) => (i === 2 ? null : y));
    const { plan, cells } = build({ ...outline, oy: half });
    const { at } = plan.meanings.find((m) => m.id === "oy")!;
    const statuses = half.map((_, i) => cells[at.row + i]![columns.verdict]!.value);
    expect(statuses.filter((status) => status === "MISSING")).toHaveLength(1);
    expect(statuses[2]).toBe("MISSING");
    expect(cells.flat().filter(({ value }) => value === "CONFLICT")).toEqual([]);
    expect(conflictsIn(plan)).toEqual([]);
  });

  test("a beam that is too weak: FAIL", () => {
    expect(overallOf(build({ ql: 45 }))).toBe("FAIL");
  });

  const firstTendonAt = (e: number): Inputs => ({
    ...profile({
      cpe: [
        [360, e, 360],
        [20, 550, 20],
        [-320, 450, -320],
      ],
    }),
    strands: [5, 5, 5],
    ql: 10,
    fckt: 34,
  });

  test("a tendon outside the concrete: its eccentricity contradicts the section, so INCOMPLETE; its cover fails", () => {
    const made = build(firstTendonAt(680));
    expect(overallOf(made)).toBe("INCOMPLETE");
    const { cells } = made;
    const broken = made.plan.conflicts!.filter(({ status }) => cells[status.row]![status.column]!.value === "CONFLICT");
    expect(broken.map(({ of, where }) => [of.map(({ id }) => id), where])).toEqual([
      [expect.arrayContaining(["cpFrom"]), "tendon 1, point 2"],
    ]);
    const cover = made.plan.summary.checks.find(({ description }) => description.includes("cover of the tendons"))!;
    expect(cells[cover.verdict.row]![cover.verdict.column]!.value).toBe("FAIL");
  });

  test("a tendon inside the section with hardly any concrete below it: FAIL", () => {
    expect(overallOf(build(firstTendonAt(625)))).toBe("FAIL");
  });

  test("storage governs lifting where the factor on self-weight relieves the prestress", () => {
    expect(overallOf(build({ fckt: 32.5 }))).toBe("FAIL");
  });

  test("top fibres that nothing holds: FAIL, not INCOMPLETE", () => {
    expect(
      overallOf(
        build({
          ...profile({
            cpe: [
              [500, 550, 500],
              [400, 550, 400],
              [300, 450, 300],
            ],
          }),
        }),
      ),
    ).toBe("FAIL");
  });

  test("a shape input changed on the sheet all the same: REBUILD", async () => {
    const sheetName = "Beam";
    const place = (plan: Plan) => plan.meanings.find((m) => m.id === "tendons")!.at;
    // The cell is locked; here the lock is taken off, as someone may do in the spreadsheet program.
    const { plan } = build({});
    const grid = await openGridInNode();
    try {
      await grid.apply(
        { ...plan, unlocked: [...plan.unlocked, place(plan)] },
        { sheetName, progress: () => undefined },
      );
      await grid.enter({ sheet: sheetName, row: place(plan).row, column: place(plan).column }, 4);
      const overall = async () =>
        (await grid.read(sheetName, { ...plan.summary.overall, rows: 1, columns: 1 }))[0]![0]!.value;
      await expect.poll(overall, { timeout: 10_000 }).toBe("REBUILD");
    } finally {
      grid.dispose();
    }
  });

  test("a jacking stress above the limit is a verdict, not an error", () => {
    expect(overallOf(build({ sigj: [1460, 1400, 1400] }))).toBe("FAIL");
  });
});

describe("inputs are refused before anything is built", () => {
  const refusal = (inputs: Inputs): string => {
    try {
      expand(template, { ...base, ...inputs });
      return "built";
    } catch (error) {
      expect(error).toBeInstanceOf(RefusedSheet);
      return (error as Error).message;
    }
  };
  test.each<[string, Inputs, RegExp]>([
    ["strength outside the table", { fck: 100 }, /f_?ck.*100 MPa.*12 to 90 MPa/s],
    ["text for a number", { L: "24 m" }, /“24 m”/],
    ["too many tendons", { tendons: 9 }, /9.*1 to 6/s],
    ["an unknown section", { section: "X" }, /“?X”?.*RECTANGLE/s],
    ["an unknown input", { nonsense: 1 }, /nonsense/],
  ])("%s", (_name, inputs, message) => {
    expect(refusal(inputs)).toMatch(message);
  });
});
