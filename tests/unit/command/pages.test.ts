import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, renameSync, rmSync, symlinkSync, truncateSync, writeFileSync } from "node:fs";
import { createServer, request, type IncomingHttpHeaders, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { putInPlace } from "../../../src/command/build.ts";
import { builtPages } from "../../../src/command/serve/builtPages.ts";
import { folderFile } from "../../../src/command/serve/folderFile.ts";
import { listen } from "../../../src/command/serve/listen.ts";
import { pages } from "../../../src/command/serve/pages.ts";
import { sayWhenRebuilt } from "../../../src/command/serve/rebuilt.ts";
import { servedFile } from "../../../src/command/serve/servedFile.ts";

let home: string;
let folder: string;
let server: Server;
const complaints: string[] = [];

beforeEach(async () => {
  home = mkdtempSync(join(tmpdir(), "pages-"));
  folder = join(home, "dist");
  mkdirSync(join(folder, "icons"), { recursive: true });
  writeFileSync(join(folder, "index.html"), "<p>first</p>");
  complaints.length = 0;
  server = createServer(pages({ folder, headers: { "X-Test": "1" }, complain: (text) => complaints.push(text) }));
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
});
afterEach(async () => {
  server.closeAllConnections();
  await new Promise((resolve) => server.close(resolve));
  rmSync(home, { recursive: true });
});

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

function ask(path: string, headers: Record<string, string> = {}, method = "GET"): Promise<Answer> {
  const { port } = server.address() as AddressInfo;
  return new Promise((resolve, reject) => {
    const asked = request({ host: "127.0.0.1", port, path, headers, method, timeout: 5000 }, (response) => {
      const parts: Buffer[] = [];
      response.on("data", (part: Buffer) => parts.push(part));
      response.on("error", reject);
      response.on("end", () =>
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          body: Buffer.concat(parts).toString(),
        }),
      );
    });
    asked.on("timeout", () => asked.destroy(new Error("no answer in 5 s")));
    asked.on("error", reject);
    asked.end();
  });
}

describe("the page server, while the folder changes", () => {
  it("serves a grown file whole", async () => {
    await ask("/");
    writeFileSync(join(folder, "index.html"), "<p>first, and much more than before</p>");
    expect((await ask("/")).body).toBe("<p>first, and much more than before</p>");
  });

  it("answers a changed file of the same length, though the client knows the old one", async () => {
    const { headers } = await ask("/");
    writeFileSync(join(folder, "index.html"), "<p>FIRST</p>");
    const again = await ask("/", { "If-None-Match": headers.etag! });
    expect([again.status, again.body]).toEqual([200, "<p>FIRST</p>"]);
  });

  it("serves a shrunk file, and does not leave the client waiting", async () => {
    await ask("/");
    truncateSync(join(folder, "index.html"), 3);
    expect((await ask("/")).body).toBe("<p>");
  });

  it("serves a new file, and answers 404 for one removed", async () => {
    expect((await ask("/new.js")).status).toBe(404);
    writeFileSync(join(folder, "new.js"), "1");
    const found = await ask("/new.js");
    expect([found.status, found.headers["content-type"]]).toEqual([200, "text/javascript;charset=utf-8"]);
    rmSync(join(folder, "new.js"));
    expect((await ask("/new.js")).status).toBe(404);
    expect((await ask("/")).status).toBe(200);
  });

  it.skipIf(process.platform === "win32")("answers 404 for a pipe, and does not wait for its writer", async () => {
    execFileSync("mkfifo", [join(folder, "pipe.js")]);
    expect((await ask("/pipe.js")).status).toBe(404);
  });

  it("goes on after an error of its own while it listens, and says so", async () => {
    const other = createServer(pages({ folder, headers: {} }));
    const said = vi.spyOn(console, "error").mockImplementation(() => undefined);
    try {
      expect(await listen(other, 0, "127.0.0.1")).toBe(true);
      other.emit("error", new Error("too many open files"));
      expect(said).toHaveBeenCalledWith(expect.stringContaining("too many open files"));
    } finally {
      said.mockRestore();
      await new Promise((resolve) => other.close(resolve));
    }
  });

  it("waits for a build that is being put in place", async () => {
    renameSync(folder, join(home, "away"));
    const waiting = ask("/");
    await new Promise((resolve) => setTimeout(resolve, 100));
    renameSync(join(home, "away"), folder);
    expect((await waiting).status).toBe(200);
  });

  it("gives whole files of one build or the other through twenty builds", async () => {
    const text = (build: number): string => `${build}:${"x".repeat(10_000 + build)}`;
    const seen = new Set<string>();
    for (let build = 0; build < 20; build++) {
      const next = join(home, `next-${build}`);
      mkdirSync(next);
      writeFileSync(join(next, "index.html"), text(build));
      const answers = Array.from({ length: 5 }, () => ask("/"));
      putInPlace(next, folder);
      for (const { status, body } of await Promise.all(answers)) {
        expect(status).toBe(200);
        seen.add(body);
      }
      expect((await ask("/")).body).toBe(text(build));
    }
    const whole = new Set(["<p>first</p>", ...Array.from({ length: 20 }, (_, build) => text(build))]);
    expect([...seen].filter((body) => !whole.has(body))).toEqual([]);
  });

  it("looks again for a file that was missing because a build took its place meanwhile", async () => {
    let reads = 0;
    const found = await servedFile(folder, "/", async (...asked) => {
      if (reads++ > 0) return folderFile(...asked);
      renameSync(folder, join(home, "away"));
      setTimeout(() => renameSync(join(home, "away"), folder), 60);
      return folderFile(...asked);
    });
    expect([reads, found?.content.toString()]).toEqual([2, "<p>first</p>"]);
  });

  it("looks once for a file that the build does not have", async () => {
    let reads = 0;
    const read: typeof folderFile = (...asked) => {
      reads++;
      return folderFile(...asked);
    };
    expect(await servedFile(folder, "/missing", read)).toBeUndefined();
    expect(reads).toBe(1);
  });

  it("says once that a new build is served", async () => {
    const said: string[] = [];
    const timer = sayWhenRebuilt(folder, (line) => said.push(line), 10);
    mkdirSync(join(home, "next"));
    putInPlace(join(home, "next"), folder);
    await new Promise((resolve) => setTimeout(resolve, 100));
    clearInterval(timer);
    expect(said).toHaveLength(1);
  });
});

