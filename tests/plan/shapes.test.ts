import { afterAll, describe, expect, test } from "vitest";
import { openGridInNode } from "../../src/hosts/grid/index.ts";
import { expand, RefusedSheet, type Inputs, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";

type Grid = Awaited<ReturnType<typeof openGridInNode>>;
const template = templates.find((t) => t.id === "post-tensioned-en1992-2004")!;
const base = template.example.inputs;

let grid: Grid | undefined;
afterAll(() => grid?.dispose());

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
      cpx: [[0, 12, 24]],
      cpe: [[0, 520, 0]],
      cps: [["TO_LEVEL", "FROM_LEVEL", "LINE"]],
    },
  ],
  [
    "harped and straight tendons",
    {
      points: 4,
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
    },
  ],
  [
    "reverse curves",
    {
      points: 5,
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
    },
  ],
  [
    "two control points",
    {
      points: 2,
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
    },
  ],
  ["two tendons jacked from both ends", { twoJacks: "YES", both: ["YES", "NO", "YES"] }],
  ["storage and lifting points far in", { liftAt: 5 }],
  ["stressed before the end of curing", { ts: 20 }],
  [
    "no hold in top fibres",
    {
      cpe: [
        [500, 550, 500],
        [400, 550, 400],
        [300, 450, 300],
      ],
    },
  ],
  [
    "three intervals in each half, at a span that does not divide evenly",
    {
      intervals: 3,
      L: 24.1,
      cpx: [
        [0, 12.05, 24.1],
        [0, 12.05, 24.1],
        [0, 12.05, 24.1],
      ],
    },
  ],
  ["stressed in place", { lifted: "NO" }],
  ["gross section", { sectionModel: "GROSS" }],
  ["chlorides, high strength, late stressing", { exposure: "XD_XS", fck: 60, t0: 40, fckt: 60 }],
];

interface Made {
  readonly plan: Plan;
  readonly grid: Grid;
}
const sheet = "Beam";

/** A fresh grid each time: sheets that stay would be computed along. */
async function build(inputs: Inputs, change: (plan: Plan) => Plan = (plan) => plan): Promise<Made> {
  grid?.dispose();
  grid = await openGridInNode();
  const plan = change(expand(template, { ...base, ...inputs }));
  await grid.apply(plan, { sheetName: sheet, progress: () => undefined });
  return { plan, grid };
}

describe("every shape builds", () => {
  test.each(variants)("%s: without an error cell, with a verdict", async (_name, inputs) => {
    const { plan, grid: made } = await build(inputs);
    const cells = await made.read(sheet, { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
    expect(
      cells.flatMap((row, i) =>
        row.flatMap((cell) =>
          cell.error ? [`row ${i + 1}: ${cell.formula} ${cell.error.code} ${cell.error.message ?? ""}`] : [],
        ),
      ),
    ).toEqual([]);
    const { overall } = plan.summary;
    expect(["OK", "FAIL"]).toContain(cells[overall.row]![overall.column]!.value);
  });
});

describe("the states of the sheet", () => {
  const overallOf = async ({ plan, grid: made }: Made): Promise<unknown> =>
    (await made.read(sheet, { ...plan.summary.overall, rows: 1, columns: 1 }))[0]![0]!.value;

  test("an input left out: INCOMPLETE, and the row says MISSING", async () => {
    const made = await build({ slip: null });
    expect(await overallOf(made)).toBe("INCOMPLETE");
    const { row } = made.plan.meanings.find((m) => m.id === "slip")!.at;
    const status = await made.grid.read(sheet, { row, column: 10, rows: 1, columns: 1 });
    expect(status[0]![0]!.value).toBe("MISSING");
  });

  test("a beam that is too weak: FAIL", async () => {
    expect(await overallOf(await build({ ql: 45 }))).toBe("FAIL");
  });

  const firstTendonAt = (e: number): Inputs => ({
    cpe: [
      [360, e, 360],
      [20, 550, 20],
      [-320, 450, -320],
    ],
    strands: [5, 5, 5],
    ql: 10,
    fckt: 34,
  });

  test("a tendon outside the concrete: its eccentricity contradicts the section, so INCOMPLETE; its cover fails", async () => {
    const made = await build(firstTendonAt(680));
    expect(await overallOf(made)).toBe("INCOMPLETE");
    const cells = await made.grid.read(sheet, { row: 0, column: 0, rows: made.plan.rows, columns: made.plan.columns });
    const broken = made.plan.conflicts!.filter(({ status }) => cells[status.row]![status.column]!.value === "CONFLICT");
    expect(broken.map(({ of, where }) => [of.map(({ id }) => id), where])).toEqual([
      [expect.arrayContaining(["cpe"]), "tendon 1, point 2"],
    ]);
    const cover = made.plan.summary.checks.find(({ description }) => description.includes("cover of the tendons"))!;
    expect(cells[cover.verdict.row]![cover.verdict.column]!.value).toBe("FAIL");
  });

  test("a tendon inside the section with hardly any concrete below it: FAIL", async () => {
    expect(await overallOf(await build(firstTendonAt(625)))).toBe("FAIL");
  });

  test("storage governs lifting where the factor on self-weight relieves the prestress", async () => {
    expect(await overallOf(await build({ fckt: 32.5 }))).toBe("FAIL");
  });

  test("top fibres that nothing holds: FAIL, not INCOMPLETE", async () => {
    expect(
      await overallOf(
        await build({
          cpe: [
            [500, 550, 500],
            [400, 550, 400],
            [300, 450, 300],
          ],
        }),
      ),
    ).toBe("FAIL");
  });

  test("a shape input changed on the sheet all the same: REBUILD", async () => {
    const place = (plan: Plan) => plan.meanings.find((m) => m.id === "tendons")!.at;
    // The cell is locked; here the lock is taken off, as someone may do in the spreadsheet program.
    const made = await build({}, (plan) => ({ ...plan, unlocked: [...plan.unlocked, place(plan)] }));
    await made.grid.enter({ sheet, row: place(made.plan).row, column: place(made.plan).column }, 4);
    await expect.poll(() => overallOf(made), { timeout: 10_000 }).toBe("REBUILD");
  });

  test("a jacking stress above the limit is a verdict, not an error", async () => {
    expect(await overallOf(await build({ sigj: [1460, 1400, 1400] }))).toBe("FAIL");
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
