/** `npm run -s verify`: every published check, what was printed and what the functions give. */
import { worksheetFunctions } from "../../functions/index.ts";
import { asItShould, countsAsPublished, judge, type Judgement, type Outcome } from "../published/index.ts";
import { publishedCases } from "./cases.ts";
import { endWithReader } from "./output.ts";

endWithReader();

const functions = worksheetFunctions.filter(({ formula }) => formula);
const judgements = publishedCases().map((c) => judge(c, functions));

function digits(value: number): string {
  return String(Number(value.toPrecision(8)));
}

function verdict({ case: c }: Judgement, outcome: Outcome): string {
  if (outcome.error !== undefined) return `FAIL: ${outcome.error}`;
  if (!asItShould(c, outcome)) return "FAIL";
  if (c.mustDiffer) return outcome.agrees ? "agrees by chance" : "differs, as it should";
  return "OK";
}

function print(j: Judgement): void {
  const { id, function: name, step, source, where, basis, unit, because, note, mustDiffer } = j.case;
  console.log(`${j.passed ? "✓" : "✗"} ${id}   KERN.${name}${step ? `, step ${step}` : ""}   [${basis}${mustDiffer ? ", must differ" : ""}]`);
  console.log(`    ${source}; ${where}`);
  for (const o of j.outcomes) {
    const computed = o.computed === undefined ? "–" : digits(o.computed);
    console.log(`    printed ${o.row.printed} ${unit}   computed ${computed}   tolerance ±${digits(o.tolerance)}   ${verdict(j, o)}${o.row.then ? `   (${o.row.then.text})` : ""}`);
    if (o.row.because) console.log(`        tolerance because: ${o.row.because}`);
  }
  if (because) console.log(`    tolerance because: ${because}`);
  if (note) console.log(`    note: ${note}`);
}

const failed = judgements.filter(({ passed }) => !passed);
const counts = functions.map(({ id, formula }) => {
  const own = judgements.filter(({ case: c }) => c.function === id);
  return {
    id,
    published: own.filter(({ case: c }) => countsAsPublished(c)).length,
    fromMemory: own.filter(({ case: c }) => c.basis !== "published").length,
    mustDiffer: own.filter(({ case: c }) => c.mustDiffer).length,
    ...(formula?.unpublished !== undefined && { unpublished: formula.unpublished }),
  };
});
const without = counts.filter(({ published }) => published === 0);
const total = {
  cases: judgements.length,
  published: judgements.filter(({ case: c }) => countsAsPublished(c)).length,
  fromMemory: judgements.filter(({ case: c }) => c.basis !== "published").length,
  mustDiffer: judgements.filter(({ case: c }) => c.mustDiffer).length,
  values: judgements.reduce((sum, { outcomes }) => sum + outcomes.length, 0),
  failed: failed.length,
};

if (process.argv.includes("--json")) {
  const checks = judgements.map(({ case: c, outcomes, passed }) => ({
    ...c,
    rows: outcomes.map(({ row, computed, error, tolerance, agrees }) => ({ ...row, computed, error, tolerance, agrees })),
    passed,
  }));
  console.log(JSON.stringify({ checks, functions: counts, total }, null, 2));
} else {
  judgements.forEach(print);
  console.log("\nChecks by function (published, from memory):");
  for (const { id, published, fromMemory } of counts) if (published + fromMemory > 0) console.log(`  KERN.${id}: ${published}, ${fromMemory}`);
  console.log("\nFunctions without a published check:");
  for (const { id, unpublished } of without) console.log(`  KERN.${id}: ${unpublished ?? "no reason given"}`);
  console.log(`\n${total.cases} checks with ${total.values} values: ${total.published} published, ${total.fromMemory} from memory, ${total.mustDiffer} of superseded values that must differ; ${total.failed} failed`);
}
process.exitCode = failed.length === 0 ? 0 : 1;
