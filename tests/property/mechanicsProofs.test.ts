import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formulas, NoResult, run, trace, type Argument } from "../../src/core/index.ts";
import { between } from "./draws.ts";

const found = (id: string) => formulas.find((f) => f.id === id)!;

/** The residual or second way of a formula; nothing where it has no result. */
function proof(id: string, args: readonly Argument[]): number | undefined {
  try {
    return trace(found(id), args).proof!;
  } catch (error) {
    if (error instanceof NoResult) return undefined;
    throw error;
  }
}
const vanishes = (id: string, args: readonly Argument[]): void => {
  const left = proof(id, args);
  if (left !== undefined) expect(Math.abs(left), `${id} ${JSON.stringify(args)}`).toBeLessThan(1e-9);
};

const shape = fc.constantFrom("LINE", "FROM_LEVEL", "TO_LEVEL", "SMOOTH", "");
/** Tendons with kinks, reverse curves and steep stretches. */
const tendon = fc
  .array(fc.tuple(between(1, 15), between(-1500, 1500), shape), { minLength: 2, maxLength: 6 })
  .map((steps) => {
    let x = 0;
    // The last point needs no shape; one that is written tells that these are control points.
    const last = steps.length - 1;
    const shaped = (s: string, i: number): string => (i === 0 && s === "SMOOTH" ? "" : s);
    return steps.map(([dx, e, s], i) => [i === 0 ? 0 : (x += dx), e, i === last ? "LINE" : shaped(s, i)] as const);
  });
const end = fc.constantFrom("LEFT", "RIGHT");

describe("second ways and residuals vanish", () => {
  test("tendon geometry", () => {
    fc.assert(
      fc.property(tendon, between(0, 1), between(0, 1), end, (points, a, b, jack) => {
        const L = points.at(-1)![0];
        const [x1, x2] = [Math.min(a, b) * L, Math.max(a, b) * L];
        vanishes("TENDON_ECCENTRICITY", [points, x1]);
        vanishes("TENDON_SLOPE", [points, x1]);
        vanishes("TENDON_ANGLE", [points, "LEFT", x2, x1]);
        vanishes("TENDON_ANGLE", [points, "RIGHT", x1, x2]);
        vanishes("TENDON_ANGLE", [points, jack, x1]);
        vanishes("DISTANCE_FROM_JACK", [points, jack, x1]);
        vanishes("TENDON_LENGTH", [points]);
        vanishes("TENDON_MIN_RADIUS", [points]);
      }),
    );
  });

  test("draw-in and elongation along any tendon, kinks and dead ends included", () => {
    fc.assert(
      fc.property(
        tendon,
        end,
        between(500, 1500),
        between(0, 0.4),
        between(0, 0.01),
        between(0, 12),
        (points, jack, s0, mu, k, slip) => {
          for (const wobble of ["1/m", "rad/m"]) {
            const args = [points, mu, k, wobble, 195, jack, s0, slip] as const;
            vanishes("DRAW_IN", [...args, "LEVEL_STRESS"]);
            vanishes("DRAW_IN", [...args, "LENGTH"]);
            vanishes("TENDON_ELONGATION", args.slice(0, -1));
          }
        },
      ),
    );
  });

  test("the stress after draw-in never exceeds the one before, and meets it where the draw-in ends", () => {
    fc.assert(
      fc.property(
        tendon,
        end,
        between(900, 1500),
        between(0.05, 0.3),
        between(0.001, 0.005),
        between(0.5, 8),
        between(0, 1),
        (points, jack, s0, mu, k, slip, share) => {
          const args = [points, mu, k, "1/m", 195, jack, s0, slip] as const;
          let level: number;
          try {
            level = run(found("DRAW_IN"), [...args, "LEVEL_STRESS"]);
          } catch (error) {
            if (error instanceof NoResult) return;
            throw error;
          }
          const reach = run(found("DRAW_IN"), [...args, "LENGTH"]);
          const x = share * points.at(-1)![0];
          const from = run(found("DISTANCE_FROM_JACK"), [points, jack, x]);
          const alpha = run(found("TENDON_ANGLE"), [points, jack, x]);
          const before = run(found("FRICTION_STRESS"), [alpha, mu, k, "1/m", s0, from]);
          const after = run(found("STRESS_AFTER_DRAW_IN"), [before, level]);
          expect(after).toBeLessThanOrEqual(before);
          // Away from the end by more than rounding, the two rules agree on which part is affected.
          if (from < reach - 1e-6) expect(after).toBeLessThan(before + 1e-9);
          if (from > reach + 1e-6) expect(after).toBe(before);
        },
      ),
    );
  });
});

describe("outlines", () => {
  const star = fc
    .array(between(50, 1000), { minLength: 3, maxLength: 12 })
    .map((radii) =>
      radii.map(
        (r, i) =>
          [r * Math.cos((2 * Math.PI * i) / radii.length), r * Math.sin((2 * Math.PI * i) / radii.length)] as const,
      ),
    );

  test("the second way agrees; shifting moves the centroid alone", () => {
    fc.assert(
      fc.property(star, between(-5000, 5000), between(-5000, 5000), (points, dx, dy) => {
        for (const name of ["AREA", "CENTROID", "INERTIA", "PERIMETER"]) vanishes("OUTLINE_SECTION", [points, name]);
        const moved = points.map(([x, y]) => [x + dx, y + dy] as const);
        const of = (name: string, p: Argument): number => run(found("OUTLINE_SECTION"), [p, name]);
        const inertia = of("INERTIA", points);
        expect(Math.abs(of("INERTIA", moved) / inertia - 1)).toBeLessThan(1e-9);
        expect(Math.abs(of("CENTROID", moved) - of("CENTROID", points) - dy)).toBeLessThan(1e-7);
      }),
    );
  });

  test("taking a void out and adding it again as its own outline gives the whole", () => {
    fc.assert(
      fc.property(between(0.1, 0.9), between(0.1, 0.9), (sx, sy) => {
        const outline = [
          [0, 0],
          [1000, 0],
          [1000, 800],
          [0, 800],
        ];
        const hole = [
          [100, 100],
          [100 + 800 * sx, 100],
          [100 + 800 * sx, 100 + 600 * sy],
          [100, 100 + 600 * sy],
        ];
        const area = (p: Argument, v?: Argument): number => run(found("OUTLINE_SECTION"), [p, "AREA", v]);
        expect(
          area(
            outline,
            hole.map((p) => [1, ...p]),
          ) + area(hole),
        ).toBeCloseTo(area(outline), 6);
      }),
    );
  });
});
