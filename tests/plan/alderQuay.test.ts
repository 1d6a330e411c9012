import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openGridInNode } from "../../src/hosts/grid/index.ts";
import { expand, type Area, type Plan, type Template } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { alderQuay } from "../independent/alderQuay.ts";
import { beam } from "../independent/postTensionedBeam.ts";

type Grid = Awaited<ReturnType<typeof openGridInNode>>;

const template = templates.find((t) => t.id === "post-tensioned-en1992-2004") as Template;
const expected = beam(alderQuay);
const tendons = expected.tendons.length;

let grid: Grid;
let plan: Plan;
const sheet = "Beam";

beforeAll(async () => {
  grid = await openGridInNode();
  plan = expand(template, template.example.inputs);
  await grid.apply(plan, { sheetName: sheet, progress: () => undefined });
}, 60_000);
afterAll(() => grid.dispose());

function areaOf(id: string): Area {
  const meaning = plan.meanings.find((m) => m.id === id);
  if (!meaning) throw new Error(`the sheet has no ${id}`);
  return meaning.at;
}
async function column(id: string): Promise<readonly unknown[]> {
  return (await grid.read(sheet, areaOf(id))).map((row) => row[0]!.error ? `${row[0]!.error.code} ${row[0]!.error.message ?? ""}` : row[0]!.value);
}
/** Agreement to 1e-9: the two computations differ in nothing but rounding and the end of their searches. */
async function agree(id: string, values: readonly number[]): Promise<void> {
  const found = await column(id);
  expect(found, id).toHaveLength(values.length);
  // Relative to the column's own largest value, so that small quantities are held to as many digits.
  const scale = Math.max(...values.map(Math.abs));
  values.forEach((value, i) => {
    const cell = found[i];
    expect(typeof cell, `${id} row ${i + 1}: ${String(cell)}`).toBe("number");
    expect(Math.abs((cell as number) - value), `${id} row ${i + 1}: sheet ${String(cell)}, recomputed ${value}`).toBeLessThanOrEqual(1e-9 * scale);
  });
}

