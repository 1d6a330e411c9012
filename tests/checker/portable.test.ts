import * as mathjs from "mathjs/number";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ourFunctions } from "../../functions/index.ts";
import { definedFunctions, definedKey, parseFormula, partsOf, piecesOf, writeNode } from "../../src/cells/index.ts";
import {
  copiesOfSheets,
  helpers,
  lambdaText,
  outOfDate,
  portableCopies,
  portableHeadRows,
  translated,
  withHelpers,
  type PortableCopy,
  type PortableFunction,
} from "../../src/checker/portable/index.ts";
import { isBuilt, missingTemplate, recognise, sheetsOf, takeSnapshot } from "../../src/checker/index.ts";
import { formulas, variantsOf, type Formula } from "../../src/core/index.ts";
import { nodeGrid, type NodeGrid } from "../../src/hosts/grid/node.ts";
import { openWorkbook, planValues, writeSheets, type CellContent, type Values } from "../../src/hosts/index.ts";
import { expand, inputsFrom, plannedSnapshot, type Inputs, type Plan } from "../../src/sheet/index.ts";
import { linkedTemplates, templates } from "../../src/templates/index.ts";
import { answered, callsOf, type DrawnCall } from "./portable/calls.ts";
import { MemoryFaults } from "./memoryFaults.ts";
import { copyOf, withInputsOf } from "./portable/copied.ts";

/** Relative, of one function against the core. */
const exact = 1e-12;

const all = formulas.map((f) => ({ f, made: translated(f, mathjs, withHelpers) }));
const portable = all.flatMap(({ f, made }) => ("why" in made ? [] : [{ f, made }]));
const definitions = [...helpers, ...portable.map(({ made }) => made)].map((made) => ({
  name: made.name,
  formula: lambdaText(made),
}));

/** How deep its brackets stand within one another; those of texts left out. */
function depthOf(formula: string): number {
  let [depth, deepest] = [0, 0];
  for (const { kind, text } of piecesOf(formula)) {
    if (kind !== "operator" && kind !== "other") continue;
    for (const sign of text) {
      if (sign === "(") deepest = Math.max(deepest, ++depth);
      if (sign === ")") depth--;
    }
  }
  return deepest;
}

describe("functions in the language of cells", () => {
  it("go by their own names: an id of ours without its namespace is none", () => {
    const own = definedFunctions(ourFunctions, definitions);
    const given = (formula: string): unknown => {
      const plan = { ...bare([{ row: 0, column: 0, role: "value", formula }]), functions: definitions };
      return planValues(plan, "One")?.[0]![0]!.value;
    };
    expect(own.has(definedKey(portable[0]!.made.name))).toBe(true);
    expect(ourFunctions.has("FRICTION_STRESS")).toBe(true);
    expect(given("=FRICTION_STRESS(1)")).toBeUndefined();
    expect(given('=KERN.RECTANGLE_SECTION(300,500,"AREA")')).toBe(150_000);
    expect(given('=rectangle_section(300,500,"AREA")')).toBeUndefined();
  });

  it("are all whose declaration is equations and tables", () => {
    const declared = (f: Formula): boolean =>
      variantsOf(f).every(({ steps }) => Object.values(steps).every((step) => "equation" in step || "lookup" in step));
    expect(all.filter(({ f, made }) => declared(f) === "why" in made).map(({ f }) => f.id)).toEqual([]);
    expect(portable.length).toBe(168);
  });

  it("keep to what programs take: length, nesting, names", () => {
    for (const { name, formula } of definitions) {
      expect(formula.length, name).toBeLessThan(8192);
      expect(depthOf(formula), name).toBeGreaterThan(1);
      expect(depthOf(formula), name).toBeLessThanOrEqual(64);
      expect(name).toMatch(/^KERN_[A-Z0-9_]+_V\d+_\d+_\d+$/);
      expect(writeNode(parseFormula(`=${formula}`)), name).toBe(formula);
      const named = [...partsOf(parseFormula(`=${formula}`))].flatMap((part) =>
        part.type === "LetExpression" ? part.declarations.map(({ id }) => id.name) : [],
      );
      for (const own of named) expect(own, name).not.toMatch(/^([a-z]{1,3}\d+|r|c|r\d*c\d*)$/i);
    }
  });

  it("give what the core gives, and refuse in the same words", () => {
    const own = definedFunctions(ourFunctions, definitions);
    const wrong = portable.flatMap(({ f, made }) =>
      callsOf(f, 4, 14).flatMap((call) => {
        const given = own.get(definedKey(made.name))!.call(call.args);
        const got = "error" in given ? given.error.code : given.value;
        return agrees(call, got) ? [] : [`${f.id}(${call.args.join()}): ${String(got)} in place of ${saidOf(call)}`];
      }),
    );
    expect(wrong).toEqual([]);
  });
});

