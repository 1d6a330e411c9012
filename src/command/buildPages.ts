/** Builds the pages into `dist`, also while a server serves them. */
import { reasonOf } from "../core/index.ts";
import { build } from "./build.ts";
import { guardOutput } from "./output.ts";

guardOutput();
try {
  await build((text) => console.log(text));
} catch (error) {
  console.error(`The pages could not be built: ${reasonOf(error)}`);
  process.exitCode = 1;
}
