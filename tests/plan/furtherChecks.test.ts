import { beforeAll, describe, expect, test } from "vitest";
import { alderQuay } from "../independent/alderQuay.ts";
import { beam } from "../independent/postTensionedBeam.ts";
import { builtSheet, type BuiltSheet } from "./builtSheet.ts";

/** Cover, spacing, weak axis, decompression, cracks and web of the example, by hand from the rectangles of its section. N, mm, MPa. */
const v = alderQuay;
const b = beam(v);
const web = v.h - v.ttop - v.tbot;

let built: BuiltSheet;
beforeAll(() => {
  built = builtSheet("post-tensioned-en1992-2004");
}, 180_000);

/** Distance of a place to the boundary of the I-section: to each of its straight edges. */
function toSurface(z: number, y: number): number {
  const [T, W, B] = [v.btop / 2, v.bw / 2, v.bbot / 2];
  const edges = [
    [-B, 0, B, 0],
    [-T, v.h, T, v.h],
    ...[-1, 1].flatMap((s) => [
      [s * B, 0, s * B, v.tbot],
      [s * W, v.tbot, s * B, v.tbot],
      [s * W, v.tbot, s * W, v.h - v.ttop],
      [s * W, v.h - v.ttop, s * T, v.h - v.ttop],
      [s * T, v.h - v.ttop, s * T, v.h],
    ]),
  ] as [number, number, number, number][];
  const clamp = (a: number, low: number, high: number): number =>
    Math.max(Math.min(low, high), Math.min(Math.max(low, high), a));
  return Math.min(...edges.map(([x0, y0, x1, y1]) => Math.hypot(z - clamp(z, x0, x1), y - clamp(y, y0, y1))));
}

/** Area and first moment about the centroid of the part above a height. */
function above(y: number): { readonly A: number; readonly S: number } {
  const parts = [
    [v.bbot, 0, v.tbot],
    [v.bw, v.tbot, v.tbot + web],
    [v.btop, v.h - v.ttop, v.h],
  ] as const;
  return parts.reduce(
    (sum, [width, from, to]) => {
      const low = Math.max(from, Math.min(y, to));
      const A = width * (to - low);
      return { A: sum.A + A, S: sum.S + A * ((to + low) / 2 - b.yb) };
    },
    { A: 0, S: 0 },
  );
}

