import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formulas, run, type Argument } from "../../src/core/index.ts";
import { between } from "./draws.ts";

const call = (id: string, ...args: readonly Argument[]): number =>
  run(
    formulas.find((f) => f.id === id)!,
    args,
  );
const close = (a: number, b: number, relative = 1e-9): void =>
  expect(Math.abs(a - b)).toBeLessThanOrEqual(relative * Math.abs(b));

describe("composite sections", () => {
  const member = fc.record({
    b: between(200, 1500),
    h: between(300, 2000),
    t: between(50, 300),
    wide: between(1, 6),
    E_c: between(25, 45),
    E_t: between(20, 45),
  });
  const of =
    ({ b, h, t, wide, E_c, E_t }: { b: number; h: number; t: number; wide: number; E_c: number; E_t: number }) =>
    (suffix: string): number =>
      call("COMPOSITE_SECTION", b * h, h / 2, (b * h ** 3) / 12, [[b * wide, t, h, E_t]], E_c, suffix);

  test("a topping with the same modulus on a rectangle makes a T-section", () => {
    fc.assert(
      fc.property(member, (m) => {
        const composite = of({ ...m, E_t: m.E_c });
        for (const suffix of ["AREA", "CENTROID", "INERTIA"])
          close(composite(suffix), call("T_SECTION", m.h + m.t, m.b * m.wide, m.t, m.b, suffix));
      }),
    );
  });

  test("another modulus counts as another width", () => {
    fc.assert(
      fc.property(member, (m) => {
        const [composite, n] = [of(m), m.E_t / m.E_c];
        if (n * m.wide < 1) return;
        for (const suffix of ["AREA", "CENTROID", "INERTIA"])
          close(composite(suffix), call("T_SECTION", m.h + m.t, m.b * m.wide * n, m.t, m.b, suffix));
      }),
    );
  });

  test("splitting the topping into layers changes nothing", () => {
    fc.assert(
      fc.property(member, between(0.1, 0.9), (m, part) => {
        const { b, h, t, wide, E_c, E_t } = m;
        for (const suffix of ["AREA", "CENTROID", "INERTIA"]) {
          const split = call(
            "COMPOSITE_SECTION",
            b * h,
            h / 2,
            (b * h ** 3) / 12,
            [
              [b * wide, t * part, h, E_t],
              [b * wide, t * (1 - part), h + t * part, E_t],
            ],
            E_c,
            suffix,
          );
          close(split, of(m)(suffix));
        }
      }),
    );
  });

  test("the stresses of member and topping carry the moment and no force", () => {
    fc.assert(
      fc.property(member, between(10, 2000), (m, M) => {
        const { b, h, t, wide, E_c, E_t } = m;
        const [y_b, I] = [of(m)("CENTROID"), of(m)("INERTIA")];
        const inMember = (y: number): number => call("FIBRE_STRESS", of(m)("AREA"), I, 0, 0, M, y_b - y);
        const inTopping = (y: number): number => call("TOPPING_STRESS", I, E_t, E_c, M, y_b - y);
        close(inTopping(h) * E_c, inMember(h) * E_t, 1e-9);
        // Linear over each rectangle: force at the middle, moment by Simpson's rule, exact here.
        const parts = [
          [b, 0, h, inMember],
          [b * wide, h, h + t, inTopping],
        ] as const;
        const sum = (of: (y: number, stress: number) => number): number =>
          parts.reduce((all, [width, from, to, stress]) => {
            const [lo, mid, hi] = [from, (from + to) / 2, to].map((y) => of(y, stress(y)));
            return all + (width * (to - from) * (lo! + 4 * mid! + hi!)) / 6;
          }, 0);
        expect(Math.abs(sum((_, s) => s))).toBeLessThan(1e-7 * sum((_, s) => Math.abs(s)));
        close(sum((y, s) => s * (y - y_b)) / 1e6, M, 1e-8);
      }),
    );
  });
});

describe("slabs with round voids", () => {
  const slab = fc
    .record({
      b: between(600, 2400),
      h: between(150, 1000),
      n: fc.integer({ min: 1, max: 12 }),
      d: between(0.1, 0.9),
      y: between(0.01, 0.99),
    })
    .map(({ b, h, n, d, y }) => {
      const diameter = d * Math.min(0.98 * h, (0.98 * b) / n);
      return [b, h, n, diameter, diameter / 2 + y * (h - diameter)] as const;
    });

  test("equal the rectangle net of round holes", () => {
    fc.assert(
      fc.property(
        slab.filter(([, , , d]) => d <= 500),
        (args) => {
          const [b, h, n, d, y_v] = args;
          const holes = Array.from({ length: n }, () => [d, y_v]);
          for (const suffix of ["AREA", "CENTROID", "INERTIA"])
            close(
              call("HOLLOW_SLAB", ...args, suffix),
              call("NET_SECTION", b * h, h / 2, (b * h ** 3) / 12, holes, suffix),
            );
        },
      ),
    );
  });

  test("equal the outline with voids of many sides", () => {
    const [b, h, n, d, y_v] = [1200, 265, 5, 180, 130] as const;
    const sides = 500;
    const voids = Array.from({ length: n }, (_, i) =>
      Array.from({ length: sides }, (_, k) => [
        i + 1,
        120 + 240 * i + (d / 2) * Math.cos((2 * Math.PI * k) / sides),
        y_v + (d / 2) * Math.sin((2 * Math.PI * k) / sides),
      ]),
    ).flat();
    const outline = [
      [0, 0],
      [b, 0],
      [b, h],
      [0, h],
    ];
    // A polygon of 500 sides has 0.0026 % less area than its circle.
    for (const suffix of ["AREA", "CENTROID", "INERTIA"])
      close(call("HOLLOW_SLAB", b, h, n, d, y_v, suffix), call("OUTLINE_SECTION", outline, suffix, voids), 2e-5);
  });

  test("the inner surface joins the perimeter by its share", () => {
    expect(call("HOLLOW_SLAB", 1200, 265, 5, 180, 130, "PERIMETER")).toBeCloseTo(2930, 9);
    expect(call("HOLLOW_SLAB", 1200, 265, 5, 180, 130, "PERIMETER", 0.5)).toBeCloseTo(2930 + 450 * Math.PI, 9);
  });

  test("voids without room are refused", () => {
    expect(() => call("HOLLOW_SLAB", 1200, 265, 7, 180, 130, "AREA")).toThrow(/room for the voids/);
    expect(() => call("HOLLOW_SLAB", 1200, 265, 5, 180, 60, "AREA")).toThrow(/inside the height/);
  });
});
