import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { notices } from "../../../src/command/notices.ts";

const root = fileURLToPath(new URL("../../..", import.meta.url));
const { dependencies, devDependencies } = JSON.parse(readFileSync(`${root}package.json`, "utf8")) as Record<
  "dependencies" | "devDependencies",
  Record<string, string>
>;
const parts = notices(root).split(`\n\n${"-".repeat(80)}\n\n`);
const heads = parts.map((part) => part.split("\n")[0]);

describe("the notices of packages by others", () => {
  it.each(Object.entries(dependencies))("have %s %s with a licence", (name, version) => {
    const part = parts.filter((p) => p.startsWith(`${name} ${version}\n`));
    expect(part).toHaveLength(1);
    expect(part[0]).toMatch(/\nLicence: \S+/);
  });

  it("have each package once, none without a stated licence", () => {
    expect(new Set(heads).size).toBe(heads.length);
    expect(parts.filter((p) => p.includes("\nLicence: not stated\n"))).toEqual([]);
  });

  it("hold the texts the packages carry", () => {
    const text = readFileSync(`${root}node_modules/preact/LICENSE`, "utf8").trim();
    expect(parts.find((p) => p.startsWith("preact "))).toContain(text);
  });

  it("hold the text of every licence, the standard one where a package carries none", () => {
    const without = parts.slice(1).filter((p) => !/\bAS IS\b/.test(p));
    expect(without.map((p) => p.split("\n")[0])).toEqual([]);
    for (const [name, words] of [
      ["@univerjs/protocol", "END OF TERMS AND CONDITIONS"],
      ["seedrandom", "Permission is hereby granted"],
      ["franc-min", "Permission is hereby granted"],
      ["ot-json1", "Permission to use, copy, modify"],
    ] as const)
      expect(parts.find((p) => p.startsWith(`${name} `))).toContain(words);
  });

  it("leave out what only builds and tests", () => {
    for (const name of ["vitest", "webpack", "playwright-core"]) {
      expect(devDependencies[name]).toBeDefined();
      expect(heads.some((head) => head!.startsWith(`${name} `))).toBe(false);
    }
  });
});
