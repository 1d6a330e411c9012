import { a1, type Area, areaA1, columnLetters } from "../../../src/cells/index.ts";
import { describe, expect, test } from "vitest";
import { columns, expand, lint, type Plan } from "../../../src/sheet/index.ts";
import { copy, small } from "./small.ts";

const plan = expand(small, small.example.inputs);

const areaOf = (id: string, of: Plan = plan): Area => {
  const meaning = of.meanings.find((m) => m.id === id);
  if (!meaning) throw new Error(`no ${id}`);
  return meaning.at;
};
const cellAt = (row: number, column: number, of: Plan = plan) =>
  of.cells.find((c) => c.row === row && c.column === column);
const contents = (id: string, of: Plan = plan) => {
  const { row, column, rows } = areaOf(id, of);
  return Array.from(
    { length: rows },
    (_, i) => cellAt(row + i, column, of)?.formula ?? cellAt(row + i, column, of)?.value,
  );
};
/** "$B$12": the i-th cell of a column; "$B12" with its row free. */
const fixed = (id: string, i = 0, of: Plan = plan) =>
  a1({ row: areaOf(id, of).row + i, column: areaOf(id, of).column }, true);
const free = (id: string, i = 0, of: Plan = plan) =>
  `$${a1({ row: areaOf(id, of).row + i, column: areaOf(id, of).column })}`;
const range = (id: string, from: number, count: number, to = id) =>
  areaA1({
    row: areaOf(id).row + from,
    column: areaOf(id).column,
    rows: count,
    columns: areaOf(to).column - areaOf(id).column + 1,
  });
const beside = (id: string, column: number, of: Plan = plan) => cellAt(areaOf(id, of).row, column, of);

// 3 marks and one inner point for each of 2 tendons.
const stations = 5;

test("the small template lints", () => {
  expect(lint(small)).toEqual([]);
});

describe("rows", () => {
  test("a row says what it is, in the sheet's columns", () => {
    const { row } = areaOf("mu");
    const { item, description, symbol, value, unit, from, to } = columns;
    expect([item, description, symbol, value, unit, from, to].map((c) => cellAt(row, c)?.value)).toEqual([
      "1.2",
      "friction coefficient between tendon and duct",
      "μ",
      0.2,
      "1/rad",
      0,
      1,
    ]);
    expect(cellAt(row, value)?.role).toBe("input");
    expect(cellAt(row, columns.verdict)?.formula).toBe(
      [
        `=IF(NOT(ISNUMBER(${fixed("mu")})),"MISSING"`,
        `IF(OR(${fixed("mu")}<$J$${row + 1},${fixed("mu")}>$K$${row + 1}),"OUT OF RANGE"`,
        `IF(KERN.INPUT_WARNINGS("frictionCoefficient",${fixed("mu")})<>"","UNUSUAL"`,
        `IF(${fixed("mu")}=0.2,"default","filled in"))))`,
      ].join(","),
    );
  });
  test("exclusive bounds exclude, what may be empty says so", () => {
    const { row } = areaOf("limit");
    const c = fixed("limit");
    expect(cellAt(row, columns.verdict)?.formula).toBe(
      `=IF(AND(${c}<>"",NOT(ISNUMBER(${c}))),"MISSING",IF(AND(${c}<>"",OR(${c}<=$J$${row + 1},${c}>=$K$${row + 1})),"OUT ` +
        `OF RANGE",IF(${c}="","left empty","filled in")))`,
    );
  });
  test("choices are checked by membership and offered as a list, free text is not judged", () => {
    const c = fixed("cement");
    expect(beside("cement", columns.verdict)?.formula).toBe(
      `=IF(${c}="","MISSING",IF(NOT(OR(${c}&""="S",${c}&""="N")),"OUT OF RANGE",IF(${c}&""="N","default","filled in")))`,
    );
    expect(plan.validations.find((v) => v.row === areaOf("cement").row)?.rule).toEqual({
      kind: "list",
      values: ["S", "N"],
    });
    expect(beside("project", columns.verdict)).toBeUndefined();
    expect(plan.validations.some((v) => v.row === areaOf("project").row)).toBe(false);
  });
  test("a function's row reads as its declaration with the row's own symbols, and names clause and basis", () => {
    const below = areaOf("sRef").row + 1;
    expect(cellAt(below, columns.description)?.value).toBe("σref = σp0·exp(−μ·(α + k·x))");
    expect(cellAt(below, columns.equation)?.value).toBe("EN1992-1-1:2004 5.10.5.2 (5.45) [seen in CE:2021]");
    expect(beside("jack", columns.equation)?.value).toBe("σp0 = max(all σp0)");
    expect(beside("jack", columns.source)?.value).toBeUndefined();
  });
  test("a user's text stays text", () => {
    const built = expand(small, { ...small.example.inputs, project: "=1+1", strandLabel: ["@here", "-2+3"] });
    const project = beside("project", areaOf("project", built).column, built);
    expect(project).toMatchObject({ value: "=1+1", role: "textInput" });
    expect(project?.formula).toBeUndefined();
    expect(contents("strandLabel", built)).toEqual(["@here", "-2+3"]);
    expect(built.cells.filter((c) => typeof c.formula === "string" && /1\+1|@here|2\+3/.test(c.formula))).toEqual([]);
  });
});

