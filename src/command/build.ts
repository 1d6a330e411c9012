import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { uninterrupted } from "./uninterrupted.ts";

export const root = fileURLToPath(new URL("../..", import.meta.url));
export const dist = join(root, "dist");

const cache = join(root, ".cache");
const made = join(cache, "built");
const from = ["src", "functions", "taskpane", "manifest", "package-lock.json", "package.json", "tsconfig.json"];

/** Every file of a folder and those below, in the order of names. */
export function* filesUnder(path: string): Generator<string> {
  const entries = readdirSync(path, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    const at = join(path, entry.name);
    if (entry.isDirectory()) yield* filesUnder(at);
    else yield at;
  }
}

/** A hash of everything the built pages depend on. */
function stateOfSources(): string {
  const hash = createHash("sha256").update(`KERNBOOK_ADDRESS=${process.env["KERNBOOK_ADDRESS"] ?? ""}\n`);
  const roots = [...from, ...readdirSync(root).filter((name) => name.startsWith("webpack.config."))]
    .map((name) => join(root, name))
    .filter((path) => existsSync(path));
  for (const path of roots) {
    const files = path.endsWith(".json") || path.includes("webpack.config.") ? [path] : filesUnder(path);
    for (const file of files) hash.update(relative(root, file)).update(readFileSync(file));
  }
  return hash.digest("hex");
}

function webpack(into: string): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(
      process.execPath,
      [join(root, "node_modules", "webpack", "bin", "webpack.js"), "--mode", "production", "--output-path", into],
      { cwd: root, stdio: ["ignore", 2, 2] },
    );
    child.on("error", reject);
    child.on("exit", (code) => resolve(code ?? 1));
  });
}

/** Puts a new folder in the place of an old one, so that whoever reads there sees the one or the other, never half of each. */
export function putInPlace(next: string, place: string): void {
  const before = `${next}.before`;
  const replaces = existsSync(place);
  uninterrupted(() => {
    if (replaces) renameSync(place, before);
    try {
      renameSync(next, place);
    } catch (error) {
      if (replaces) renameSync(before, place);
      throw error;
    }
    rmSync(before, { recursive: true, force: true });
  });
}

/** The folder of a build in the making, or of the one that it replaces, with the process that makes it. */
const inTheMaking = /^build-(?<pid>\d+)(?<replaced>\.before)?$/;

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // A process of another user may not be signalled, but runs.
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

/**
 * Removes what builds left in a folder when they were broken off. Where one was killed after it had put the old pages
 * aside, these go back to their place.
 */
export function removeBrokenBuilds(folder: string, place: string): void {
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder)) {
    const groups = inTheMaking.exec(name)?.groups;
    if (!groups || isRunning(Number(groups["pid"]))) continue;
    const left = join(folder, name);
    if (groups["replaced"] !== undefined && !existsSync(place)) renameSync(left, place);
    else rmSync(left, { recursive: true, force: true });
  }
}

/** The folder of an office's templates among the built pages, with their index. */
export const templatesFolder = "templates";

/** Puts the templates that an office added to the pages of one build among those of the next. */
export function carryTemplates(from: string, to: string): void {
  const folder = join(from, templatesFolder);
  if (existsSync(folder)) cpSync(folder, join(to, templatesFolder), { recursive: true });
}

/** Builds the pages into `dist`, whose old pages stay until the new ones are complete. Rejects when the build fails. */
export async function build(say: (text: string) => void): Promise<void> {
  removeBrokenBuilds(cache, dist);
  const state = stateOfSources();
  const next = join(cache, `build-${process.pid}`);
  mkdirSync(cache, { recursive: true });
  say("building the pages (a minute or so) …");
  const began = Date.now();
  try {
    if ((await webpack(next)) !== 0) throw new Error("the build failed; its messages stand above");
    carryTemplates(dist, next);
    putInPlace(next, dist);
    writeFileSync(made, state);
  } finally {
    rmSync(next, { recursive: true, force: true });
  }
  say(`built in ${Math.round((Date.now() - began) / 1000)} s`);
}

/** Builds the pages if their sources have changed since the last build. Rejects when the build fails. */
export async function buildIfStale(say: (text: string) => void): Promise<void> {
  removeBrokenBuilds(cache, dist);
  const upToDate =
    existsSync(join(dist, "index.html")) && existsSync(made) && readFileSync(made, "utf8") === stateOfSources();
  if (!upToDate) await build(say);
}
