import { reasonOf } from "../src/core/index.ts";

/** Did a part of the page itself not come, rather than its work fail? The bundler names such errors. */
export function isNotFetched(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  return error.name === "ChunkLoadError" || ("code" in error && error.code === "CSS_CHUNK_LOAD_FAILED");
}

/** Why something could not be done, and what to do where a part of the page did not come. */
export function whyNot(error: unknown): string {
  return isNotFetched(error)
    ? "a part of this page could not be fetched. Either there is no connection, or Kernbook was updated " +
        "since the page was opened. Try again; if that does not help, reload the page"
    : reasonOf(error);
}
