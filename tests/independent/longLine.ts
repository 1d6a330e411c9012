/** The invented long line of the roof beam at Alder Quay straight from the equations, without the core: N, mm, MPa, hours. */

interface Rows {
  readonly strands: readonly number[];
  /** Height of each row at the end of the unit, mm. */
  readonly heights: readonly number[];
  /** Stress before release and loss at release, MPa; a result of the stress check. */
  readonly before: readonly number[];
  readonly elastic: readonly number[];
}

/** What the sheet gives for strands of one area; all are jacked to one stress. */
export function longLine(
  As: number,
  sigj: number,
  Ec: number,
  diameter: number,
  { strands, heights, before, elastic }: Rows,
) {
  const [bed, span, units, Ep] = [80_000, 15_000, 5, 195_000];
  const n = strands.reduce((sum, one) => sum + one, 0);
  const P = As * sigj;
  const total = strands.map((one) => one * P);
  const bar = (force: number): number => (force / (4000 * (1 - 0.02))) * 10;
  const extension = (sigj / Ep) * (bed + 800) + 3;
  const give = (4 * (n - 1)) / (2 * n);
  const free = bed - units * span;
  const matured = (20 + 10) * 40;
  // 3 h at 20, 4 h at 40, 8 h at 60, then 40 °C; the datum is −10 °C.
  const steps = [3 * 30, 4 * 50, 8 * 70];
  const sum = steps.reduce((all, one) => all + one, 0);
  return {
    n,
    P,
    bar: bar(P),
    barAtMark: bar(0.2 * P),
    extension,
    fromMark: 0.8 * extension,
    fits: Math.floor((bed - 3000 + 500) / (span + 500)),
    strand: n * ((bed + 800 + 1000) / 1000),
    mass: n * (bed + 800 + 1000) * As * 7850e-9,
    waste: 1 - (units * span) / (bed + 800 + 1000),
    abutment: total.reduce((all, one) => all + one, 0) / 2.5e6,
    moment: total.reduce((all, one, i) => all + one * (heights[i]! + 100), 0) / (2.5e6 * 450),
    give,
    giveLoss: (Ep * give) / bed,
    ready: 15 + (matured - sum) / 50,
    cycle: 6 + 3 + 4 + 2 + 3 + 15 + (matured - sum) / 50,
    gap: Math.max(...before) + ((Math.max(...elastic) * (n - 1)) / n) * ((units * span) / free),
    swelling: before.map((stress) => (0.3 * stress * diameter) / Ep),
    pressure: before.map((stress) => (0.3 * stress) / Ep / (0.7 / Ep + 1.2 / Ec)),
    /** Extension calculated from the mark on, for a pressure read. */
    calculated: (read: number): number => (((read / 10) * 4000 * 0.98) / P - 0.2) * extension,
    force: (read: number): number => (read / 10) * 4000 * 0.98,
  };
}

/**
 * One strand of the example's deflected row, stressed from one end, bend by bend: up to `mu` of friction at the hold-ups
 * at both ends of each unit and at its two deviators, 5.5 m from them, 390 mm lower. Shares of what stands at the jack.
 */
export function bentStrand(mu: number): { readonly far: number; readonly mean: number; readonly angles: number } {
  const angle = Math.atan(390 / 5500);
  const bends = [0, 1, 2, 3, 4].flatMap((unit) => [0, 5.5, 9.5, 15].map((at) => 1.5 + unit * 15.5 + at));
  const left = (passed: number): number => Math.exp(-mu * angle * passed);
  const pieces = [...bends, 80].map((to, i) => (to - (i === 0 ? 0 : bends[i - 1]!)) * left(i));
  return {
    far: left(bends.length),
    mean: pieces.reduce((sum, one) => sum + one, 0) / 80,
    angles: angle * bends.length,
  };
}
