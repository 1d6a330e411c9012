import { describe, expect, it } from "vitest";
import { a1, type Address } from "../../src/cells/index.ts";
import { compare } from "../../src/checker/index.ts";
import type { CellContent, Host } from "../../src/hosts/index.ts";
import { builtBook } from "./books.ts";

/** A sheet on a host that shows some cells otherwise than their formulas give. */
async function showing(change: (cell: CellContent, at: Address) => CellContent) {
  const { host, plan } = await builtBook("post-tensioned-en1992-2004");
  const read: Host["read"] = async (sheet, area) =>
    (await host.read(sheet, area)).map((row, r) =>
      row.map((cell, c) => change(cell, { row: area.row + r, column: area.column + c })),
    );
  const other = new Proxy(host, {
    get: (target, key) => {
      if (key === "read") return read;
      const value: unknown = Reflect.get(target, key, target);
      return typeof value === "function" ? (value.bind(target) as unknown) : value;
    },
  });
  return { plan, compared: async () => (await compare(other, "Beam"))! };
}

describe("a value that the program shows", () => {
  it("is serious where its formula gives another, with the verdict that follows from it", async () => {
    const { plan } = await showing((cell) => cell);
    const check = plan.summary.checks[0]!;
    const same = (at: Address, other: Address) => at.row === other.row && at.column === other.column;
    const { compared } = await showing((cell, at) => {
      if (same(at, check.utilisation)) return { ...cell, value: 1.2, text: "1.20" };
      return same(at, check.verdict) ? { ...cell, value: "FAIL", text: "FAIL" } : cell;
    });
    const { findings } = await compared();
    const serious = findings.filter(({ kind, grade }) => kind === "value not recomputed" && grade === "serious");
    const places = serious.flatMap(({ at, rows = 1 }) =>
      at ? Array.from({ length: rows }, (_, i) => a1({ row: at.row + i, column: at.column })) : [],
    );
    expect(places).toEqual(expect.arrayContaining([a1(check.utilisation), a1(check.verdict)]));
  });
});
