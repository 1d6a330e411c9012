/**
 * Tries every property with other draws than the tests: `npm run draws -- --times 20 --seed 7`, or those of some files or
 * tests only with `--only equation` and `--named DRAW_IN`. Prints the seed; ends with 1 where a property fails.
 */
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { root } from "../../src/command/build.ts";

const { values } = parseArgs({
  options: {
    times: { type: "string", default: "10" },
    seed: { type: "string" },
    only: { type: "string", default: "" },
    named: { type: "string", default: "" },
  },
});
const times = Number(values.times);
const seed = Number(values.seed ?? Math.floor(Math.random() * 2 ** 31));
if (!Number.isInteger(times) || times < 1 || !Number.isInteger(seed)) {
  console.error("draws: --times and --seed take whole numbers, --times at least 1");
  process.exit(2);
}
console.log(`every property ${times} times as often as in the tests, seed ${seed}`);

const places = ["tests/property", "tests/equation", "tests/checker/compareParts", "tests/draws"].filter((place) =>
  place.includes(values.only),
);
if (places.length === 0) {
  console.error(`draws: no properties in "${values.only}"`);
  process.exit(2);
}
const patience = String(120_000 * times);
const { status } = spawnSync(
  process.execPath,
  [
    join(root, "node_modules/vitest/vitest.mjs"),
    "run",
    ...places,
    "--testTimeout",
    patience,
    ...(values.named ? ["-t", values.named] : []),
  ],
  {
    cwd: root,
    stdio: "inherit",
    env: { ...process.env, KERNBOOK_SEED: String(seed), KERNBOOK_TIMES: String(times) },
  },
);
console.log(`seed ${seed}`);
process.exitCode = status ?? 1;
