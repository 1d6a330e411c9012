import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formulas, NoResult, run, type Argument } from "../../src/core/index.ts";
import { between } from "./draws.ts";

const call = (id: string, ...args: readonly Argument[]): number =>
  run(
    formulas.find((f) => f.id === `${id}_EN1992_2004`)!,
    args,
  );

describe("crack width and decompression by Table 7.1N", () => {
  test("the rows of the table", () => {
    const width = (exposure: string, member: string, combination: string): number | string => {
      try {
        return call("CRACK_CONTROL", exposure, member, combination, "CRACK_WIDTH");
      } catch (error) {
        if (!(error instanceof NoResult)) throw error;
        return error.message.includes("instead of a crack width") ? "decompression" : "other combination";
      }
    };
    const asks = (exposure: string, member: string): readonly number[] =>
      ["CHARACTERISTIC", "FREQUENT", "QUASI_PERMANENT"].map((c) =>
        call("CRACK_CONTROL", exposure, member, c, "DECOMPRESSION"),
      );
    expect(["X0_XC1", "XC2_XC4", "XD_XS"].map((e) => width(e, "BONDED", "FREQUENT"))).toEqual([
      0.2,
      0.2,
      "decompression",
    ]);
    expect(["X0_XC1", "XC2_XC4", "XD_XS"].map((e) => width(e, "UNBONDED", "QUASI_PERMANENT"))).toEqual([0.4, 0.3, 0.3]);
    for (const e of ["X0_XC1", "XC2_XC4", "XD_XS"]) {
      expect(width(e, "BONDED", "CHARACTERISTIC")).toBe("other combination");
      expect(width(e, "BONDED", "QUASI_PERMANENT")).toBe("other combination");
      expect(width(e, "UNBONDED", "FREQUENT")).toBe("other combination");
      expect(asks(e, "UNBONDED")).toEqual([0, 0, 0]);
    }
    expect(asks("X0_XC1", "BONDED")).toEqual([0, 0, 0]);
    expect(asks("XC2_XC4", "BONDED")).toEqual([0, 0, 1]);
    expect(asks("XD_XS", "BONDED")).toEqual([0, 1, 1]);
  });

  test("the limit of the fibre leaves no stress where the compressed concrete is to end", () => {
    fc.assert(
      fc.property(between(0, 30), between(200, 3000), between(0, 0.5), between(0, 100), (far, h, part, d) => {
        const a = part * h;
        const edge = call("DECOMPRESSION_LIMIT", h, a, far, d);
        expect(edge).toBeLessThanOrEqual(0);
        // FIBRE_STRESS along the height of a section of unit width with the two edge stresses.
        const at = (s: number): number => edge + ((far - edge) * s) / h;
        if (a > d) expect(at(a - d)).toBeCloseTo(0, 9);
        else expect(Math.abs(edge)).toBe(0);
      }),
    );
  });
});

describe("direct compression to IS 1343:1980", () => {
  test("bears 0.8 of what bending bears", () => {
    const is = (id: string, ...args: readonly Argument[]): number =>
      run(
        formulas.find((f) => f.id === `${id}_IS1343_1980`)!,
        args,
      );
    expect(is("COMPRESSION_LIMIT_DIRECT", is("COMPRESSION_LIMIT", 60, "SERVICE", null, null, "I"))).toBeCloseTo(
      0.8 * 0.35 * 60,
      9,
    );
    expect(is("COMPRESSION_LIMIT_DIRECT", 15)).toBeCloseTo(12, 12);
  });
});