describe("the page server", () => {
  it("answers 304 where the client has the file as it is", async () => {
    const { headers } = await ask("/");
    expect(await ask("/", { "If-None-Match": headers.etag! })).toMatchObject({ status: 304, body: "" });
    expect((await ask("/", { "If-None-Match": `"other", W/${headers.etag}` })).status).toBe(304);
  });

  it("answers parts", async () => {
    const part = await ask("/", { Range: "bytes=3-7" });
    expect(part).toMatchObject({ status: 206, body: "first" });
    expect(part.headers["content-range"]).toBe("bytes 3-7/12");
  });

  it.each(["bytes=12-", "bytes=9-3", "bytes=x-y"])("answers 416 for the range %s", async (Range) => {
    const { status, headers } = await ask("/", { Range });
    expect([status, headers["content-range"]]).toEqual([416, "bytes */12"]);
  });

  it("sends the whole file where the part asked for was of another content", async () => {
    expect((await ask("/", { Range: "bytes=0-1", "If-Range": '"old"' })).status).toBe(200);
  });

  it("ignores ranges of other units, and ranges of HEAD", async () => {
    expect((await ask("/", { Range: "chapters=1-2" })).status).toBe(200);
    expect((await ask("/", { Range: "bytes=0-1" }, "HEAD")).status).toBe(200);
  });

  it("answers HEAD without a body, and with the length", async () => {
    const head = await ask("/", {}, "HEAD");
    expect([head.status, head.body, head.headers["content-length"]]).toEqual([200, "", "12"]);
  });

  it.each(["POST", "PUT", "DELETE", "PATCH", "OPTIONS"])("answers 405 for %s", async (method) => {
    const { status, headers } = await ask("/", {}, method);
    expect([status, headers.allow]).toEqual([405, "GET, HEAD"]);
  });

  it("gives every answer its headers", async () => {
    for (const path of ["/", "/missing"]) expect((await ask(path)).headers["x-test"]).toBe("1");
  });

  it.each(["workbench", "addin"] as const)("says who may show the pages of the %s in a frame", async (as) => {
    const own = createServer(builtPages(as, folder));
    await new Promise<void>((resolve) => own.listen(0, "127.0.0.1", resolve));
    try {
      for (const path of ["/", "/missing"]) {
        const { port } = own.address() as AddressInfo;
        const { headers } = await fetch(`http://127.0.0.1:${port}${path}`);
        const policy = headers.get("content-security-policy");
        expect(policy).toMatch(as === "addin" ? /^frame-ancestors 'self' https:/ : /^frame-ancestors 'self'$/);
      }
    } finally {
      own.closeAllConnections();
      await new Promise((resolve) => own.close(resolve));
    }
  });

  it.each(["/../secret", "/%2e%2e/secret", "/..%2fsecret", "/.hidden", "/icons/../../secret", "/%00", "//secret"])(
    "gives nothing from outside or hidden: %s",
    async (path) => {
      writeFileSync(join(home, "secret"), "secret");
      writeFileSync(join(folder, ".hidden"), "hidden");
      const { status, body } = await ask(path);
      expect(status).toBe(404);
      expect(body).not.toMatch(/secret|hidden/);
    },
  );

  it("answers 400 for an escape that can't be read", async () => {
    expect((await ask("/%E0%A4%A")).status).toBe(400);
  });

  it("answers 404 for a folder and for a link that leads nowhere", async () => {
    symlinkSync(join(home, "nowhere"), join(folder, "dead.js"));
    symlinkSync("round.js", join(folder, "round.js"));
    for (const path of ["/icons", "/icons/", "/dead.js", "/round.js"]) expect((await ask(path)).status).toBe(404);
    expect(complaints).toEqual([]);
  });

  it("follows a link within the folder, and none that leads out of it or to a hidden file", async () => {
    mkdirSync(join(home, "dist-secret"));
    mkdirSync(join(folder, ".hidden"));
    for (const place of [home, join(home, "dist-secret"), join(folder, ".hidden")])
      writeFileSync(join(place, "secret.txt"), "secret");
    symlinkSync(join(home, "secret.txt"), join(folder, "file.txt"));
    symlinkSync(join(home, "dist-secret"), join(folder, "next"));
    symlinkSync("..", join(folder, "up"));
    symlinkSync(".hidden", join(folder, "shown"));
    symlinkSync("index.html", join(folder, "again.html"));
    for (const path of ["/file.txt", "/next/secret.txt", "/up/secret.txt", "/shown/secret.txt"]) {
      const { status, body } = await ask(path);
      expect([path, status]).toEqual([path, 404]);
      expect(body).not.toContain("secret");
    }
    expect((await ask("/again.html")).body).toBe("<p>first</p>");
    expect(complaints).toEqual([]);
  });
});
