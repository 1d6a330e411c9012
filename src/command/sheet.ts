/** `npm run -s sheet`: a check sheet as an .xlsx file, its governing checks on screen. */
import { endWithReader } from "./output.ts";
import { runSheet } from "./sheet/run.ts";

endWithReader();
process.exitCode = await runSheet(process.argv.slice(2), {
  say: (line) => console.log(line),
  complain: (line) => console.error(line),
});
