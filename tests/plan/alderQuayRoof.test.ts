import { beforeAll, describe, expect, test } from "vitest";
import { alderQuayRoof } from "../independent/alderQuayRoof.ts";
import { preTensionedBeam } from "../independent/preTensionedBeam.ts";
import { builtSheet, type BuiltSheet } from "./builtSheet.ts";

const expected = preTensionedBeam(alderQuayRoof);

let built: BuiltSheet;
beforeAll(() => {
  built = builtSheet("pre-tensioned-en1992-2004");
}, 180_000);

describe("the pre-tensioned example in the grid against a full recomputation straight from the equations", () => {
  const r = expected.rows;
  const each = (pick: (row: (typeof r)[number]) => readonly number[]): number[] => r.flatMap((row) => [...pick(row)]);
  const stages = <T>(pick: (at: (typeof expected.stages)[number]["at"][number]) => T): T[] =>
    expected.stages.flatMap((s) => s.at.map(pick));

  test.each<[string, () => readonly number[]]>([
    ["Ac", () => [expected.Ac]],
    ["yb", () => [expected.yb]],
    ["Ic", () => [expected.Ic]],
    ["u", () => [expected.u]],
    ["h0", () => [expected.h0]],
    ["g", () => [expected.g]],
    ["fcm", () => [expected.fcm]],
    ["fctm", () => [expected.fctm]],
    ["Ecm", () => [expected.Ecm / 1000]],
    ["fcmt", () => [expected.fcmt]],
    ["fctmt", () => [expected.fctmt]],
    ["Ecmt", () => [expected.Ecmt / 1000]],
    ["t0T", () => [expected.t0T]],
    ["phi", () => [expected.phi]],
    ["phiG", () => [expected.phiG]],
    ["phiQ", () => [expected.phiQ]],
    ["ecsEnd", () => [expected.ecsEnd]],
    ["ecs0", () => [expected.ecs0]],
    ["sigjLimit", () => [expected.limits.jack]],
    ["sp0Limit", () => [expected.limits.initial]],
    ["spServiceLimit", () => [expected.limits.service]],
    ["tEq", () => [expected.tEq]],
    ["tRelease", () => [expected.tRelease]],
    ["heatLoss", () => [expected.heat]],
    ["bDraw", () => expected.bed.map(() => expected.draw)],
    ["bRel", () => expected.bed.map((b) => b.relaxation)],
    ["sr", () => expected.bed.map((b) => b.sr)],
    ["bElong", () => expected.bed.map((b) => b.elongation)],
    ["rs0", () => expected.transmission.map((t) => t.s0)],
    ["fbpt", () => [expected.fbpt]],
    ["lpt", () => expected.transmission.map((t) => t.lpt)],
    ["lpt1", () => expected.transmission.map((t) => t.lpt1)],
    ["lpt2", () => expected.transmission.map((t) => t.lpt2)],
    ["ldisp", () => expected.transmission.map((t) => t.ldisp)],
    ["x", () => r.map((row) => row.x / 1000)],
    ["Mg", () => r.map((row) => row.Mg / 1e6)],
    ["Ms", () => r.map((row) => row.Ms / 1e6)],
    ["Mq", () => r.map((row) => row.Mq / 1e6)],
    ["Ml", () => r.map((row) => row.Ml / 1e6)],
    ["sy", () => each((row) => row.y)],
    ["b1", () => each((row) => row.b1)],
    ["b2", () => each((row) => row.b2)],
    ["sp0r", () => each((row) => row.sp0r)],
    ["sP1", () => each((row) => row.sP1.map((P) => P / 1000))],
    ["sP2", () => each((row) => row.sP2.map((P) => P / 1000))],
    ["P0", () => r.map((row) => row.P0 / 1000)],
    ["P02", () => r.map((row) => row.P02 / 1000)],
    ["eAll", () => r.map((row) => row.eAll)],
    ["sp0", () => r.map((row) => row.sp0)],
    ["scT", () => r.map((row) => row.scT)],
    ["scQP", () => r.map((row) => row.scQP)],
    ["spr", () => r.map((row) => row.spr)],
    ["dpr", () => r.map((row) => row.dpr)],
    ["dcsr", () => r.map((row) => row.dcsr)],
    ["spChar", () => r.map((row) => row.spChar)],
    ["Pinf", () => r.map((row) => row.Pinf / 1000)],
    ["Pinf2", () => r.map((row) => row.Pinf2 / 1000)],
    ["lBed", () => expected.losses.map((l) => l.bed)],
    ["lEl", () => expected.losses.map((l) => l.elastic)],
    ["lSh", () => r.map((row) => row.byShrinkage)],
    ["lCr", () => r.map((row) => row.creep)],
    ["lRe", () => r.map((row) => row.relaxation)],
    ["lTotal", () => expected.losses.map((l) => l.total)],
    ["lPct", () => expected.losses.map((l) => l.total / expected.sigjMean)],
    ["ft0", () => r.map((row) => row.before[0]!)],
    ["fb0", () => r.map((row) => row.before[1]!)],
    ["ftInf", () => r.map((row) => row.lateLower[0]!)],
    ["fbInf", () => r.map((row) => row.lateLower[1]!)],
    ["ftInf2", () => r.map((row) => row.lateUpper[0]!)],
    ["fbInf2", () => r.map((row) => row.lateUpper[1]!)],
    ["fc", () => expected.stages.map((s) => s.fc)],
    ["ft", () => expected.stages.map((s) => s.ft)],
    ["vmin", () => stages((a) => a.min)],
    ["vmax", () => stages((a) => a.max)],
    ["vtop", () => stages((a) => a.top)],
    ["vbot", () => stages((a) => a.bottom)],
    ["uc", () => stages((a) => a.uc)],
    ["uJack", () => [Math.max(...expected.bed.map((b) => b.sigj)) / expected.limits.jack]],
    [
      "uInitial",
      () => [Math.max(...r.flatMap((row) => row.sp0r.map((s, i) => s * row.b1[i]!))) / expected.limits.initial],
    ],
    ["spServiceMax", () => [Math.max(...r.map((row) => row.spChar)) / expected.limits.service]],
    ["uCompression", () => [Math.max(...stages((a) => a.uc))]],
  ])("%s", (id, values) => built.agree(id, values()));

  test("verdicts", () => {
    expect(built.column("vok")).toEqual(stages((a) => (a.ok ? "OK" : "FAIL")));
    const { overall, checks } = built.verdicts();
    for (const { description, verdict, where } of checks) {
      expect(verdict, description).toBe("OK");
      expect(where, description).not.toBe("");
    }
    expect(overall).toBe("OK");
  });

  test("no cell holds an error", () => expect(built.errors()).toEqual([]));
});