describe("references", () => {
  test("the same row, rows of the sheet, the row above", () => {
    expect(contents("theta")[0]).toBe(
      `=IF(${free("an")}=1,0,$${a1({ row: areaOf("theta").row - 1, column: areaOf("theta").column })}+${fixed("turn")})`,
    );
    expect(contents("theta")[3]).toBe(`=IF(${free("an", 3)}=1,0,${free("theta", 2)}+${fixed("turn")})`);
  });
  test("tendon and station from the tables of either", () => {
    expect(contents("ax")).toEqual([0, 1, 2, 3, 4, 0, 1, 2, 3, 4].map((i) => `=${free("x", i)}`));
    expect(contents("sfr")[stations + 2]).toBe(
      `=KERN.FRICTION_STRESS(${free("theta", stations + 2)},${fixed("mu")},${fixed("k")},"rad/m",${fixed(
        "sigj",
        1,
      )},${free("ax", stations + 2)})`,
    );
  });
  test("station by tendon finds tendon by station, fixed because its rows do not move along", () => {
    const expected = [0, 1, 2, 3, 4].flatMap((s) => [0, 1].map((t) => `=${fixed("sfr", t * stations + s)}`));
    expect(contents("sf")).toEqual(expected);
  });
  test("the range of the members in common, over several columns", () => {
    expect(contents("ecc")[0]).toContain(`(${range("cpx", 0, 3, "cps")},`);
    expect(contents("ecc")[stations]).toContain(`(${range("cpx", 3, 3, "cps")},`);
    expect(contents("mean")).toEqual([0, 1, 2, 3, 4].map((s) => `=AVERAGE(${range("sf", 2 * s, 2)})`));
    expect(contents("sAll")).toEqual([0, 1].map((t) => `=MAX(${range("sfr", t * stations, stations)})`));
    expect(contents("jack")).toEqual([`=MAX(${range("sigj", 0, 2)})`]);
  });
  test("first and last of the members in common", () => {
    expect(contents("sFirst")).toEqual([`=${fixed("sfr", 0)}`, `=${fixed("sfr", stations)}`]);
    expect(contents("sLast")).toEqual([`=${fixed("sfr", stations - 1)}`, `=${fixed("sfr", 2 * stations - 1)}`]);
  });
  test("parts go on below, the whole column covers them, their rows match the dimension they count", () => {
    expect(contents("pi")).toEqual([1, 2, 3, 1, 1]);
    expect(contents("px").slice(3)).toEqual([`=${free("cpx", 1)}`, `=${free("cpx", 4)}`]);
    expect(contents("x")[4]).toBe(`=SMALL(${range("px", 0, 5)},${free("n", 4)})`);
    expect(contents("raw")).toEqual([0, 1, 2, 3, 4].map((i) => `=${free("px", i)}`));
  });
  test("a part of a dimension finds its place in the whole", () => {
    const wide = expand(small, { ...small.example.inputs, intervals: 4 });
    expect(contents("bi", wide)).toEqual([2, 3, 4]);
    expect(contents("bm", wide)).toEqual([1, 2, 3].map((i) => `=${free("m", i, wide)}`));
  });
  test("every formula column has one pattern down each group", () => {
    // Row numbers in `$B12` become distances from the formula's own row.
    const relative = (formula: string, row: number) =>
      formula.replace(/\$([A-Z]+)(\d+)/g, (_, c: string, r: string) => `${c}[${Number(r) - 1 - row}]`);
    for (const [id, size] of [
      ["theta", stations],
      ["ax", stations],
      ["ecc", stations],
      ["sfr", stations],
      ["vs", stations],
      ["vok", stations],
    ] as const) {
      const { row } = areaOf(id);
      const all = contents(id);
      for (let g = 0; g < all.length; g += size) {
        const patterns = new Set(all.slice(g, g + size).map((formula, i) => relative(String(formula), row + g + i)));
        expect([...patterns], id).toHaveLength(1);
      }
    }
  });
});

