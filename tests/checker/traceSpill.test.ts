import { all, create } from "mathjs/number";
import { describe, expect, it } from "vitest";
import { calculationNote, collect, Tracer, type TracedCell } from "../../src/checker/index.ts";
import { branchesOf } from "../../src/checker/trace/tree.ts";
import { at, staticHost, type StaticCell } from "./staticHost.ts";

/**
 * A stressing table by hand: a share of 2000 kN over 40000 mm² without losses (2000 kN / 40000 mm² = 50 MPa = 500
 * bar), and the same share of an
 * elongation of 200 mm, counted from the first stage. A host gives the formula of the first cell alone.
 */
const formula = "=KERN.STRESSING_TABLE(B2,0,0,B1,B3,A1:A3)";
const rows = [
  [0.2, 400, 100, 0, 0],
  [0.6, 1200, 300, 80, 80],
  [1, 2000, 500, 160, 80],
] as const;
const table = (overlaid: Readonly<Record<string, StaticCell>> = {}): Readonly<Record<string, StaticCell>> => ({
  A1: 0.2,
  A2: 0.6,
  A3: 1,
  B1: 2000,
  B2: 40000,
  B3: 200,
  ...Object.fromEntries(
    rows.flatMap((row, r) =>
      row.map((v, c): readonly [string, StaticCell] => [
        `${"DEFGH"[c]!}${r + 1}`,
        r === 0 && c === 0 ? { f: formula, v } : v,
      ]),
    ),
  ),
  ...overlaid,
});
const trace = (where: string, cells = table()): Promise<TracedCell> => new Tracer(staticHost(cells)).trace(at(where));

describe("results that fill several cells", () => {
  it("are traced in their first cell, row by row", async () => {
    const {
      calls: [call],
      partOf,
    } = await trace("D1");
    expect(partOf).toBeUndefined();
    expect(call!.call.whole).toBe(true);
    expect(call!.spilled!.rows.map((row) => row.map((n) => Number(n.toFixed(9))))).toEqual(rows);
  });

  it.each([
    ["H3", 2, 4, 80],
    ["E1", 0, 1, 400],
    ["D2", 1, 0, 0.6],
  ] as const)("are found from %s, a cell they fill", async (where, row, column, value) => {
    const { partOf, calls } = await trace(where);
    expect(calls).toEqual([]);
    expect(partOf).toMatchObject({
      anchor: at("D1"),
      address: "D1",
      row,
      column,
      call: { call: { id: "STRESSING_TABLE" } },
    });
    expect(partOf!.call.spilled.rows[row]![column]).toBeCloseTo(value, 9);
  });

  it.each([
    ["a number below them", "D4", 0.5],
    ["a number beside them", "I1", 7],
    ["a number above and left", "A1", 0.2],
  ])("do not claim %s", async (_, where, value) => {
    expect((await trace(where, table({ [where]: value }))).partOf).toBeUndefined();
  });

  it("claim no cell while the host shows an error in the first one, as where something stands in the way", async () => {
    const blocked = table({ D1: { f: formula, error: "#SPILL!" } });
    expect((await trace("F2", blocked)).partOf).toBeUndefined();
    expect((await trace("J1", { ...blocked, J1: { f: "=SUM(D1#)", error: "#REF!" } })).precedents[0]).toMatchObject({
      contents: [],
      problem: "how far its result spills cannot be told",
    });
  });

  it("claim no text, and no formula that stands in their place", async () => {
    expect((await trace("E2", table({ E2: "note" }))).partOf).toBeUndefined();
    expect((await trace("E2", table({ E2: { f: "=1+1", v: 2 } }))).partOf).toBeUndefined();
  });

  it("give a reference to the whole of them all their cells", async () => {
    const {
      precedents: [origin],
    } = await trace("J1", table({ J1: { f: "=MAX(D1#)", v: 2000 } }));
    expect(origin).toMatchObject({ text: "D1#", address: "D1:H3" });
    expect(origin!.contents.map((row) => row.map(({ value }) => value))).toEqual(rows);
  });

  it("say why there are none", async () => {
    const {
      calls: [call],
    } = await trace("D1", table({ A1: 0.8, D1: { f: formula, error: "#VALUE!" } }));
    expect(call!.spilled).toBeUndefined();
    expect(call!.refused!.message).toMatch(/stages must rise/);
  });

  it("lead on from a cell they fill to the first one and its inputs, in the tree and in a note", async () => {
    const tracer = new Tracer(staticHost(table()));
    const cell = await tracer.trace(at("H3"));
    const branches = branchesOf(cell, "Sheet1");
    expect(branches.map(({ address, text, opens }) => [address, text, opens])).toEqual([
      ["D1", "the result it is a part of", true],
    ]);
    expect((await tracer.behind(branches[0]!, "Sheet1")).map(({ address }) => address)).toEqual([
      "B2",
      "B1",
      "B3",
      "A1:A3",
    ]);
    const collected = await collect(tracer, at("H3"), { depth: Infinity });
    const { quantities, inputs } = collected;
    expect(quantities.map(({ address }) => address)).toEqual(["D1", "H3"]);
    expect(inputs.map(({ address }) => address)).toEqual(["B2", "B1", "B3", "A1:A3"]);
    const note = calculationNote(
      collected,
      { date: "1 May 2026", host: "static", depth: Infinity },
      { math: create(all!), mathml: () => "" },
    );
    expect(note.replace(/<[^>]*>/g, "")).toMatch(/Row 3, column 5 of the result in D1: .* in mm\./);
  });
});