const saidOf = ({ value, message }: DrawnCall): string => String(value ?? message);

function agrees({ id, args, value, message }: DrawnCall, got: unknown): boolean {
  if (value === undefined) return got === message;
  return typeof got === "number" && Math.abs(got - value) <= exact * Math.max(Math.abs(value), cancelled(id, args));
}

/** Where the equation takes one stress from another as large, the core computes otherwise: relative to what cancels. */
const cancelling: ReadonlySet<string> = new Set(["PRINCIPAL_TENSION"]);
const cancelled = (id: string, args: DrawnCall["args"]): number =>
  cancelling.has(id) ? Math.max(...args.map((arg) => Math.abs(Number(arg)))) : 0;

function literal(cell: DrawnCall["args"][number]): string {
  if (cell === null || cell === undefined) return '""';
  if (typeof cell === "string") return `"${cell.replaceAll('"', '""')}"`;
  return typeof cell === "boolean" ? String(cell).toUpperCase() : String(cell).toUpperCase();
}

describe("in the grid's own engine", () => {
  let grid: NodeGrid;
  beforeAll(() => {
    grid = nodeGrid();
  });
  afterAll(() => grid.host.dispose());

  it("named functions give what the core gives, and refuse in the same words", async () => {
    const asked = portable.flatMap(({ f, made }) => {
      const drawn = callsOf(f, 12, 24);
      // The first draws stand at the edges of their ranges, where the grid rounds what cancels.
      const accepted = drawn.slice(0, 12).filter(({ value }) => value !== undefined && value !== 0);
      const refused = drawn.filter(({ message }) => message !== undefined);
      return [...accepted.slice(-1), ...refused.slice(-1)].map((call) => ({ call, made }));
    });
    // The grid shows 12 digits; the difference to the core is computed within it.
    const cells = asked.map(({ call, made }, row) => ({
      row,
      column: 0,
      role: "value" as const,
      formula: written(call, made),
    }));
    await grid.host.apply(
      { ...bare(cells), functions: definitions },
      { sheetName: "Calls", progress: () => undefined },
    );
    // What came with values from our own calculation is computed by the grid's.
    await grid.host.recalculate();
    const shown = await grid.host.read("Calls", { row: 0, column: 0, rows: cells.length, columns: 1 });
    const wrong = asked.flatMap(({ call }, row) => {
      const { value } = shown[row]![0]!;
      const right =
        call.value === undefined
          ? value === call.message
          : typeof value === "number" && Math.abs(value) <= Math.max(exact, lastBits(call));
      return right ? [] : [`${call.id}(${call.args.join()}): ${String(value)} in place of ${saidOf(call)}`];
    });
    expect(wrong).toEqual([]);
  });
});

/** What the last bit of an argument makes of the result, relative: more than that no engine can hold. */
function lastBits({ id, args, value }: DrawnCall): number {
  const f = formulas.find((one) => one.id === id)!;
  const effects = args.map((arg, i) => {
    if (typeof arg !== "number") return 0;
    const moved = answered(
      f,
      args.map((old, j) => (j === i ? arg * (1 + 2 ** -52) : old)),
    );
    return moved.value === undefined ? 0 : Math.abs(moved.value / value! - 1);
  });
  return effects.reduce((sum, effect) => sum + effect, 0);
}

function written({ args, value }: DrawnCall, { name }: PortableFunction): string {
  const call = `${name}(${args.map(literal).join(",")})`;
  return value === undefined ? `=${call}` : `=${call}/(${literal(value)})-1`;
}

/** A plan of nothing but some cells. */
function bare(cells: Plan["cells"]): Plan {
  return {
    template: { id: "calls", version: "1.0.0", title: "Calls" },
    hash: "",
    inputs: {},
    rows: cells.length,
    columns: 1,
    widths: [20],
    spans: [],
    lines: {},
    cells,
    names: [],
    validations: [],
    highlights: [],
    unlocked: [],
    freeze: { rows: 0, columns: 0 },
    print: {
      area: { row: 0, column: 0, rows: 1, columns: 1 },
      titleRows: [0, 0],
      orientation: "portrait",
      footer: "",
    },
    charts: [],
    meanings: [],
    summary: { overall: { row: 0, column: 0 }, checks: [], warnings: { row: 0, column: 0, rows: 0, columns: 1 } },
  };
}

