import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { root } from "../../src/command/build.ts";

export interface ChromiumPlace {
  readonly executablePath: string;
  readonly env: Readonly<Record<string, string>>;
}

const pathsOfInstalled = [
  "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome", "/usr/bin/google-chrome-stable", "/usr/bin/microsoft-edge", "/snap/bin/chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome", "/Applications/Chromium.app/Contents/MacOS/Chromium", "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe", "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];

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
  const { version } = JSON.parse(readFileSync(join(root, "node_modules/@sparticuz/chromium/package.json"), "utf8")) as { readonly version: string };
  const folder = join(root, "node_modules", ".cache", "kernbook", `chromium-${version}`);
  if (!existsSync(folder)) {
    const partial = `${folder}.${process.pid}`;
    mkdirSync(partial, { recursive: true });
    const before = { tmp: process.env["TMPDIR"], runtime: process.env["AWS_LAMBDA_JS_RUNTIME"], libraries: process.env["LD_LIBRARY_PATH"], fonts: process.env["FONTCONFIG_PATH"] };
    // The package unpacks where TMPDIR says, and its libraries only where it believes in this runtime.
    Object.assign(process.env, { TMPDIR: partial, AWS_LAMBDA_JS_RUNTIME: "nodejs20.x" });
    try {
      const { default: chromium } = await import("@sparticuz/chromium");
      await chromium.executablePath();
    } finally {
      for (const [name, value] of [["TMPDIR", before.tmp], ["AWS_LAMBDA_JS_RUNTIME", before.runtime], ["LD_LIBRARY_PATH", before.libraries], ["FONTCONFIG_PATH", before.fonts]] as const) {
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

/** The browser for tests: the one named in CHROMIUM_PATH, the one from npm, an installed one. Never none: then it throws. */
export async function findChromium(): Promise<ChromiumPlace> {
  const named = process.env["CHROMIUM_PATH"];
  if (named) {
    if (!existsSync(named)) throw new Error(`CHROMIUM_PATH names ${named}, which does not exist`);
    return { executablePath: named, env: {} };
  }
  if (process.platform === "linux" && process.arch === "x64") return unpacked();
  const installed = pathsOfInstalled.find((path) => existsSync(path));
  if (installed) return { executablePath: installed, env: {} };
  throw new Error("No Chromium for the browser tests. Install Chrome, Chromium or Edge, or name the program in CHROMIUM_PATH.");
}
