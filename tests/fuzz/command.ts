/**
 * Calls every worksheet function with arguments of all kinds: `npm run fuzz -- --calls 1000000 --seed 7`, or only
 * those whose id holds a text with `--only DRAW_IN`.
 * Prints the seed, the share of calls that gave a value for each function, and every fault; ends with 1 where there is one.
 */
import { parseArgs } from "node:util";
import { worksheetFunctions } from "../../functions/index.ts";
import { fuzz } from "./fuzz.ts";

const { values } = parseArgs({
  options: {
    calls: { type: "string", default: "1000000" },
    seed: { type: "string" },
    only: { type: "string", default: "" },
  },
});
const calls = Number(values.calls);
const seed = Number(values.seed ?? Math.floor(Math.random() * 1e9));
const functions = worksheetFunctions.filter(({ id }) => id.includes(values.only.toUpperCase()));
if (!Number.isInteger(calls) || calls < 1 || !Number.isInteger(seed) || functions.length === 0) {
  console.error("fuzz: --calls and --seed take whole numbers, --only a part of a function's id");
  process.exit(2);
}
console.log(`${calls} calls of ${functions.length} functions, seed ${seed}`);

const began = Date.now();
const each = Math.ceil(calls / functions.length);
const tallies = functions.map((f) => {
  const from = Date.now();
  const tally = fuzz(f, each, seed);
  const share = (part: number): string => `${((100 * part) / tally.calls).toFixed(0).padStart(3)} %`;
  console.log(
    `${tally.id.padEnd(58)} values ${share(tally.values)}  refused ${share(tally.refusals)}  no result ` +
      `${share(tally.without)}  ${((Date.now() - from) / 1000).toFixed(1)} s`,
  );
  for (const { what, args } of tally.faults)
    console.log(
      `  ✗ ${what}\n    ` +
        `${JSON.stringify(args, (_, v: unknown) =>
          typeof v === "number" && !Number.isFinite(v)
            ? String(v)
            : v === undefined
              ? "(left out)"
              : Object.is(v, -0)
                ? "-0"
                : v,
        )}`,
    );
  return tally;
});
const sum = (key: "calls" | "values" | "refusals" | "without"): number =>
  tallies.reduce((total, tally) => total + tally[key], 0);
const faulty = tallies.filter(({ faults }) => faults.length > 0);
console.log(
  `${sum("calls")} calls in ${((Date.now() - began) / 1000).toFixed(0)} s: ${sum("values")} values, ` +
    `${sum("refusals")} refused, ${sum("without")} without a result; functions with faults: ` +
    `${faulty.length}; seed ${seed}`,
);
process.exitCode = faulty.length === 0 ? 0 : 1;