const shownIn = ({ value, error }: CellContent): unknown => error?.code ?? (value === "" ? null : value);

/** Cells of formulas that differ from the original's; those that say so themselves are counted apart. */
function compared(original: Values, copy: Values): { readonly other: readonly string[]; readonly open: number } {
  const other: string[] = [];
  let open = 0;
  original.forEach((cells, row) =>
    cells.forEach((cell, column) => {
      if (cell.formula === undefined || cell.formula.includes("ROW(")) return;
      const [wanted, got] = [shownIn(cell), shownIn(copy[row + portableHeadRows]![column]!)];
      if (got === "#N/A" || got === outOfDate || String(got).startsWith("Inputs were changed")) open++;
      else if (typeof wanted === "number" && typeof got === "number") {
        if (Math.abs(wanted - got) > exact * Math.max(Math.abs(wanted), Math.abs(got)))
          other.push(`${row} ${column}: ${wanted} is ${got}`);
      } else if (wanted !== got) other.push(`${row} ${column}: ${String(wanted)} is ${String(got)}`);
    }),
  );
  return { other, open };
}

describe("a copy of a sheet that no template built", () => {
  const rowsHigh = 1200;
  const cell = (value: number | null, formula?: string): CellContent => ({
    ...{ value, text: String(value ?? "") },
    ...(formula !== undefined && { formula }),
  });
  const sum = (rowsHigh * (rowsHigh + 1)) / 2;
  const tooMany = '=KERN.RECTANGLE_SECTION(1,2,"AREA",4)';
  /** Inputs in A; every other one by itself in B; what stays in C. */
  const cells = Array.from({ length: rowsHigh }, (_, row) => [
    cell(row + 1),
    row % 2 === 0 ? cell(row + 1, `=A${row + 1}`) : cell(null),
    cell(null),
  ]);
  cells[0]![2] = cell(11, `${tooMany}+SUM(B1:B${rowsHigh})`);
  cells[1]![2] = cell(sum, `${tooMany}+SUM(A1:A${rowsHigh})`);
  cells[2]![2] = cell(7, "=Elsewhere!A1");
  const snapshot = { sheet: "Own", rows: rowsHigh, columns: 3, cells, names: new Map() };
  const formats = cells.map((row) => row.map(() => "General"));
  const looks = { formats, hiddenRows: [], hiddenColumns: [], sameColour: [], tooSmall: [] };
  const facts = { when: "1 January 2026, 12:00", host: "the tests" };
  const copied = (): PortableCopy => portableCopies([{ snapshot, looks, recognised: undefined }], facts, mathjs)[0]!;

  it("counts changed inputs with no more arguments than a program takes, and says why cells stay", () => {
    const { plan, counts } = copied();
    expect(counts).toMatchObject({ staying: 3, why: { functions: 0, elsewhere: 1, arguments: 2, long: 0 } });
    const head = plan.cells.filter(({ row }) => row < portableHeadRows).map(({ value }) => String(value ?? ""));
    expect(head.join("\n")).toContain("1 cell shows values of sheets that were not copied.");
    expect(head.join("\n")).toContain("2 cells call functions with more arguments than they take.");
    expect(head.join("\n")).not.toContain("integrate");
    const sums = plan.cells.flatMap(({ formula }) => (formula?.startsWith("=SUM(") ? [formula] : []));
    expect(sums.length).toBeGreaterThan(3);
    for (const one of sums) expect(one.split(",").length).toBeLessThanOrEqual(255);
    const shown = (changed?: number): readonly unknown[] => {
      const other = plan.cells.map((one) =>
        changed === one.row - portableHeadRows && one.column === 0 ? { ...one, value: -1 } : one,
      );
      const values = planValues({ ...plan, cells: other }, "Own")!;
      return [0, 1, 2].map((row) => shownIn(values[row + portableHeadRows]![2]!));
    };
    expect(shown()).toEqual([11, sum, 7]);
    expect(shown(rowsHigh - 2)).toEqual(["#N/A", "#N/A", 7]);
    expect(shown(rowsHigh - 1)).toEqual([11, "#N/A", 7]);
  });

  it("is not made where a formula would be longer than a program takes", () => {
    const long = "x".repeat(9000);
    const texts = cells.map((row) => [...row]);
    texts[0]![2] = { value: long, text: long, formula: `${tooMany}&A1` };
    expect(() =>
      portableCopies([{ snapshot: { ...snapshot, cells: texts }, looks, recognised: undefined }], facts, mathjs),
    ).toThrow(/the formula of C8 of “Own” would have 9\d\d\d characters/);
  });
});

