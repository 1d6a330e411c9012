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
