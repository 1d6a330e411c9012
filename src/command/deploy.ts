/** `npm run -s deploy`: the folder for an office's address. */
import { reasonOf } from "../core/index.ts";
import { runDeploy } from "./deploy/run.ts";
import { guardOutput } from "./output.ts";

guardOutput();
/** Today where the command runs. */
function today(now = new Date()): string {
  const two = (n: number): string => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
try {
  process.exitCode = await runDeploy(
    process.argv.slice(2),
    { say: (line) => console.log(line), complain: (line) => console.error(line) },
    { date: today() },
  );
} catch (error) {
  // A build that fails, for the most part: its messages stand above.
  console.error(`The folder could not be made: ${reasonOf(error)}`);
  process.exitCode = 2;
}
