/** Answers of a server that has no such file; some stores say 403 for it. */
const absent: ReadonlySet<number> = new Set([403, 404, 410]);

/** A file that is served beside the page, as text; undefined where there is none. Throws where it did not come. */
export async function fetchBeside(path: string): Promise<string | undefined> {
  // The browser asks whether its copy is still that of the server.
  const answer = await fetch(new URL(path, document.baseURI), { cache: "no-cache" });
  if (absent.has(answer.status)) return undefined;
  if (!answer.ok) throw new Error(`${path} could not be fetched: the server answers ${answer.status}`);
  // A server that shows its start page for whatever it does not have.
  if (answer.headers.get("Content-Type")?.startsWith("text/html")) return undefined;
  return answer.text();
}
