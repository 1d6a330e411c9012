import { describe, expect, it } from "vitest";
import { declarations, q, sourceFor } from "../../../src/core/index.ts";
import { merged, quantities } from "../../../src/core/quantities/define.ts";
import { kern } from "./kern.ts";

describe("keys of quantities", () => {
  it("are unique by construction: the same key in two files is refused", () => {
    const one = quantities({ share: { symbol: "s", unit: "–", text: "one", max: 1.2 } });
    const other = quantities({ share: { symbol: "s", unit: "–", text: "other", max: 1 } });
    expect(() => merged(one, other)).toThrow("two quantities have the key share");
    for (const [key, quantity] of Object.entries(q)) expect(quantity.key).toBe(key);
  });

  it("a stage of 1.05 of the jacking force is one", () => {
    expect(kern("GAUGE_PRESSURE", 50_000, 0.02, 0.02, 1000, 1.05)).toBeCloseTo(
      (1.05 * 1_000_000) / (50_000 * 0.98 ** 2) / 0.1,
      9,
    );
  });
});

describe("how rules were established", () => {
  const basisOf = (id: string) => declarations.find((f) => f.id === id)!.source;

  it("what follows from friction by mechanics does not claim that its text was read", () => {
    for (const { id, source, sourceFollows } of declarations)
      if (
        /^(DRAW_IN|NULL_POINT|RELEASE_|ELONGATION|TIME_DEPENDENT_LOSS_BY_STEPS)/.test(id) ||
        /^TENDON_(STRESS_(DRAW_IN|BOTH|RELEASE|BY_STEPS)|MEAN|ELONGATION)/.test(id)
      )
        for (const { basis } of [source, ...Object.values(sourceFollows?.as ?? {})]) expect(basis, id).not.toBe("seen");
    const friction = declarations.find(({ id }) => id === "TENDON_STRESS_FRICTION")!;
    expect(sourceFor(friction, { wobble: "rad/m" })).toMatchObject({ basis: "seen", clause: "5.10.5.2 (5.45)" });
    expect(sourceFor(friction, { wobble: "1/m" })).toMatchObject({ key: "mechanics", basis: "derived" });
  });

  it("an uncertain clause says so", () => {
    const { basis, clause } = basisOf("TENDON_STRESS_CRACKED_SECTION_EN1992_2004");
    expect(basis).toBe("memory-medium");
    expect(clause).toMatch(/uncertain/);
  });

  it("a loss by draw-in or at lock-off is not called one by elastic shortening", () => {
    for (const { id, ...f } of declarations)
      if (/^(DRAW_IN|LOCK_OFF)(_UNIFORM)?$/.test(id)) expect(JSON.stringify(f), id).not.toMatch(/elastic shortening/);
  });
});

describe("ages and times end somewhere", () => {
  it("each has an upper bound, also where a function narrows it", () => {
    const asked = declarations.flatMap(({ id, params }) =>
      Object.values(params).flatMap((p) => {
        const all = p.kind === "table" ? Object.values(p.columns) : [p];
        return all.flatMap((one) => (one.kind === "number" ? [[id, one] as const] : []));
      }),
    );
    for (const [where, { unit, max, below, key }] of [...Object.values(q).map((one) => ["", one] as const), ...asked]) {
      const days = { days: 1, h: 1 / 24 }[unit as string];
      if (days !== undefined) expect((max ?? below ?? Infinity) * days, `${where} ${key}`).toBeLessThanOrEqual(1e7);
    }
  });

  const byStepsAt = (t: number) =>
    kern(
      "TIME_DEPENDENT_LOSS_BY_STEPS",
      450_000,
      8e10,
      2550,
      400,
      null,
      null,
      195,
      1860,
      null,
      32,
      null,
      null,
      null,
      null,
      null,
      [[14, 500]],
      1200,
      null,
      null,
      3e-4,
      t,
      "IS1343_1980",
      0,
      100,
    );

  it("an age beyond it is refused in words, and the last one is computed at once", () => {
    expect(() => byStepsAt(1e300)).toThrow(
      /is above 1·10\^7 days, longer than any structure lasts; allowed: up to that/,
    );
    expect(byStepsAt(1e7)).toBeGreaterThan(byStepsAt(36_525) - 1e-9);
    // Each age is computed anew; the best of three leaves out what else the machine does.
    const took = [0.9e7, 0.8e7, 0.7e7].map((t) => {
      const began = performance.now();
      byStepsAt(t);
      return performance.now() - began;
    });
    expect(Math.min(...took)).toBeLessThan(5000);
  });
});
