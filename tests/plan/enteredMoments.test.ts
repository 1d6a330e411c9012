/** Moments of spread loads between the points at which they are entered. */
import { describe, expect, test } from "vitest";
import type { Inputs } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { computedSheet, type Computation } from "../draws/sheet.ts";

const post = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
const sheet = (set: Inputs): Computation => computedSheet(post, { ...set });
const numbers = (computed: Computation, id: string) => computed.valuesOf(id).map(Number);

// q L²/8 and q L/2 of 15 and 6 kN/m over 24 m; self-weight of 0.4563 m² as the sheet says, 25 kN/m³.
const g = 25e-6 * numbers(sheet({}), "Ac")[0]!;
const moments: Inputs = {
  loads: "MOMENTS",
  furG: [0, (g * 24 ** 2) / 8, 0],
  furS: [0, 432, 0],
  furQ: [0, 1080, 0],
};
const shears: Inputs = {
  furVg: [12 * g, 0, -12 * g],
  furVs: [72, 0, -72],
  furVq: [180, 0, -180],
};

describe("three points of moments of uniform loads", () => {
  test("with their shears: the moments of the uniform loads at every station", () => {
    const computed = sheet({ ...moments, ...shears });
    const x = numbers(computed, "x");
    for (const [id, w] of [
      ["Mg", g],
      ["Ms", 6],
      ["Mq", 15],
    ] as const)
      numbers(computed, id).forEach((M, i) =>
        expect(M, `${id} at ${x[i]}`).toBeCloseTo((w * x[i]! * (24 - x[i]!)) / 2, 6),
      );
    expect(computed.warnings).toEqual([]);
    expect(computed.overall).toBe("OK");
  });

  test("a design that fails under uniform loads fails under their moments and shears too", () => {
    // The bottom tendons flat to the quarter points: −4.4 MPa there is lost where moments run straight.
    const flat: Inputs = {
      points: 5,
      likeT: [null, null, null],
      cpL: [0, 0.25, 0.5, 0.75, 1, 0, 0.25, 0.5, 0.75, 1, 0, 0.25, 0.5, 0.75, 1],
      cpFrom: Array.from({ length: 15 }, () => "CENTROID"),
      cpy: [-200, -200, 550, -200, -200, -200, -200, 550, -200, -200, -320, -300, 400, -300, -320],
      cpShape: Array.from({ length: 15 }, () => "LINE"),
      zt: [0, 0, 0],
      detailing: "NO",
    };
    const uniform = sheet(flat);
    const entered = sheet({ ...flat, ...moments, ...shears });
    expect(uniform.check("uTension").verdict).toBe("FAIL");
    expect(entered.check("uTension").verdict).toBe("FAIL");
    const lowest = (computed: Computation) => Math.min(...numbers(computed, "vmin"));
    expect(lowest(entered)).toBeCloseTo(lowest(uniform), 6);
  });

  test("without shears, or with shears that do not fit: warned of, with the points", () => {
    for (const set of [{ web: "NO" }, { ...shears, web: "NO", furVq: [180, 45, -180] }]) {
      const computed = sheet({ ...moments, ...set });
      expect(computed.warnings.filter((one) => one.includes("from xδ,0 = 0 m to xδ = 12 m"))).toHaveLength(1);
      expect(computed.overall).toBe("WARNINGS");
    }
    // (180 + 45)/2 · 12 = 1350 against 1080.
    expect(numbers(sheet({ ...moments, ...shears, furVq: [180, 45, -180] }), "furOff")[1]).toBeCloseTo(0.25, 9);
  });
});
