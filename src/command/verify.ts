/** `npm run -s verify`: every published check, what was printed and what the functions give. */
import { guardOutput } from "./output.ts";
import { runVerify } from "./verify/run.ts";

guardOutput();
process.exitCode = runVerify(process.argv.slice(2), {
  say: (line) => console.log(line),
  complain: (line) => console.error(line),
});