describe("copies of a sheet and of one linked to it", () => {
  const linked = linkedTemplates.find(({ id }) => id === "cross-check-post-tensioned-is1343-1980")!;
  const source = linked.source!.template;
  const sheetsWith = (other: Inputs): readonly { plan: Plan; values: Values; sheetName: string }[] => {
    const fewer = { intervals: 1, web: "NO", detailing: "NO", lifted: "NO" };
    const of = expand(source, { ...source.example.inputs, ...fewer, ...other });
    const names = of.names.map((name) => ({ ...name, sheet: "Beam" }));
    const own = inputsFrom(linked, of.inputs, { sourceSheet: "Beam", ...linked.example.inputs });
    return computed([
      { plan: of, sheetName: "Beam" },
      { plan: expand(linked, own, { sheet: "Beam", names }), sheetName: "Check" },
    ]);
  };
  /** One after the other, each beside those before it, as a file is written. */
  const computed = (plans: readonly { plan: Plan; sheetName: string }[]) => {
    const out: { plan: Plan; values: Values; sheetName: string }[] = [];
    for (const { plan, sheetName } of plans) {
      const others = out.map((one) => ({ ...plannedSnapshot(one.plan, one.sheetName), cells: one.values }));
      const values = planValues(plan, sheetName, others);
      expect(values, sheetName).toBeDefined();
      out.push({ plan, values: values!, sheetName });
    }
    return out;
  };

  it("are computed in their order, show the same, and turn out of date together", async () => {
    const originals = sheetsWith({});
    const facts = { when: "1 January 2026, 12:00", host: "the tests" };
    const copies = await copiesOfSheets(originals, facts, mathjs);
    const plans = copies.map(({ plan }, i) => ({ plan, sheetName: originals[i]!.sheetName }));
    const asCopied = computed(plans);
    for (const [i, { values }] of originals.entries())
      expect(compared(values, asCopied[i]!.values)).toEqual({ other: [], open: 0 });
    const later = sheetsWith({ fck: 55 });
    const before = originals[0]!.plan;
    const changed = computed([
      { plan: withInputsOf(plans[0]!.plan, before, later[0]!.plan), sheetName: "Beam" },
      plans[1]!,
    ]);
    const verdicts = changed.map(({ plan, values }) => {
      const { row, column } = plan.summary.overall;
      return values[row]![column]!.value;
    });
    expect(verdicts).toEqual([outOfDate, outOfDate]);
  });
});