describe("the example sheet in the grid against a full recomputation straight from the equations", () => {
  const r = expected.rows;
  const perTendon = <T>(pick: (row: (typeof r)[number], j: number) => T): T[] => Array.from({ length: tendons }, (_, j) => r.map((row) => pick(row, j))).flat();
  const perStation = <T>(pick: (row: (typeof r)[number], j: number) => T): T[] => r.flatMap((row) => Array.from({ length: tendons }, (_, j) => pick(row, j)));

  test.each<[string, () => readonly number[]]>([
    ["Ac", () => [expected.Ac]], ["yb", () => [expected.yb]], ["Ic", () => [expected.Ic]], ["u", () => [expected.u]], ["h0", () => [expected.h0]],
    ["fcm", () => [expected.fcm]], ["fctm", () => [expected.fctm]], ["Ecm", () => [expected.Ecm / 1000]], ["fckt0", () => [expected.fckt0]], ["fcmt", () => [expected.fcmt]],
    ["fctmt", () => [expected.fctmt]], ["Ecmt", () => [expected.Ecmt / 1000]], ["phi", () => [expected.phi]], ["ecsEnd", () => [expected.ecsEnd]], ["ecs0", () => [expected.ecs0]],
    ["sigjLimit", () => [expected.limits.jack]], ["sp0Limit", () => [expected.limits.initial]], ["spServiceLimit", () => [expected.limits.service]],
    ["g", () => [expected.g]], ["ApTotal", () => [expected.Aps]],
    ["sstar", () => expected.tendons.map((t) => t.level)], ["la", () => expected.tendons.map((t) => t.la / 1000)],
    ["x", () => r.map((row) => row.x / 1000)],
    ["Mg", () => r.map((row) => row.Mg / 1e6)], ["Ms", () => r.map((row) => row.Ms / 1e6)], ["Mq", () => r.map((row) => row.Mq / 1e6)], ["Ml", () => r.map((row) => row.Ml / 1e6)],
    ["e", () => perTendon((row, j) => expected.tendons[j]!.e(row.x))],
    ["theta", () => perTendon((row, j) => expected.tendons[j]!.theta(row.x))],
    ["sfr", () => perTendon((row, j) => expected.tendons[j]!.friction(row.x))],
    ["sdr", () => perTendon((row, j) => expected.tendons[j]!.after(row.x))],
    ["del", () => perStation((row, j) => row.del[j]!)],
    ["sp0t", () => perTendon((row, j) => row.sp0t[j]!)], ["P0t", () => perTendon((row, j) => row.P0t[j]! / 1000)],
    ["Anet", () => r.map((row) => row.Anet)], ["ynet", () => r.map((row) => row.ynet)], ["Inet", () => r.map((row) => row.Inet)],
    ["Atr", () => r.map((row) => row.Atr)], ["ytr", () => r.map((row) => row.ytr)], ["Itr", () => r.map((row) => row.Itr)],
    ["P0", () => r.map((row) => row.P0 / 1000)], ["e0", () => r.map((row) => row.e0)], ["sp0", () => r.map((row) => row.sp0)],
    ["scQP", () => r.map((row) => row.scQP)], ["spr", () => r.map((row) => row.spr)], ["dpr", () => r.map((row) => row.dpr)], ["dcsr", () => r.map((row) => row.dcsr)],
    ["lSh", () => r.map((row) => row.shrinkage)], ["lCr", () => r.map((row) => row.creep)], ["lRe", () => r.map((row) => row.relaxation)],
    ["spChar", () => r.map((row) => row.spChar)],
    ["spInf", () => r.map((row) => row.spInf)], ["Pinf", () => r.map((row) => row.Pinf / 1000)],
    ["vmin", () => expected.stages.flatMap((s) => s.at.map((a) => a.min))], ["vmax", () => expected.stages.flatMap((s) => s.at.map((a) => a.max))],
    ["vtop", () => expected.stages.flatMap((s) => s.at.map((a) => a.top))], ["vbot", () => expected.stages.flatMap((s) => s.at.map((a) => a.bottom))],
    ["uc", () => expected.stages.flatMap((s) => s.at.map((a) => a.uc))], ["fc", () => expected.stages.map((s) => s.fc)], ["ft", () => expected.stages.map((s) => s.ft)],
    ["ut", () => expected.stages.flatMap((s) => s.at.map((a) => a.ut))], ["gt", () => expected.stages.map((s) => Math.max(...s.at.map((a) => a.ut)))],
    ["uTension", () => [Math.max(...expected.stages.flatMap((s) => s.at.map((a) => a.ut)))]],
    ["elong", () => expected.tendons.map((t) => t.elongation)], ["elongAfter", () => expected.tendons.map((t) => t.elongation - alderQuay.slip)], ["rmin", () => expected.tendons.map((t) => t.radius / 1000)],
    ["Pj", () => expected.tendons.map((t) => (t.sigj * t.Ap) / 1000)],
    ["lFr", () => expected.losses.map((l) => l.friction)], ["lEl", () => expected.losses.map((l) => l.elastic)], ["lTotal", () => expected.losses.map((l) => l.total)], ["lPct", () => expected.losses.map((l) => l.total / expected.sigjMean)],
    ["ktMax", () => expected.tendons.map((_, j) => Math.max(...r.map((row) => row.sp0t[j]!)))],
    ["uJack", () => [Math.max(...expected.tendons.map((t) => t.sigj)) / expected.limits.jack]], ["uInitial", () => [Math.max(...r.flatMap((row) => row.sp0t)) / expected.limits.initial]],
    ["spServiceMax", () => [Math.max(...r.map((row) => row.spChar)) / expected.limits.service]], ["strengthReached", () => [alderQuay.fckt / expected.fckt0]],
    ["ftFreq", () => [-expected.fctm]], ["ftQP", () => [0]],
    ["gc", () => expected.stages.map((s) => Math.max(...s.at.map((a) => a.uc)))],
    ["uCompression", () => [Math.max(...expected.stages.flatMap((s) => s.at.map((a) => a.uc)))]],
  ])("%s", async (id, values) => agree(id, values()));

  test("verdicts", async () => {
    expect(await column("vok")).toEqual(expected.stages.flatMap((s) => s.at.map((a) => (a.ok ? "OK" : "FAIL"))));
    const { overall, checks } = plan.summary;
    expect((await grid.read(sheet, { ...overall, rows: 1, columns: 1 }))[0]![0]!.value).toBe("OK");
    for (const check of checks) {
      expect((await grid.read(sheet, { ...check.verdict, rows: 1, columns: 1 }))[0]![0]!.value, check.description).toBe("OK");
      expect((await grid.read(sheet, { ...check.where, rows: 1, columns: 1 }))[0]![0]!.text, check.description).not.toBe("");
    }
  });

  test("no cell holds an error", async () => {
    const cells = await grid.read(sheet, { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
    const errors = cells.flatMap((row, i) => row.flatMap((cell, j) => (cell.error ? [`row ${i + 1} column ${j + 1}: ${cell.formula} ${cell.error.code} ${cell.error.message ?? ""}`] : [])));
    expect(errors).toEqual([]);
  });
});
