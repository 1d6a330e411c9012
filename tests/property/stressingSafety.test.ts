import { describe, expect, it } from "vitest";
import { formulas, run, runSpill, spills, warnings, type Argument } from "../../src/core/index.ts";

const kern = (id: string, ...args: Argument[]): number =>
  run(
    formulas.find((f) => f.id === id)!,
    args,
  );
const told = (id: string, ...args: Argument[]): readonly string[] =>
  warnings(
    formulas.find((f) => f.id === id)!,
    args,
  );

// What a slip of one digit can do at the jack. The limits are common practice, no source: usual ratings of 700 bar, gauges up to 2000 bar.
describe("stressing instructions that no equipment stands for", () => {
  it("refuses a force that takes more than 2000 bar with the ram given", () => {
    // 2000 kN on 40 000 mm² without losses: 50 MPa, 500 bar. With 4000 mm² it would be 5000 bar.
    expect(kern("GAUGE_PRESSURE", 40000, 0, 0, 2000)).toBeCloseTo(500, 9);
    expect(() => kern("GAUGE_PRESSURE", 4000, 0, 0, 2000)).toThrow(
      /2000 kN is above 800 kN, the force that takes 2000 bar with this ram/,
    );
    expect(() => kern("GAUGE_PRESSURE", 4000, 0, 0, 2000, 0.5)).toThrow(/check the area/);
    expect(() =>
      runSpill(
        spills.find((f) => f.id === "STRESSING_TABLE")!,
        [4000, 0, 0, 2000, 150, [[0.2], [1]]],
      ),
    ).toThrow(/check the area/);
  });
  it("warns above 700 bar", () => {
    expect(told("GAUGE_PRESSURE", 40000, 0, 0, 2000)).toEqual([]);
    expect(told("GAUGE_PRESSURE", 20000, 0, 0, 2000).join()).toMatch(/1000 bar, above the usual 700 bar/);
  });
  it("warns where the take-up of a nut asks for much more at the jack", () => {
    // 3 mm in 1 m at 205 GPa: 615 MPa more.
    expect(kern("LOCK_OFF", 1, 205, 3, "JACKING_STRESS", 1000)).toBeCloseTo(1615, 9);
    expect(told("LOCK_OFF", 1, 205, 3, "JACKING_STRESS", 1000).join()).toMatch(/615 MPa more than the 1000 MPa/);
    expect(told("LOCK_OFF", 10, 205, 1, "JACKING_STRESS", 700)).toEqual([]);
  });
  it("counts strokes whole: one more for what is left over, none for the last bits of a division", () => {
    for (let stroke = 100; stroke < 600; stroke += 0.07)
      for (const strokes of [1, 3, 5, 7, 12])
        expect(
          kern("JACK_STROKES", Number(stroke.toFixed(2)), strokes * Number(stroke.toFixed(2))),
          `${strokes} × ${stroke.toFixed(2)}`,
        ).toBe(strokes);
    expect(kern("JACK_STROKES", 499.96, 2499.8)).toBe(5);
    expect(kern("JACK_STROKES", 500, 2500.8)).toBe(6);
    expect(kern("JACK_STROKES", 500, 0)).toBe(0);
  });
});
