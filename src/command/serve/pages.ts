import { createHash } from "node:crypto";
import type { IncomingMessage, RequestListener, ServerResponse } from "node:http";
import { lookup } from "mrmime";
import { reasonOf } from "../../core/index.ts";
import { byteRange } from "./byteRange.ts";
import type { FolderFile } from "./folderFile.ts";
import { servedFile } from "./servedFile.ts";

export interface Served {
  readonly folder: string;
  /** Headers of every answer. */
  readonly headers?: Readonly<Record<string, string>>;
  /** Where a file that can't be read is reported. */
  readonly complain?: (text: string) => void;
}

/** The path of a request, decoded; undefined where its escapes can't be read. */
function addressOf(request: IncomingMessage): string | undefined {
  try {
    const target = request.url ?? "/";
    return decodeURIComponent(new URL(target.startsWith("/") ? `http://localhost${target}` : target).pathname);
  } catch (error) {
    // What is no address, and what escapes cannot be.
    if (error instanceof TypeError || error instanceof URIError) return undefined;
    throw error;
  }
}

function contentType(path: string): string {
  const type = lookup(path) ?? "application/octet-stream";
  return type.startsWith("text/") || type.endsWith("javascript") ? `${type};charset=utf-8` : type;
}

function end(response: ServerResponse, status: number, text: string): void {
  response.writeHead(status, { "Content-Type": "text/plain;charset=utf-8", "Content-Length": Buffer.byteLength(text) });
  response.end(text);
}

function send(request: IncomingMessage, response: ServerResponse, { content, path }: FolderFile): void {
  const tag = `"${createHash("sha256").update(content).digest("base64url").slice(0, 27)}"`;
  // The program shows icons of its own where it may not keep ours.
  if (!/[\\/]icons[\\/]/.test(path)) response.setHeader("Cache-Control", "no-cache");
  response.setHeader("ETag", tag);
  response.setHeader("Accept-Ranges", "bytes");
  const known = request.headers["if-none-match"]?.split(",").map((one) => one.trim().replace(/^W\//, "")) ?? [];
  if (known.includes(tag) || known.includes("*")) {
    response.writeHead(304).end();
    return;
  }
  const wholeAgain = "if-range" in request.headers && request.headers["if-range"] !== tag;
  const inParts = request.method === "GET" && !wholeAgain;
  const range = inParts ? byteRange(request.headers.range, content.length) : "ALL";
  if (range === "NONE") {
    response.setHeader("Content-Range", `bytes */${content.length}`);
    end(response, 416, "No such range of bytes in this file");
    return;
  }
  const part = range === "ALL" ? content : content.subarray(range.first, range.last + 1);
  if (range !== "ALL") response.setHeader("Content-Range", `bytes ${range.first}-${range.last}/${content.length}`);
  response.writeHead(range === "ALL" ? 200 : 206, {
    "Content-Type": contentType(path),
    "Content-Length": part.length,
  });
  response.end(part);
}

async function answer(request: IncomingMessage, response: ServerResponse, served: Served): Promise<void> {
  response.setHeader("X-Content-Type-Options", "nosniff");
  for (const [name, value] of Object.entries(served.headers ?? {})) response.setHeader(name, value);
  if (request.method !== "GET" && request.method !== "HEAD") {
    response.setHeader("Allow", "GET, HEAD");
    return end(response, 405, "Only GET and HEAD are answered here");
  }
  const address = addressOf(request);
  if (address === undefined) return end(response, 400, "The address has an escape that can't be read");
  const file = await servedFile(served.folder, address);
  if (file === undefined) return end(response, 404, "Not found");
  send(request, response, file);
}

/**
 * Serves the files of a folder as they are at the moment of each request: a file is read whole before the answer
 * begins, so a build in between changes the next answer and never one that is on its way. A file that can't be read is
 * answered with 500 and reported; nothing ends the process.
 */
export function pages(served: Served): RequestListener {
  return (request, response) => {
    answer(request, response, served).catch((error: unknown) => {
      served.complain?.(`${request.url} could not be served: ${reasonOf(error)}`);
      if (response.headersSent) response.destroy();
      else end(response, 500, "The file could not be read");
    });
  };
}