describe("stressing in steps", () => {
  test("both ends of the line, and nothing below it", () => {
    expect(call("PARTIAL_FORCE", 40, "FORCE", 20)).toBeCloseTo(0.3, 12);
    expect(call("PARTIAL_FORCE", 40, "FORCE", 40)).toBeCloseTo(1, 12);
    expect(call("PARTIAL_FORCE", 40, "FORCE", 50)).toBeCloseTo(1, 12);
    expect(call("PARTIAL_FORCE", 40, "FORCE", 30)).toBeCloseTo(0.65, 12);
    expect(() => call("PARTIAL_FORCE", 40, "FORCE", 19.9)).toThrow(/below 20 MPa/);
    expect(call("PARTIAL_FORCE", 40, "STRENGTH", null, 0)).toBeCloseTo(20, 12);
    expect(call("PARTIAL_FORCE", 40, "STRENGTH", null, 1)).toBeCloseTo(40, 12);
  });

  test("strength and force undo each other", () => {
    fc.assert(
      fc.property(between(15, 60), between(0.3, 0.8), between(0.1, 0.6), between(0, 1), (full, k4, k5, s) => {
        const share = k5 + (1 - k5) * s;
        const strength = call("PARTIAL_FORCE", full, "STRENGTH", null, share, k4, k5);
        expect(call("PARTIAL_FORCE", full, "FORCE", strength * (1 + 1e-12), null, k4, k5)).toBeCloseTo(share, 9);
      }),
    );
  });

  test("overstressing goes beyond the limit for stressing, not beyond the proof stress", () => {
    expect(call("TENDON_STRESS_LIMIT", null, 1600, "OVERSTRESSING")).toBeCloseTo(1520, 9);
    expect(call("TENDON_STRESS_LIMIT", null, 1600, "OVERSTRESSING")).toBeGreaterThan(
      call("TENDON_STRESS_LIMIT", 1860, 1600, "JACKING"),
    );
  });

  test("no minimum reinforcement down to the tensile strength", () => {
    expect(call("TENSION_LIMIT", 3.5, "NO_MIN_REINFORCEMENT")).toBe(call("TENSION_LIMIT", 3.5, "UNCRACKED"));
  });
});

describe("anchorage in the ultimate state", () => {
  const given = fc.record({
    pt2: between(200, 1500),
    inf: between(500, 1200),
    more: between(1, 600),
    phi: between(9, 16),
    bond: between(1, 5),
  });

  test("the stress held reaches the prestress at the transmission length and the stress wanted at the anchorage length", () => {
    fc.assert(
      fc.property(given, between(0, 2), ({ pt2, inf, more, phi, bond }, s) => {
        const pd = inf + more;
        const bpd = call("ANCHORAGE_LENGTH", pt2, phi, "STRAND", bond, pd, inf);
        const at = (x: number): number => call("ANCHORED_STRESS", pt2, bpd, inf, pd, x / 1000);
        expect(at(0)).toBe(0);
        expect(at(pt2)).toBeCloseTo(inf, 9);
        expect(at(bpd)).toBeCloseTo(pd, 9);
        expect(at(bpd * 3)).toBeCloseTo(pd, 9);
        expect(at(pt2 / 2)).toBeCloseTo(inf / 2, 9);
        // Never falls, and the slope beyond the transmission length is that of the bond strength: f_bpd/(α_2 φ).
        expect(at(s * bpd + 1)).toBeGreaterThanOrEqual(at(s * bpd) - 1e-9);
        const mid = (pt2 + bpd) / 2;
        expect((at(mid) - inf) / (mid - pt2)).toBeCloseTo(bond / (0.19 * phi), 6);
      }),
    );
  });

  test("a stress wanted that is no more than the prestress needs no more than the transmission length", () => {
    expect(call("ANCHORED_STRESS", 800, 800, 1000, 1000, 0.4)).toBeCloseTo(500, 9);
    expect(call("ANCHORED_STRESS", 800, 800, 1000, 1000, 0.9)).toBeCloseTo(1000, 9);
  });

  test("the check is asked for above the tensile strength only", () => {
    expect([2.4, 2.5, 2.6].map((s) => call("ANCHORAGE_CHECK_REQUIRED", 2.5, s))).toEqual([0, 0, 1]);
  });

  test("bending and shear pull on the tendons as on the tie of a truss", () => {
    // M/z = 200 kN, 0.5·100·2.5 = 125 kN, over 300 mm².
    expect(call("TENDON_STRESS_CRACKED_SECTION", 500, 300, 100, 100, 2.5)).toBeCloseTo(325e3 / 300, 9);
    expect(call("TENDON_STRESS_CRACKED_SECTION", 500, 300, 100, 100, 1, 1)).toBeCloseTo(200e3 / 300, 9);
    expect(call("TENDON_STRESS_CRACKED_SECTION", 500, 300, 100, 0, 2.5)).toBeCloseTo(200e3 / 300, 9);
  });
});
