/** Ends quietly when whoever reads the output has had enough, as `head` does. */
export function endWithReader(): void {
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit();
  });
}
