/** `npm run -s sheet`: a check sheet as an .xlsx file, its governing checks on screen; many of them from a table. */
import { guardOutput } from "./output.ts";
import { progressLine } from "./progressLine.ts";
import { runSheet } from "./sheet/run.ts";

guardOutput();
let stopped = false;
// Only while many members are done is there a pause in which a signal is heard; one sheet ends as programs do.
if (process.argv.includes("--members")) {
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const)
    process.on(signal, () => {
      stopped = true;
    });
}
const progress = progressLine(process.stderr);
process.exitCode = await runSheet(process.argv.slice(2), {
  say: (line) => {
    progress.clear();
    console.log(line);
  },
  complain: (line) => {
    progress.clear();
    console.error(line);
  },
  progress: progress.show,
  stopped: () => stopped,
});
