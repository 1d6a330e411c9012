import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync } from "node:fs";
import { delimiter, join } from "node:path";
import { root } from "../../src/command/build.ts";

/** A program, or the name under which the browser driver finds an installed one. */
export type ChromiumPlace = ({ readonly executablePath: string } | { readonly channel: string }) & {
  readonly env: Readonly<Record<string, string>>;
};

/** What browsers that render alike are called on the PATH, best first. */
const programs = [
  "chromium",
  "chromium-browser",
  "google-chrome",
  "google-chrome-stable",
  "chrome",
  "microsoft-edge",
  "msedge",
];

function onPath(): string | undefined {
  const endings = process.platform === "win32" ? [".exe"] : [""];
  const folders = (process.env["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  return programs
    .flatMap((name) => folders.flatMap((folder) => endings.map((ending) => join(folder, name + ending))))
    .find((path) => existsSync(path));
}

function systemHasNss(): boolean {
  try {
    return execFileSync("/sbin/ldconfig", ["-p"], { encoding: "utf8" }).includes("libnss3.so");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return false;
    throw error;
  }
}

/**
 * Unpacks the browser that came with npm, once, into a folder of its own: the unpacking is not atomic and must not be seen half done.
 * Its own libraries and fonts come along for systems that have none.
 */
async function unpacked(): Promise<ChromiumPlace> {
  const { version } = JSON.parse(readFileSync(join(root, "node_modules/@sparticuz/chromium/package.json"), "utf8")) as {
    readonly version: string;
  };
  const folder = join(root, "node_modules", ".cache", "kernbook", `chromium-${version}`);
  if (!existsSync(folder)) {
    const partial = `${folder}.${process.pid}`;
    mkdirSync(partial, { recursive: true });
    const before = {
      tmp: process.env["TMPDIR"],
      runtime: process.env["AWS_LAMBDA_JS_RUNTIME"],
      libraries: process.env["LD_LIBRARY_PATH"],
      fonts: process.env["FONTCONFIG_PATH"],
    };
    // The package unpacks where TMPDIR says, and its libraries only where it believes in this runtime.
    Object.assign(process.env, { TMPDIR: partial, AWS_LAMBDA_JS_RUNTIME: "nodejs20.x" });
    try {
      const { default: chromium } = await import("@sparticuz/chromium");
      await chromium.executablePath();
    } finally {
      for (const [name, value] of [
        ["TMPDIR", before.tmp],
        ["AWS_LAMBDA_JS_RUNTIME", before.runtime],
        ["LD_LIBRARY_PATH", before.libraries],
        ["FONTCONFIG_PATH", before.fonts],
      ] as const) {
        if (value === undefined) delete process.env[name];
        else process.env[name] = value;
      }
    }
    try {
      renameSync(partial, folder);
    } catch (error) {
      if (!existsSync(folder)) throw error;
      rmSync(partial, { recursive: true });
    }
  }
  return {
    executablePath: join(folder, "chromium"),
    env: {
      ...(!systemHasNss() && { LD_LIBRARY_PATH: join(folder, "al2023", "lib") }),
      ...(!existsSync("/etc/fonts/fonts.conf") && { FONTCONFIG_PATH: join(folder, "fonts") }),
    },
  };
}

/**
 * The browser for tests: the one named in CHROMIUM_PATH, the one from npm, one on the PATH, one that the browser
 * driver knows. Where there is none the launch throws.
 */
export async function findChromium(): Promise<ChromiumPlace> {
  const named = process.env["CHROMIUM_PATH"];
  if (named) {
    if (!existsSync(named)) throw new Error(`CHROMIUM_PATH names ${named}, which does not exist`);
    return { executablePath: named, env: {} };
  }
  if (process.platform === "linux" && process.arch === "x64") return unpacked();
  const installed = onPath();
  if (installed) return { executablePath: installed, env: {} };
  // Every Windows has Edge.
  return { channel: process.platform === "win32" ? "msedge" : "chrome", env: {} };
}