describe("members and conditions", () => {
  test("cells a member, members by name", () => {
    expect(contents("stageName")).toEqual(["Transfer", "Lifting", "Service"]);
    expect(contents("factor")).toEqual([1, `=${fixed("liftFactor")}`, 0]);
    expect(contents("vs")[stations]).toBe(`=${fixed("factor", 1)}*${free("mean", 0)}`);
  });
  test("a member left out shrinks its tables, a row left out is gone", () => {
    const still = expand(small, { ...small.example.inputs, lifted: "NO" });
    expect(contents("stageName", still)).toEqual(["Transfer", "Service"]);
    expect(contents("vs", still)).toHaveLength(2 * stations);
    expect(still.meanings.some(({ id }) => id === "liftFactor")).toBe(false);
    expect(still.charts.map(({ id }) => id)).toEqual(["tendons", "mean", "service"]);
  });
});

describe("verdicts", () => {
  test("table verdicts stand in the verdict column, statuses of table inputs too", () => {
    expect(areaOf("vok").column).toBe(columns.verdict);
    const { row } = areaOf("sigj");
    const letter = columnLetters(areaOf("sigj").column);
    expect(cellAt(row, columns.verdict)?.formula).toBe(
      `=IF(NOT(ISNUMBER(${free("sigj")})),"MISSING",IF(OR(${free("sigj")}<=$${letter}$${row - 1},${free("sigj")}>$${letter}$${row}),"OUT ` +
        `OF RANGE",IF(KERN.INPUT_WARNINGS("jackingStress",${free("sigj")})<>"","UNUSUAL",IF(${free("sigj")}=1400,"default","filled in"))))`,
    );
    expect([-2, -1].map((i) => cellAt(row + i, areaOf("sigj").column)?.value)).toEqual([0, 2500]);
  });
  test("counts run over the verdict column of everything above, but for the first page, which repeats it", () => {
    const { row } = areaOf("nFail");
    // From the row above the first block's title, whether or not a page begins there.
    const body = plan.cells.find(({ role }) => role === "block")!.row;
    expect(contents("nFail")).toEqual([`=(COUNTIF($O$${body}:$O$${row},"FAIL"))`]);
    expect(contents("nOpen")[0]).toContain(`SUMPRODUCT(ISERROR($O$${body}:$O$${row + 1})*1)`);
    expect(contents("nOpen")[0]).toContain('"OUT OF RANGE"');
  });
  test("the overall verdict compares the shape with what was built", () => {
    const rows = ["tendons", "points", "intervals", "lifted"].map((id) => areaOf(id).row + 1);
    expect(contents("overall")[0]).toContain(`IF(OR(${rows.map((r) => `$H$${r}<>$J$${r}`).join(",")}),"REBUILD"`);
    expect(rows.map((r) => [cellAt(r - 1, columns.value)?.value, cellAt(r - 1, columns.from)?.value])).toEqual([
      [2, 2],
      [3, 3],
      [2, 2],
      ["YES", "YES"],
    ]);
    expect(plan.unlocked.some((u) => rows.includes(u.row + 1) && u.column === columns.value)).toBe(false);
  });
  test("the summary says where everything stands", () => {
    const { row } = areaOf("uMax");
    expect(plan.summary.overall).toEqual({ row: areaOf("overall").row, column: columns.value });
    expect(plan.summary.checks).toEqual([
      {
        id: "uMax",
        description: "highest stress of its limit",
        utilisation: { row, column: columns.value },
        where: { row: row + 1, column: columns.equation },
        verdict: { row, column: columns.verdict },
      },
    ]);
    expect(cellAt(row + 1, columns.equation)?.formula).toMatch(/^="x = "&TEXT\(/);
  });
});

test("warnings: one line for an input with an everyday range, one for a row with one call, one for the last row of each group", () => {
  const { row, rows, column } = plan.summary.warnings;
  const inputs = ["mu", "k", "L", "turn"].map((id) => [id, fixed(id)]);
  const columnsOfInputs = ["sigj", "cpx", "cpe"].map((id) => [id, areaA1(areaOf(id))]);
  const key: Readonly<Record<string, string>> = {
    mu: "frictionCoefficient",
    k: "wobbleAngle",
    L: "span",
    turn: "angleChange",
    sigj: "jackingStress",
    cpx: "controlX",
    cpe: "eccentricity",
  };
  expect(rows).toBe(10);
  expect(Array.from({ length: rows }, (_, i) => cellAt(row + i, column)?.formula)).toEqual([
    ...[...inputs, ...columnsOfInputs].map(([id, cells]) => `=" "&KERN.INPUT_WARNINGS("${key[id!]!}",${cells})`),
    `=" "&KERN.WARNINGS("FRICTION_STRESS",${fixed("theta", 4)},${fixed("mu")},${fixed("k")},"rad/m",${fixed("sigj", 0)},${fixed("ax", 4)})`,
    `=" "&KERN.WARNINGS("FRICTION_STRESS",${fixed("theta", 9)},${fixed("mu")},${fixed("k")},"rad/m",${fixed("sigj", 1)},${fixed("ax", 9)})`,
    `=" "&KERN.WARNINGS("FRICTION_STRESS",${fixed("turn")},${fixed("mu")},${fixed("k")},"rad/m",${fixed("jack")},${fixed("ref")})`,
  ]);
  expect(cellAt(row, 1)?.value).toMatch(/^input \d\.\d: μ, friction coefficient/);
  expect(cellAt(row + 7, 1)?.value).toBe("row 3.1: σp, tendon stress, tension positive, tendon 1, station 5");
  expect(contents("nWarn")).toEqual([`=(COUNTIF(${areaA1(plan.summary.warnings)},"??*"))`]);
});

test("charts: a series a tendon, one member of the outer dimension, x from the table itself or from one over what is left", () => {
  const [tendons, mean, service, lifting] = plan.charts;
  expect(tendons!.series.map(({ name, y }) => [name, areaA1(y)])).toEqual([
    ["tendon 1", range("sfr", 0, 5)],
    ["tendon 2", range("sfr", 5, 5)],
  ]);
  expect(areaA1(tendons!.series[1]!.x)).toBe(range("ax", 5, 5));
  expect(areaA1(mean!.series[0]!.x)).toBe(range("x", 0, 5));
  expect(areaA1(service!.series[0]!.y)).toBe(range("vs", 10, 5));
  expect(areaA1(service!.series[0]!.x)).toBe(range("x", 0, 5));
  expect(areaA1(lifting!.series[0]!.x)).toBe(range("vx", 5, 5));
});

describe("the sheet as a whole", () => {
  test("no cell is written twice", () => {
    const keys = plan.cells.map(({ row, column }) => `${row},${column}`);
    expect(keys.filter((key, i) => keys.indexOf(key) !== i)).toEqual([]);
  });
  test("nothing stands outside the printed area, no span crosses another cell", () => {
    for (const { row, column } of plan.cells)
      expect(row < plan.rows && column < plan.columns, `${row},${column}`).toBe(true);
    for (const span of plan.spans)
      expect(
        plan.cells.filter((c) => c.row === span.row && c.column > span.column && c.column < span.column + span.columns),
        JSON.stringify(span),
      ).toEqual([]);
    expect(plan.print.area).toEqual({ row: 0, column: 0, rows: plan.rows, columns: plan.columns });
  });
  test("the sheet carries identity, conventions, cautions", () => {
    const values = plan.cells.map(({ value }) => value);
    for (const text of ["Small sheet", "small 1.2.3", plan.hash, ...small.conventions, ...small.cautions])
      expect(values).toContain(text);
    expect(plan.freeze.rows).toBe(2);
  });
  test("names are unique whatever their case, messages keep the program's limits", () => {
    const names = plan.names.map(({ name }) => name.toLowerCase());
    expect(new Set(names).size).toBe(names.length);
    expect(plan.names.find(({ name }) => name === "kb_sfr")).toMatchObject({ rows: 10, columns: 1 });
    for (const { title, message } of plan.validations) {
      expect(title.length).toBeLessThanOrEqual(32);
      expect(message.length).toBeLessThanOrEqual(255);
    }
  });
  test("the inputs are kept as built", () => {
    expect(plan.inputs).toMatchObject({
      tendons: 2,
      lifted: "YES",
      mu: 0.2,
      k: 0.007,
      limit: null,
      project: null,
      sigj: [1400, 1380],
      cpx: [
        [0, 5, 10],
        [0, 4, 10],
      ],
    });
    expect(plan.inputs["cps"]).toEqual([
      ["LINE", "LINE", "LINE"],
      ["LINE", "LINE", "LINE"],
    ]);
  });
  test("the hash is of what the template puts on the sheet, not of what is typed into its inputs", () => {
    expect(expand(copy(), structuredClone(small.example.inputs)).hash).toBe(plan.hash);
    expect(
      expand(small, {
        ...small.example.inputs,
        mu: 0.21,
        limit: 1500,
        cement: "N",
        project: "another",
        sigj: [1300],
        strandLabel: ["a", "b"],
      }).hash,
    ).toBe(plan.hash);
    const mu = (change: object) => {
      const other = copy();
      for (const { items } of other.blocks)
        for (const item of items) if ("id" in item && item.id === "mu") Object.assign(item, change);
      return other;
    };
    // A default, by which an input's status tells it from what was entered, a text, a bound or a format stand on the sheet.
    for (const change of [
      { input: { default: 0.25 } },
      { text: "friction" },
      { input: { default: 0.2, max: 0.5 } },
      { format: "0.0000" },
    ])
      expect(expand(mu(change), small.example.inputs).hash, JSON.stringify(change)).not.toBe(plan.hash);
    for (const shape of [{ intervals: 4 }, { lifted: "NO" }])
      expect(expand(small, { ...small.example.inputs, ...shape }).hash, JSON.stringify(shape)).not.toBe(plan.hash);
    expect(expand({ ...copy(), version: "1.2.4" }, small.example.inputs).hash).not.toBe(plan.hash);
  });
  test("rows, tables and blocks have a cell for a mark that may be typed in, beside their title", () => {
    const marks = plan.cells.filter(({ role }) => role === "mark");
    for (const cell of marks) {
      expect(cell).toEqual({ row: cell.row, column: columns.mark, role: "mark" });
      expect(plan.unlocked, a1(cell)).toContainEqual({ row: cell.row, column: columns.mark, rows: 1, columns: 1 });
    }
    const titled = plan.cells
      .filter(
        ({ role, value, row }) =>
          ["block", "subtitle"].includes(role) && value !== undefined && cellAt(row, 1)?.role === role,
      )
      .map(({ row }) => row);
    const ofRows = plan.meanings
      .filter(
        ({ at, id }) =>
          at.column === columns.value &&
          at.rows === 1 &&
          plan.cells.some((c) => c.row === at.row && c.column === columns.mark && c.role === "mark") &&
          !(id in small.dimensions),
      )
      .map(({ at }) => at.row);
    expect(new Set(marks.map(({ row }) => row))).toEqual(new Set([...titled, ...ofRows]));
    expect(ofRows).toContain(areaOf("mu").row);
  });
});

describe("a table of what people write when they issue the sheet", () => {
  const withRecord = () => {
    const other = copy();
    Object.assign(other.dimensions, { line: { label: "line", size: 3 } });
    (other.blocks as unknown[]).push({
      id: "issued",
      title: "Issued",
      items: [
        {
          table: "issued",
          title: "Issued",
          over: ["line"],
          columns: [
            { id: "who", text: "by", format: "@", record: true },
            { id: "state", text: "state", record: true },
          ],
        },
      ],
    });
    return other;
  };
  const built = expand(withRecord(), small.example.inputs);
  test("is empty cells that may be typed in, no input and no status", () => {
    expect(lint(withRecord())).toEqual([]);
    const { row } = areaOf("who", built);
    expect(built.cells.filter((c) => c.role === "record")).toEqual(
      [areaOf("who", built), areaOf("state", built)].flatMap(({ column }, i) =>
        [0, 1, 2].map((line) => ({ row: row + line, column, role: "record", ...(i === 0 && { format: "@" }) })),
      ),
    );
    expect(built.unlocked).toContainEqual({ row, column: areaOf("who", built).column, rows: 3, columns: 1 });
    expect(built.inputs).toEqual(plan.inputs);
    expect(built.cells.filter((c) => c.row >= row && c.row < row + 3 && c.column === columns.verdict)).toEqual([]);
  });
  test("has a heading and nothing of symbols or units, and no mark of its own", () => {
    const { row } = areaOf("who", built);
    const heads = ["who", "state"].map((id) => cellAt(row - 1, areaOf(id, built).column, built));
    expect(heads).toMatchObject([
      { role: "tableWord", value: "by" },
      { role: "tableWord", value: "state" },
    ]);
    expect(built.cells.filter((c) => c.row === row - 1 && c.role === "tableUnit")).toEqual([]);
    expect(cellAt(row - 2, columns.description, built)).toMatchObject({ role: "subtitle", value: "Issued" });
    expect(built.cells.filter(({ role }) => role === "mark")).toHaveLength(
      plan.cells.filter(({ role }) => role === "mark").length,
    );
  });
  test("colours what a mark or a state of the content says once it is stale", () => {
    expect(built.highlights.filter(({ begins }) => begins).map((h) => [areaA1(h), h.text, h.tone])).toEqual([
      [`$P$3:$P$${built.rows}`, "STALE", "bad"],
      [areaA1(areaOf("state", built)), "STALE", "bad"],
    ]);
  });
});
