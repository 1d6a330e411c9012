import { reasonOf } from "../core/index.ts";

/** Exit status of a command whose output cannot be written. */
const notWritten = 2;
/** The reader has had enough, as `head` has; what is written after that meets a stream that is closed. */
const closed: ReadonlySet<string | undefined> = new Set(["EPIPE", "ERR_STREAM_DESTROYED"]);

/**
 * Where nobody reads the output any more, the work is done to its end without it, and the exit status says what came of
 * it. Output that cannot be written (a full disk, say) ends the command with a message.
 */
export function guardOutput(): void {
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (closed.has(error.code)) return;
    console.error(`The output could not be written: ${reasonOf(error)}.`);
    process.exit(notWritten);
  });
  // Where complaints cannot be written either, nothing can be said; the exit status says it.
  process.stderr.on("error", () => undefined);
}
