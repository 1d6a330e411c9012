/**
 * `npx tsx tests/contract/update.ts`: adds new functions to the snapshot. Refuses to break a promise unless
 * `--break-old-workbooks` is given.
 */
import { existsSync, writeFileSync } from "node:fs";
import { broken, kept, promises, snapshotFile } from "./snapshot.ts";

const now = promises();
const problems = existsSync(snapshotFile) ? broken(kept(), now) : [];
if (problems.length > 0 && !process.argv.includes("--break-old-workbooks")) {
  console.error(
    "Refused: ids, argument order, units and defaults are promises to old " +
      `workbooks.\n${problems.map((p) => `  ${p}`).join("\n")}\nKeep the old function and add another; ` +
      "--break-old-workbooks writes the snapshot all the same.",
  );
  process.exitCode = 1;
} else {
  writeFileSync(snapshotFile, `[\n${now.map((p) => `  ${JSON.stringify(p)}`).join(",\n")}\n]\n`);
  console.log(`${now.length} functions written`);
}
