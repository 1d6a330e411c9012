const mostSteps = 40;

/** A value near a start at which a function vanishes, by secants; undefined where none is found. */
export function rootNear(f: (v: number) => number, start: number): number | undefined {
  let [a, b] = [start, start * 1.01];
  let [fa, fb] = [f(a), f(b)];
  for (let n = 0; n < mostSteps; n++) {
    if (!Number.isFinite(fa) || !Number.isFinite(fb) || fa === fb) return undefined;
    const next = b - (fb * (b - a)) / (fb - fa);
    if (!Number.isFinite(next) || Math.abs(next / start) > 20 || Math.abs(next / start) < 0.05) return undefined;
    [a, fa, b, fb] = [b, fb, next, f(next)];
    if (Math.abs(fb) < 1e-14 || Math.abs(b - a) <= 1e-15 * Math.abs(b)) return b;
  }
  return Math.abs(fb) < 1e-11 ? b : undefined;
}
