import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { runSheet } from "../../../src/command/sheet/run.ts";
import { readIndex, readIndexed } from "../../../src/office/index.ts";
import { officeTemplates, removeOfficeTemplate } from "../../../src/templates/offices.ts";
import { small } from "../office/smallTemplate.ts";
import { listener } from "./listener.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "kernbook-templates-"));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  for (const { id } of officeTemplates()) removeOfficeTemplate(id);
});

async function run(...words: readonly string[]) {
  const { voice, heard } = listener();
  const status = await runSheet(words, voice);
  return { status, ...heard() };
}
const put = (name: string, file: unknown): string => {
  const path = join(folder, name);
  writeFileSync(path, JSON.stringify(file));
  return path;
};

describe("templates of the office without a screen", () => {
  it("builds a sheet of a template file", async () => {
    const path = put("small.json", small);
    const out = join(folder, "small.xlsx");
    const { status, said, complained } = await run("--template-file", path, "--template", small.id, "--out", out);
    expect(complained).toBe("");
    expect(status).toBe(0);
    expect(said).toContain("small-check 1.0.0");
    expect(readFileSync(out).subarray(0, 2).toString()).toBe("PK");
    expect((await run("--template-file", path, "--list")).said).toContain("small-check\tSmall check (invented)");
  });

  it("builds a sheet for each member of a table", async () => {
    const path = put("small.json", small);
    const table = join(folder, "members.csv");
    writeFileSync(table, "member,F\nA1,12\nA2,25\n");
    const out = join(folder, "sheets");
    const { status, said, complained } = await run(
      "--template-file",
      path,
      "--template",
      small.id,
      "--members",
      table,
      "--out",
      out,
    );
    expect(complained).toBe("");
    expect(status).toBe(3);
    expect(said).toContain("FAIL");
    const register = readFileSync(join(out, "register.csv"), "utf8");
    // 25 kN over 20 kN.
    expect(register).toMatch(/A2.*FAIL.*1\.25/);
  });

  it("refuses a file with the reason and its name", async () => {
    const path = put("bad.json", { ...small, id: "post-tensioned-en1992-2004" });
    const { status, complained } = await run("--template-file", path, "--template", "x", "--out", "x.xlsx");
    expect(status).toBe(1);
    expect(complained).toContain("bad.json");
    expect(complained).toContain("that of a shipped template");
  });

  it("writes the index of a folder, which tells a file that was changed since", async () => {
    put("small.json", small);
    expect((await run("--index-templates", folder)).status).toBe(0);
    const index = readIndex(readFileSync(join(folder, "index.json"), "utf8"));
    expect(index.templates.map(({ file, id }) => [file, id])).toEqual([["small.json", "small-check"]]);
    const path = join(folder, "small.json");
    const [entry] = index.templates;
    expect((await readIndexed(entry!, readFileSync(path, "utf8"))).template.id).toBe("small-check");
    put("small.json", { ...small, version: "1.0.1" });
    await expect(readIndexed(entry!, readFileSync(path, "utf8"))).rejects.toThrow(/not the file of the index/);
  });
});
