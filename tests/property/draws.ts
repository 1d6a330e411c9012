/**
 * What property tests draw. `npm test` draws the same every time, so that a failure belongs to a change and can be repeated;
 * `npm run draws` draws others and more of them, and prints the seed.
 */
import fc from "fast-check";

export const seed = Number(process.env["KERNBOOK_SEED"] ?? 1992);
const times = Number(process.env["KERNBOOK_TIMES"] ?? 1);

/** How often a property is tried that is slower than most: so often in the tests, and as many times more as were asked for. */
export const runs = (inTests: number): number => inTests * times;

// A draw out of thousands may take an hour to be made smaller: it is told as it is.
fc.configureGlobal({ seed, numRuns: runs(100), endOnFailure: times > 1 });

const parts = 2 ** 30;

/**
 * Numbers of a range. Half of them from all its parts alike: fc.double goes by how numbers are written in the machine,
 * and of its draws from 0 to 1000 nine in ten are below a millionth. The other half by fc.double, for ranges over many
 * powers of ten and for what is next to nothing.
 */
export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.oneof(
    fc.integer({ min: 0, max: parts }).map((n) => (n === parts ? max : min + ((max - min) * n) / parts)),
    fc.double({ min, max, noNaN: true }),
  );
