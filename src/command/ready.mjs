/**
 * Makes the working copy ready before any other command: checks Node and installs the packages when they are missing or the lock file has changed.
 * Plain Node without a dependency, because nothing is installed yet. Speaks on stderr only, and not at all when there is nothing to do.
 */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const oldestNode = 20;
const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const lockFile = join(root, "package-lock.json");
const modules = join(root, "node_modules");
const stampFile = join(modules, ".kernbook-installed");
/** Outside node_modules, which `npm ci` removes. */
const cache = join(root, ".cache");
const turn = join(cache, "installing");
const turnMinutes = 20;

const say = (text) => process.stderr.write(`kernbook: ${text}\n`);

function fail(text) {
  say(text);
  process.exit(1);
}

function textOf(file) {
  try {
    return readFileSync(file, "utf8");
  } catch (error) {
    if (error.code === "ENOENT") return undefined;
    throw error;
  }
}

/** What an install depends on: the lock file's content, and the platform for packages with binaries. */
function wantedStamp() {
  const lock = textOf(lockFile) ?? fail("package-lock.json is missing; the working copy is incomplete");
  return createHash("sha256").update(lock).update(`${process.platform} ${process.arch}`).digest("hex");
}

/** Has npm itself, called by hand, already installed what the lock file says? */
function installedByHand() {
  const record = textOf(join(modules, ".package-lock.json"));
  if (record === undefined) return false;
  const present = JSON.parse(record).packages ?? {};
  const wanted = JSON.parse(textOf(lockFile)).packages ?? {};
  return Object.entries(wanted).every(
    ([path, entry]) => path === "" || entry.optional || present[path]?.version === entry.version,
  );
}

const isReady = (stamp) => textOf(stampFile) === stamp;

function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === "EPERM";
  }
}

/** Takes the turn to install, or says who has it. The folder is renamed into place complete, so that it always names its owner. */
function takeTurn() {
  const mine = join(cache, `installing-${process.pid}`);
  mkdirSync(mine, { recursive: true });
  writeFileSync(join(mine, "pid"), String(process.pid));
  try {
    renameSync(mine, turn);
    return undefined;
  } catch (error) {
    rmSync(mine, { recursive: true, force: true });
    if (!["ENOTEMPTY", "EEXIST", "EPERM", "EACCES"].includes(error.code)) throw error;
    return Number(textOf(join(turn, "pid")) ?? 0);
  }
}

/** Sets aside the turn of an install that has died; puts it back if a living one has come in between. */
function dropDeadTurn(owner) {
  const aside = join(cache, `dropped-${process.pid}`);
  try {
    renameSync(turn, aside);
    if (Number(textOf(join(aside, "pid"))) !== owner) return renameSync(aside, turn);
    rmSync(aside, { recursive: true, force: true });
  } catch (error) {
    if (!["ENOENT", "ENOTEMPTY", "EEXIST"].includes(error.code)) throw error;
  }
}

function isTooOld() {
  try {
    return Date.now() - statSync(turn).mtimeMs > turnMinutes * 60_000;
  } catch (error) {
    if (error.code === "ENOENT") return false;
    throw error;
  }
}

function waitForTurn() {
  let told = false;
  for (;;) {
    const owner = takeTurn();
    if (owner === undefined) return;
    if (owner > 0 && (!isAlive(owner) || isTooOld())) {
      dropDeadTurn(owner);
      continue;
    }
    if (!told) say("another run is installing the packages; waiting for it");
    told = true;
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 200);
  }
}

function install() {
  const own = process.env.npm_execpath;
  const args = ["ci", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error"];
  // npm's own output goes to stderr, so that the output of the command itself stays clean.
  const options = { cwd: root, stdio: ["ignore", 2, 2] };
  const done = own?.endsWith("npm-cli.js")
    ? spawnSync(process.execPath, [own, ...args], options)
    : spawnSync("npm", args, { ...options, shell: process.platform === "win32" });
  if (done.error) fail(`npm could not be started: ${done.error.message}`);
  if (done.status !== 0) fail("the packages could not be installed; npm's message stands above");
}

const major = Number(process.versions.node.split(".")[0]);
if (major < oldestNode)
  fail(
    `Node.js ${oldestNode} or newer is needed; this is ${process.versions.node}. Get it from nodejs.org and run the command again.`,
  );

const stamp = wantedStamp();
if (!isReady(stamp)) {
  waitForTurn();
  process.on("exit", () => rmSync(turn, { recursive: true, force: true }));
  if (!isReady(stamp)) {
    if (!installedByHand()) {
      const began = Date.now();
      say(
        `${textOf(stampFile) === undefined ? "installing the packages (first run)" : "package-lock.json has changed; installing the packages"} …`,
      );
      install();
      say(`packages installed in ${Math.round((Date.now() - began) / 1000)} s`);
    }
    writeFileSync(stampFile, stamp);
  }
}
