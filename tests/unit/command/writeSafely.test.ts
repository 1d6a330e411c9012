import { spawn } from "node:child_process";
import {
  chmodSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { NotWritten, takeFreeName, writeSafely as writeTelling } from "../../../src/command/writeSafely.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "write-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const bytes = Buffer.from("new");
const at = (name: string): string => join(folder, name);
const writeSafely = (path: string, contents: Uint8Array, force: boolean): void =>
  writeTelling(path, contents, force, (left) => expect(left).toBeUndefined());

describe("writing a file whole or not at all", () => {
  it("writes a file whose name is as long as file systems allow", () => {
    const name = `${"n".repeat(250)}.xlsx`;
    writeSafely(at(name), bytes, false);
    expect(readdirSync(folder)).toEqual([name]);
  });

  it("refuses a name that is too long, and leaves nothing", () => {
    expect(() => writeSafely(at(`${"n".repeat(300)}.xlsx`), bytes, false)).toThrow(NotWritten);
    expect(readdirSync(folder)).toEqual([]);
  });

  it.each([true, false])("never replaces a link or what it leads to (force: %s)", (force) => {
    writeFileSync(at("theirs.xlsx"), "theirs", { mode: 0o640 });
    symlinkSync(at("theirs.xlsx"), at("link.xlsx"));
    expect(() => writeSafely(at("link.xlsx"), bytes, force)).toThrow(/is a link to .*theirs\.xlsx; give the name/);
    expect(lstatSync(at("link.xlsx")).isSymbolicLink()).toBe(true);
    expect(readFileSync(at("theirs.xlsx"), "utf8")).toBe("theirs");
    expect(statSync(at("theirs.xlsx")).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder)).toHaveLength(2);
  });

  it("refuses a link that leads nowhere", () => {
    symlinkSync(at("nowhere"), at("link.xlsx"));
    expect(() => writeSafely(at("link.xlsx"), bytes, true)).toThrow(/is a link to/);
  });

  it("refuses a folder", () => {
    mkdirSync(at("folder.xlsx"));
    expect(() => writeSafely(at("folder.xlsx"), bytes, true)).toThrow(/is no file/);
  });

  it("replaces a file only when told to, and keeps its permissions", () => {
    writeFileSync(at("mine.xlsx"), "mine");
    chmodSync(at("mine.xlsx"), 0o600);
    expect(() => writeSafely(at("mine.xlsx"), bytes, false)).toThrow(/--force replaces it/);
    expect(readFileSync(at("mine.xlsx"), "utf8")).toBe("mine");
    writeSafely(at("mine.xlsx"), bytes, true);
    expect(readFileSync(at("mine.xlsx"), "utf8")).toBe("new");
    expect(statSync(at("mine.xlsx")).mode & 0o777).toBe(0o600);
    expect(readdirSync(folder)).toEqual(["mine.xlsx"]);
  });

  it("leaves a file that took the name between the look at it and the writing", () => {
    writeFileSync(at("beside"), bytes);
    writeFileSync(at("new.xlsx"), "theirs");
    expect(() => takeFreeName(at("beside"), at("new.xlsx"))).toThrow(/is there already/);
    expect(readFileSync(at("new.xlsx"), "utf8")).toBe("theirs");
    takeFreeName(at("beside"), at("free.xlsx"));
    expect(readdirSync(folder).sort()).toEqual(["free.xlsx", "new.xlsx"]);
  });

  it("says what is left over of a file that is written, and not that it could not be written", () => {
    writeFileSync(at("beside"), bytes);
    const left = takeFreeName(at("beside"), at("new.xlsx"), () => {
      throw new Error("the disk went away");
    });
    expect(readFileSync(at("new.xlsx"), "utf8")).toBe("new");
    expect(left).toBe(
      `${at("new.xlsx")} is written; ${at("beside")} is left over and could not be removed: the disk went away`,
    );
  });

  it.each([
    ["one file after another", "next(0)"],
    [
      "as the first thing a program does",
      "for (let i = 0; i < 8; i++) writeSafely(folder + '/' + i + '.xlsx', bytes, false, console.error); setTimeout(() => {}, 5000)",
    ],
  ])("leaves whole files and nothing else when ended while it writes, %s", async (_name, begin) => {
    const script = `
      const folder = ${JSON.stringify(folder)};
      import { writeSafely } from ${JSON.stringify(join(import.meta.dirname, "../../../src/command/writeSafely.ts"))};
      const bytes = Buffer.alloc(20_000_000, 1);
      const next = (i) => {
        writeSafely(folder + "/" + i + ".xlsx", bytes, false, console.error);
        setTimeout(next, 0, i + 1);
      };
      console.log("ready");
      ${begin};`;
    // In the process itself: the program around it would kill one that does not answer within a tenth of a second.
    const tsx = pathToFileURL(join(import.meta.dirname, "../../../node_modules/tsx/dist/loader.mjs")).href;
    const file = at("script.mts");
    writeFileSync(file, script);
    const child = spawn(process.execPath, ["--import", tsx, file], { stdio: ["ignore", "pipe", "inherit"] });
    await new Promise((resolve) => child.stdout.once("data", resolve));
    // Long enough for the first write to begin, and for the eight not to end.
    await new Promise((resolve) => setTimeout(resolve, 40));
    child.kill("SIGINT");
    const status = await new Promise((resolve) => child.on("exit", resolve));
    expect(status).toBe(130);
    const left = readdirSync(folder).filter((name) => name !== "script.mts");
    expect(left.filter((name) => !/^\d+\.xlsx$/.test(name))).toEqual([]);
    for (const name of left) expect(statSync(at(name)).size).toBe(20_000_000);
  });
});
