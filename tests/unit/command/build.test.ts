import { spawn, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { carryTemplates, removeBrokenBuilds } from "../../../src/command/build.ts";

let home: string;
let place: string;
let cache: string;
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), "build-"));
  place = join(home, "dist");
  cache = join(home, "cache");
  mkdirSync(cache);
});
afterEach(() => rmSync(home, { recursive: true }));

/** A folder with one page. */
function pages(folder: string, text: string): void {
  mkdirSync(folder);
  writeFileSync(join(folder, "index.html"), text);
}
const page = (): string => readFileSync(join(place, "index.html"), "utf8");

describe("builds that were broken off", () => {
  const dead = (): number => spawnSync(process.execPath, ["-e", ""]).pid;

  it("leave nothing behind once another begins; a running one keeps its folder", () => {
    const pid = dead();
    pages(place, "now");
    pages(join(cache, `build-${pid}`), "half");
    pages(join(cache, `build-${pid}.before`), "old");
    pages(join(cache, `build-${process.pid}`), "running");
    writeFileSync(join(cache, "built"), "state");
    removeBrokenBuilds(cache, place);
    expect(readdirSync(cache)).toEqual([`build-${process.pid}`, "built"]);
    expect(page()).toBe("now");
  });

  it("give the old pages back where they were killed with these put aside", () => {
    const pid = dead();
    pages(join(cache, `build-${pid}`), "new");
    pages(join(cache, `build-${pid}.before`), "old");
    removeBrokenBuilds(cache, place);
    expect(readdirSync(cache)).toEqual([]);
    expect(page()).toBe("old");
  });

  it("have nothing to clear where no build was made yet", () => {
    expect(() => removeBrokenBuilds(join(home, "none"), place)).not.toThrow();
  });
});

it("an office's templates among the pages stay with the next build, in place of its empty list", () => {
  const next = join(cache, "build-1");
  pages(place, "old");
  pages(next, "new");
  carryTemplates(place, next);
  expect(readdirSync(next)).toEqual(["index.html"]);
  for (const [folder, text] of [
    [place, "the office's"],
    [next, "empty"],
  ] as const) {
    mkdirSync(join(folder, "templates"));
    writeFileSync(join(folder, "templates", "index.json"), text);
  }
  writeFileSync(join(place, "templates", "beam.json"), "beam");
  carryTemplates(place, next);
  expect(readdirSync(join(next, "templates"))).toEqual(["beam.json", "index.json"]);
  expect(readFileSync(join(next, "templates", "index.json"), "utf8")).toBe("the office's");
  expect(readFileSync(join(next, "index.html"), "utf8")).toBe("new");
});

it("pages told to end while a new build takes their place end with the new one in place", async () => {
  const next = join(cache, "build-1");
  pages(place, "old");
  pages(next, "new");
  const script = `
    import fs from "node:fs";
    import { syncBuiltinESMExports } from "node:module";
    const rename = fs.renameSync;
    fs.renameSync = (...names) => {
      rename(...names);
      process.kill(process.pid, "SIGINT");
    };
    syncBuiltinESMExports();
    const { putInPlace } = await import(${JSON.stringify(join(import.meta.dirname, "../../../src/command/build.ts"))});
    putInPlace(${JSON.stringify(next)}, ${JSON.stringify(place)});
    setTimeout(() => {}, 5000);`;
  const file = join(home, "script.mts");
  writeFileSync(file, script);
  const tsx = pathToFileURL(join(import.meta.dirname, "../../../node_modules/tsx/dist/loader.mjs")).href;
  const child = spawn(process.execPath, ["--import", tsx, file], { stdio: "inherit" });
  expect(await new Promise((resolve) => child.on("exit", resolve))).toBe(130);
  expect(page()).toBe("new");
  expect(readdirSync(cache)).toEqual([]);
});
