import { describe, expect, test } from "vitest";
import { templates } from "../../src/templates/index.ts";
import { builtSheet } from "./builtSheet.ts";

// The region and the cable zone compute by half-planes and by eccentricities; the check by stresses. At the design's
// own point all three must say the same.
describe("the region of force and eccentricity against the check of stresses", () => {
  test.each([
    ["post-tensioned-en1992-2004", 1],
    ["post-tensioned-en1992-2004", 1.28],
    ["pre-tensioned-en1992-2004", 1.04],
    ["pre-tensioned-is1343-1980", 1],
  ] as const)("%s with %f times the variable load", (id, times) => {
    const { inputs } = templates.find((t) => t.id === id)!.example;
    const set = { ...inputs, ql: (inputs["ql"] as number) * times };
    const check = builtSheet(id, set);
    const built = builtSheet(`feasible-domain-${id}`, { ...set, edge: id.startsWith("post") ? 140 : 60 });
    const numbers = (row: string): readonly number[] =>
      (row.startsWith("rg") || row.startsWith("ze") ? built : check).column(row) as readonly number[];
    const [x, fc, ft, max, min] = [numbers("vx"), numbers("vfc"), numbers("vft"), numbers("vmax"), numbers("vmin")];
    const distance = x.map((_, i) => Math.min(fc[i]! - max[i]!, min[i]! - ft[i]!));
    const at = (place: number): number => Math.min(...distance.filter((_, i) => Math.abs(x[i]! - place) < 1e-9));
    const [middle] = numbers("xMid");
    expect(numbers("rgMargin")[0]).toBeCloseTo(at(middle!), 9);
    const stations = numbers("zeX");
    built.column("zeIn").forEach((says, i) => {
      if (says !== "–") expect(says, `station ${i + 1}`).toBe(at(stations[i]!) >= 0 ? "inside" : "outside");
    });
    // The sheet's own verdict is of the same distances.
    const { checks } = built.verdicts();
    expect(checks[0]!.verdict).toBe(at(middle!) >= 0 ? "OK" : "FAIL");
    const outside = built.column("zeIn").includes("outside");
    expect(checks[1]!.verdict).toBe(outside ? "FAIL" : "OK");
  });

  test("says what is missing instead of a region", () => {
    const { inputs } = templates.find((t) => t.id === "post-tensioned-en1992-2004")!.example;
    for (const [edge, says] of [
      [null, "no edge distance"],
      [900, "no room"],
    ] as const) {
      const built = builtSheet("feasible-domain-post-tensioned-en1992-2004", { ...inputs, edge });
      expect(built.column("rgCorners")).toEqual([says]);
      expect(built.column("rgLeast")).toEqual([says]);
    }
  });
});