describe("a copy of a demonstration sheet", () => {
  const template = templates.find(({ id }) => id === "pre-tensioned-is1343-1980")!;
  let made: Awaited<ReturnType<typeof copyOf>>;
  beforeAll(async () => {
    made = await copyOf(template);
  });

  const after = (inputs: Readonly<Record<string, number>>) => {
    const later = expand(template, { ...template.example.inputs, ...inputs });
    const values = planValues(withInputsOf(made.plan, made.original, later), "Beam")!;
    const wanted = planValues(later, "Beam")!;
    const at = ({ row, column }: Plan["summary"]["overall"], of: Values) => of[row]![column]!.value;
    return {
      ...compared(wanted, values),
      verdict: at(made.plan.summary.overall, values),
      wanted: at(later.summary.overall, wanted),
      values,
      later,
    };
  };

  it("computes nearly all cells, says which do not, and shows the same", () => {
    const { counts, plan, values, original } = made;
    expect(counts.staying).toBe(295);
    expect(counts.computing + counts.staying).toBe(original.cells.filter((cell) => cell.formula).length);
    expect(plan.cells.filter(({ stays }) => stays).length).toBeGreaterThanOrEqual(counts.staying);
    expect(compared(values, planValues(plan, "Beam")!)).toEqual({ other: [], open: 0 });
    const head = plan.cells
      .filter(({ row, value }) => row < portableHeadRows && value !== undefined)
      .map(({ value }) => value);
    expect(head.join("\n")).toContain("Trust the verdict of the original");
    for (const id of [...counts.functions, ...counts.values]) expect(head.join("\n")).toContain(id);
    expect(plan.cells.filter(({ formula }) => formula?.includes("KERN."))).toEqual([]);
  });

  it("follows loads to the last cell and the verdict", () => {
    const { other, open, verdict, wanted } = after({ ql: 11, gs: 6 });
    expect({ other, open }).toEqual({ other: [], open: 0 });
    expect(verdict).toBe(wanted);
  });

  it("shows no number that does not follow: other inputs leave #N/A and OUT OF DATE", () => {
    const { other, open, verdict, values } = after({ fck: 45 });
    expect(open).toBeGreaterThan(1000);
    expect(verdict).toBe(outOfDate);
    // Warnings stay those of the original, with their number and their mark.
    const others = other.filter((one) => !/warning|UNUSUAL|row \d/i.test(one)).map((one) => one.split(" ")[0]);
    const named = others.map((row) => String(values[Number(row) + portableHeadRows]![1]!.value));
    expect(new Set(named.map((text) => text.replace(/^row [\d.]+: /, "")))).toEqual(
      new Set([
        "warnings listed below",
        "code of these warnings",
        "ηt, strength at the age of transfer, required / expected",
      ]),
    );
  });

  it.each([{ ql: 60 }, { fck: 30 }, { gs: 40, ql: 20 }])("never says OK where the original does not: %o", (inputs) => {
    const { values, wanted, verdict, later } = after(inputs);
    const original = planValues(later, "Beam")!;
    expect(wanted).not.toBe("OK");
    expect(verdict).not.toBe("OK");
    const judged = later.cells.filter(({ role }) => role === "verdict" || role === "overall");
    const not = judged.filter(({ row, column }) => shownIn(original[row]![column]!) !== "OK");
    expect(not.length).toBeGreaterThan(0);
    const wrong = not.filter(({ row, column }) => shownIn(values[row + portableHeadRows]![column]!) === "OK");
    expect(wrong.map(({ row, column }) => `${row} ${column}`)).toEqual([]);
  });

  it("says nothing beside the rows while no cell is refused", () => {
    const { values } = after({ gs: 6 });
    expect(
      values.flatMap((row) => row[made.original.columns + 1]?.value ?? []).filter((text) => text !== ""),
    ).toHaveLength(2);
  });

  it("passes for no sheet of a template, nor for a source of one, also below inserted rows", async () => {
    const { host } = new MemoryFaults();
    await host.apply(made.original, { sheetName: "Beam", progress: () => undefined });
    // What it says of itself; functions of a workbook's own are not computed there.
    const said = made.plan.cells.filter(({ formula }) => formula === undefined);
    const { rows: high, columns, widths } = made.plan;
    for (const [name, by] of Object.entries({ Copy: 0, Lower: 2 })) {
      const down = said.map((cell) => ({ ...cell, row: cell.row + by }));
      const plan = { ...bare(down), rows: high + by, columns, widths };
      await host.apply(plan, { sheetName: name, progress: () => undefined });
      const texts = (await takeSnapshot(host, name)).cells.flat().map(({ value }) => value);
      expect(texts).toContain(`${template.id} ${template.version}`);
      expect(await recognise(host, name)).toBeUndefined();
      expect(await isBuilt(host, name)).toBe(false);
      expect(await missingTemplate(host, name)).toBeUndefined();
    }
    expect(await isBuilt(host, "Beam")).toBe(true);
    expect(await sheetsOf(host, template.id)).toEqual(["Beam"]);
  });

  it("goes into a file and comes back", () => {
    const bytes = writeSheets([{ plan: made.plan, values: planValues(made.plan, "Beam")!, sheetName: "Beam" }]);
    const { workbook: book } = openWorkbook(bytes);
    const functions = made.plan.functions!;
    expect(new Map(book.names.map(({ name, reference }) => [name, reference]))).toEqual(
      new Map(functions.map(({ name, formula }) => [name, formula])),
    );
    const cells = new Map(book.sheets[0]!.cells.map((cell) => [`${cell.row} ${cell.column}`, cell.formula]));
    for (const { row, column, formula } of made.plan.cells)
      if (formula?.includes("KERN_")) expect(cells.get(`${row} ${column}`)).toBe(formula);
  });
});
