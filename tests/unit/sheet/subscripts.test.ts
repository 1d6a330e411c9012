/** Subscripts in the texts of a sheet: the cell keeps the plain text and says which letters are lowered. */
import { describe, expect, test } from "vitest";
import { expand, plainSymbol } from "../../../src/sheet/index.ts";
import { markedSymbol, typeset, withoutMarks } from "../../../src/sheet/subscripts.ts";
import { q } from "../../../src/core/index.ts";
import type { GridRuntime } from "../../../src/hosts/grid/runtime.ts";
import { subscriptsOf, withSubscripts } from "../../../src/hosts/grid/subscripts.ts";
import { allTemplates } from "../../../src/templates/index.ts";

/** Lowered letters in brackets. */
function shown(symbol: string): string {
  const { text, lowered } = typeset(markedSymbol(symbol));
  return [...lowered].reverse().reduce((out, [a, b]) => `${out.slice(0, a)}[${out.slice(a, b)}]${out.slice(b)}`, text);
}

test.each([
  ["σ_p0", "σ[p0]"],
  ["Δσ_p,c+s+r", "Δσ[p,c+s+r]"],
  ["φ(t_∞,t_0)", "φ(t[∞],t[0])"],
  ["v(t_∞)_inf", "v(t[∞])[inf]"],
  ["max(c_min,b; c_min,dur) + Δc_dev", "max(c[min,b]; c[min,dur]) + Δc[dev]"],
  ["t_r0+t_eq", "t[r0]+t[eq]"],
  ["f_c−σ", "f[c]−σ"],
  ["M_Rd/M_cr", "M[Rd]/M[cr]"],
  ["M_cr,−/M_Rd,−, as for sagging", "M[cr,−]/M[Rd,−], as for sagging"],
  ["f_p0.1k, or f_pk.", "f[p0.1k], or f[pk]."],
  ["γ_G·(M_g, M_s)", "γ[G]·(M[g], M[s])"],
  ["FROM_LEVEL: parabola; ELASTIC_LOSS_EN1992_2004", "FROM_LEVEL: parabola; ELASTIC_LOSS_EN1992_2004"],
  ["no symbol", "no symbol"],
])("%s", (symbol, wanted) => expect(shown(symbol)).toBe(wanted));

test("without subscripts each symbol reads as it always did", () => {
  const symbols = Object.values(q).map(({ symbol }) => symbol);
  for (const symbol of symbols) expect(withoutMarks(markedSymbol(symbol))).toBe(plainSymbol(symbol));
});

describe.each(allTemplates.map((template) => [template.id, template] as const))("%s", (_id, template) => {
  const plan = expand(template, template.example.inputs);

  test("no mark stays in a cell, and what is lowered lies within the text, in order", () => {
    for (const { value, formula, lowered } of plan.cells) {
      expect(withoutMarks(formula ?? "")).toBe(formula ?? "");
      if (typeof value === "string") expect(withoutMarks(value)).toBe(value);
      const edges = (lowered ?? []).flat();
      expect([...edges].sort((a, b) => a - b)).toEqual(edges);
      if (lowered) expect(edges.at(-1)).toBeLessThanOrEqual(String(value).length);
    }
  });

  test("symbols in the column of symbols and in headings have their subscripts", () => {
    const meant = new Set(
      plan.meanings
        .map(({ symbol }) => symbol)
        .filter((symbol) => /^[^ ()/·]_\w+$/.test(symbol))
        .map(plainSymbol),
    );
    const symbols = plan.cells.filter(
      ({ role, value }) => ["symbol", "tableSymbol"].includes(role) && meant.has(String(value)),
    );
    expect(symbols.length).toBeGreaterThan(0);
    for (const { value, lowered } of symbols) expect(lowered, String(value)).toEqual([[1, String(value).length]]);
  });
});

describe("in a cell of the grid", () => {
  // What of the grid these two ask for.
  const core = {
    BooleanNumber: { TRUE: 1 },
    BaselineOffset: { SUBSCRIPT: 2 },
    CellValueType: { STRING: 1 },
  } as unknown as GridRuntime["core"];
  const lowered = [[1, 3]] as const;

  test.each([
    ["a text that fits", 20],
    ["a text that runs on", 2],
  ])("%s keeps what is lowered", (_, width) => {
    const cell = { v: "σp0 =", ...withSubscripts(core, "σp0 =", lowered, {}, width) };
    expect(subscriptsOf(core, cell)).toEqual(lowered);
  });

  test("another text in place of one that ran on has nothing lowered", () => {
    // What is typed is merged into what the cell holds.
    const cell = { v: "σp0 =", ...withSubscripts(core, "σp0 =", lowered, {}, 2) };
    expect(subscriptsOf(core, { ...cell, v: "another text" })).toEqual([]);
    expect(subscriptsOf(core, { ...cell, v: 12 })).toEqual([]);
  });
});
