import { describe, expect, it } from "vitest";
import { designFunctions, plain, search } from "../../../taskpane/insert/search.ts";

const ids = (query: string): readonly string[] => search(query).map(({ id }) => id);

describe("searching functions", () => {
  it("finds by words of name and meaning, the best first", () => {
    expect(ids("friction")[0]).toMatch(/^FRICTION/);
    expect(ids("friction stress")[0]).toMatch(/^FRICTION_STRESS/);
    expect(ids("creep coefficient en1992")[0]).toBe("CREEP_COEFFICIENT_EN1992_2004");
    expect(ids("shrinkage 1343")).toContain("SHRINKAGE_STRAIN_IS1343_1980");
  });
  it("finds by symbol, in Greek or by name, with or without the underscore", () => {
    for (const query of ["σp0", "sigma_p0", "σ_p0"]) expect(ids(query), query).toContain("FRICTION_STRESS");
    for (const query of ["f_ck", "fck"]) expect(ids(query), query).toContain("CONCRETE_MEAN_STRENGTH_EN1992_2004");
    expect(ids("μ")).toContain("FRICTION_STRESS_LINEAR");
    expect(plain("ΔΣ_∞")).toBe("deltasigmainf");
  });
  it("finds by clause, equation and standard", () => {
    expect(ids("5.10.6")).toContain("TIME_DEPENDENT_LOSS_EN1992_2004");
    expect(ids("8.16")).toContain("TRANSMISSION_LENGTH_EN1992_2004");
    expect(ids("18.6.1.1")).toEqual(["TRANSMISSION_LENGTH_IS1343_1980"]);
  });
  // The words of the trade that no function has in its name or summary; common practice, no source.
  it.each([
    ["wedge set", /^DRAW_IN/],
    ["lock-off", /^(LOCK_OFF|ANCHORED_STRESS)/],
    ["anchorage zone", /^(BURSTING_FORCE|ANCHORAGE_TIE)/],
    ["moment capacity", /^(MIN_)?MOMENT_RESISTANCE/],
    ["shear capacity", /^SHEAR_RESISTANCE/],
    ["long-term loss", /^TIME_DEPENDENT_LOSS/],
    ["jacking force", /^JACK/],
    ["elastic shortening", /^ELASTIC_LOSS/],
    ["transfer length", /^TRANSMISSION_LENGTH/],
    ["stirrups", /^LINK|^SHEAR_RESISTANCE_LINKS/],
    ["prestress", /PRESTRESS/],
  ])("knows what the trade calls it: %s", (query, wanted) => {
    expect(ids(query)[0]).toMatch(wanted);
  });
  it("asks for every word, takes what is typed in a cell, and lists all for nothing", () => {
    expect(ids("friction zebra")).toEqual([]);
    expect(ids("KERN.BOND_FRACTION")[0]).toBe("BOND_FRACTION");
    expect(search("  ")).toBe(designFunctions);
  });
});