describe("the further checks of the post-tensioned example against a hand calculation", () => {
  test("weak axis", () => {
    built.agree(
      "Mw",
      b.rows.map((r) => r.Mw / 1e6),
    );
    built.agree(
      "sw",
      b.rows.map((r) => r.weak),
    );
    built.agree(
      "swAt",
      b.rows.flatMap((r) => r.onTheWay),
    );
  });

  test("cover and clear spacing at every station", () => {
    const cover = built.column("covMin");
    const spacing = built.column("spU");
    b.rows.forEach((r, i) => {
      const at = b.tendons.map((t, j) => ({ z: t.z, y: r.y[j]! }));
      expect(cover[i]).toBeCloseTo(Math.min(...at.map(({ z, y }) => toSurface(z, y))) - 32.5, 8);
      // 65 mm side by side and one above the other: φ governs both; slantwise the same.
      const pairs = [
        [0, 1],
        [0, 2],
        [1, 2],
      ].map(([i1, i2]) => {
        const [p, q] = [at[i1!]!, at[i2!]!];
        return 65 / (Math.hypot(p.z - q.z, p.y - q.y) - 65);
      });
      expect(spacing[i]).toBeCloseTo(Math.max(...pairs), 8);
    });
    expect(built.column("cNom")).toEqual([75]);
  });

  test("decompression round the tendons, and the lowest characteristic stresses", () => {
    const [lowest, bottom] = [built.column("sDec"), built.column("kbK")];
    b.rows.forEach((r, i) => {
      const levels = [Math.max(0, Math.min(...r.y) - 32.5 - 25), Math.min(v.h, Math.max(...r.y) + 32.5 + 25)];
      const later = r.Ms + v.psi2 * r.Mq;
      const mt = (r.Mg * (v.h - r.ynet)) / r.Inet + (later * (v.h - r.ytr)) / r.Itr;
      const mb = (-r.Mg * r.ynet) / r.Inet - (later * r.ytr) / r.Itr;
      const all = levels.flatMap((y) =>
        [1.1, 0.9].map((f) => {
          const [t, u] = [f * r.late[0] + mt, f * r.late[1] + mb];
          return u + ((t - u) * y) / v.h;
        }),
      );
      expect(lowest[i]).toBeCloseTo(Math.min(...all) - r.weak, 8);
      const full = (-r.Mg * r.ynet) / r.Inet - ((r.Ms + r.Mq) * r.ytr) / r.Itr;
      expect(bottom[i]).toBeCloseTo(Math.min(1.1 * r.late[1], 0.9 * r.late[1]) + full - r.weak, 8);
    });
  });

  test("principal tension at centroid and junctions", () => {
    const columns = { C: built.column("s1C"), L: built.column("s1L"), U: built.column("s1U") };
    const levels = { C: b.yb, L: v.tbot, U: v.h - v.ttop };
    let checked = 0;
    b.rows.forEach((r, i) => {
      const x = Math.min(r.x, v.L * 1000 - r.x);
      if (x < b.yb - 11 || x > (v.L * 1000) / 4 + 11) {
        expect(columns.C[i]).toBe("–");
        return;
      }
      checked++;
      const q = (w: number): number => w * ((v.L * 1000) / 2 - r.x);
      const pull =
        b.tendons.reduce((sum, t, j) => sum + r.P0t[j]! * Math.sin(Math.atan(t.slope(r.x))), 0) * (r.Pinf / r.P0);
      const V = Math.max(Math.abs(q(b.g + v.gs + v.q) - 0.9 * pull), Math.abs(q(b.g + v.gs) - 1.1 * pull));
      const inWeb = b.tendons.map((_, j) => r.y[j]!).filter((y) => y > v.tbot && y < v.h - v.ttop);
      const beside = Math.max(0, ...inWeb.map((y) => inWeb.filter((other) => Math.abs(other - y) < 65).length * 65));
      const width = v.bw - 0.5 * beside;
      const fibres = [r.Ms + r.Mq, r.Ms].map((later) => [
        Math.min(0.9 * r.late[0], 1.1 * r.late[0]) + (r.Mg * (v.h - r.ynet)) / r.Inet + (later * (v.h - r.ytr)) / r.Itr,
        Math.min(0.9 * r.late[1], 1.1 * r.late[1]) - (r.Mg * r.ynet) / r.Inet - (later * r.ytr) / r.Itr,
      ]);
      for (const n of ["C", "L", "U"] as const) {
        const sigma = Math.min(...fibres.map(([t, u]) => u! + ((t! - u!) * levels[n]) / v.h));
        const tau = (V * above(levels[n]).S) / (b.Ic * width);
        expect(columns[n][i], `${n} ${i}`).toBeCloseTo(
          Math.min(0, sigma / 2 - Math.sqrt((sigma * sigma) / 4 + tau * tau)),
          8,
        );
      }
    });
    expect(checked).toBeGreaterThan(3);
  });

  test("tension that bars near the soffit add by holding creep and shrinkage", () => {
    // 905 mm² at 60 mm, 200 GPa. Equilibrium of bars and concrete about the gross section.
    const [As, y, n] = [905, 60, 200_000 / b.Ecm];
    const e = b.yb - y;
    built.agree(
      "bsPull",
      b.rows.map((r) => {
        const net = (P: readonly number[], M: number): number =>
          P[1]! + ((P[0]! - P[1]!) * y) / v.h - (M * (r.ynet - y)) / r.Inet;
        const bonded = (M: number): number => (-M * (r.ytr - y)) / r.Itr;
        const free =
          (b.ecsEnd - b.ecs0) * 200_000 +
          n *
            (b.phi * net(r.before, r.Ml) +
              b.phiG * (net([0, 0], r.Mg - r.Ml) + bonded(r.Ms)) +
              b.phiQ * bonded(v.psi2 * r.Mq));
        const N = (As * free) / (1 + n * As * (1 / b.Ac + e ** 2 / b.Ic));
        return N / b.Ac + (N * e * b.yb) / b.Ic;
      }),
    );
    const check = built.verdicts().checks.find(({ description }) => description.startsWith("restraint by bars"))!;
    expect(check.verdict).toBe("OK");
    // The later stages' own margin at the soffit, with the worse characteristic prestress.
    const late = b.stages.filter((s) => s.late);
    const shares = late.flatMap((s) =>
      b.rows.map((r, i) => {
        const later = s.s * r.Ms + s.q * r.Mq;
        const lowest =
          Math.min(1.1 * r.late[1], 0.9 * r.late[1]) - (r.Mg * r.ynet) / r.Inet - (later * r.ytr) / r.Itr - r.weak;
        return (built.column("bsPull")[i] as number) / (lowest - s.ft);
      }),
    );
    expect(check.utilisation).toBeCloseTo(Math.max(...shares), 8);
  });

  test("tension zone of the flange just before it cracks", () => {
    const kNo = built.column("kNo")[0] as number;
    const r = b.rows[kNo - 1]!;
    const mean = 0.9 * (r.late[1] + ((r.late[0] - r.late[1]) * b.yb) / v.h);
    const depth = (b.yb * b.fctm) / (b.fctm + mean);
    // Within the flange: a triangle of stress over its width.
    expect(depth).toBeLessThan(v.tbot);
    built.agree("Act", [v.bbot * depth]);
    built.agree("Fcr", [(b.fctm * v.bbot * depth) / 2 / 1000]);
    expect(built.column("AsMin")).toEqual(["not needed"]);
  });
});
