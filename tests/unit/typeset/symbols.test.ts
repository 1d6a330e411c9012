import { describe, expect, it } from "vitest";
import { symbolParts, symbolTex } from "../../../src/typeset/index.ts";

const parts = (symbol: string): readonly string[] =>
  symbolParts(symbol).map(({ base, sub }) => (sub ? `${base}|${sub}` : base));

describe("a trade symbol", () => {
  it.each([
    ["σ_p0", ["σ|p0"]],
    ["f_ck,0.05", ["f|ck,0.05"]],
    ["Δσ_p,c+s+r", ["Δσ|p,c+s+r"]],
    ["β_c(t,t_0)", ["β|c", "(", "t", ",", "t|0", ")"]],
    ["P_i/P", ["P|i", "/", "P"]],
    ["(E_p/E_cm)", ["(", "E|p", "/", "E|cm", ")"]],
    ["r·σ_c,p", ["r", "·", "σ|c,p"]],
  ] as const)("%s is parted at brackets and at what joins two symbols", (symbol, expected) =>
    expect(parts(symbol)).toEqual(expected),
  );

  it("is set with a fraction bar and a product that belong to no subscript", () => {
    expect(symbolTex("f_pi/f_pu")).toBe("{f}_{\\mathrm{pi}}/{f}_{\\mathrm{pu}}");
    expect(symbolTex("r·σ_c")).toBe("r\\cdot {\\sigma}_{\\mathrm{c}}");
  });
});
