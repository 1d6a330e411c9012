import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { runSheet } from "../../../src/command/sheet/run.ts";
import { openWorkbook, writeBook, type BookCell } from "../../../src/hosts/index.ts";
import { readTemplate } from "../../../src/office/index.ts";
import { officeTemplates, removeOfficeTemplate } from "../../../src/templates/offices.ts";
import { small } from "../office/smallTemplate.ts";
import { listener } from "./listener.ts";

let folder = "";
let file = "";
let book = "";
let out = "";
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "kernbook-keep-"));
  file = join(folder, "small.json");
  book = join(folder, "small.xlsx");
  out = join(folder, "office.json");
  writeFileSync(file, JSON.stringify(small));
  const built = ["--template-file", file, "--template", small.id, "--sheet-name", "Beam", "--out", book];
  expect((await run(...built)).status).toBe(0);
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
const keep = (...more: readonly string[]) =>
  run(
    ...["--keep-template", book, "--sheet", "Beam", "--id", "alder-small", "--title", "Alder small"],
    ...["--office", "Alder Office (invented)", "--version", "1.0.0", "--out", out, ...more],
  );

/** Changes cells of the workbook's file. */
function edited(change: (cell: BookCell) => BookCell): void {
  const { workbook } = openWorkbook(readFileSync(book));
  const sheets = workbook.sheets.map((sheet) => ({ ...sheet, cells: sheet.cells.map(change) }));
  writeFileSync(book, writeBook({ ...workbook, sheets }));
}

describe("a template of the office from a workbook's file", () => {
  it("holds what was changed by hand, lists it, and builds a sheet", async () => {
    edited((cell) => (cell.value === "force" ? { ...cell, value: "force as measured" } : cell));
    const { status, said, complained } = await keep("--template-file", file);
    expect(complained).toBe("");
    expect(status).toBe(0);
    expect(said).toMatch(/changed: [A-Z]+\d+: .*\(F\)/);
    expect(said).not.toContain("(F) (F)");
    expect(said).toContain('now: "force as measured"');
    const { template } = await readTemplate(readFileSync(out));
    expect(template).toMatchObject({ id: "alder-small", office: "Alder Office (invented)", version: "1.0.0" });
    expect(JSON.stringify(template.blocks)).toContain("force as measured");
    const built = join(folder, "built.xlsx");
    expect((await run("--template-file", out, "--template", "alder-small", "--out", built)).status).toBe(0);
    // The example of the small template: 12 kN over 20 kN.
    const values = openWorkbook(readFileSync(built)).workbook.sheets[0]!.cells.map(({ value }) => value);
    expect(values).toContain("force as measured");
    expect(values).toContain(0.6);
  });

  it("says which values of the sheet are only its example, and makes defaults of those that are named", async () => {
    const plain = await keep("--template-file", file);
    expect(plain.status).toBe(0);
    expect(plain.said).toContain("only the example, with the template's default in brackets: F = 12 (10)");
    expect((await readTemplate(readFileSync(out))).template.blocks[0]!.items[0]).toMatchObject({
      input: { default: 10 },
    });
    const stray = await keep("--template-file", file, "--force", "--default", "F,Fmax");
    expect([stray.status, stray.complained]).toEqual([1, expect.stringContaining("--default Fmax: no input")]);
    const made = await keep("--template-file", file, "--force", "--default", "F");
    expect(made.status).toBe(0);
    expect(made.said).not.toContain("only the example");
    expect((await readTemplate(readFileSync(out))).template.blocks[0]!.items[0]).toMatchObject({
      input: { default: 12 },
    });
  });

  it("locks no input whose value on the sheet is other than the default it would keep", async () => {
    const { status, complained } = await keep("--template-file", file, "--lock", "F");
    expect(status).toBe(1);
    expect(complained).toMatch(/[A-Z]+\d+: F is locked and would keep the default 10, while the sheet has 12/);
    expect(existsSync(out)).toBe(false);
    expect((await keep("--template-file", file, "--lock", "F", "--default", "F")).status).toBe(0);
    expect((await readTemplate(readFileSync(out))).template).toMatchObject({ locked: ["F"] });
  });

  it("is refused with the cell, and nothing is written", async () => {
    let at = "";
    edited((cell) => {
      if (cell.formula === undefined || !/^=?\$?H\$?\d+\/\$?H\$?\d+$/.test(cell.formula)) return cell;
      at = `H${cell.row + 1}`;
      return { ...cell, formula: `${cell.formula}*7.5` };
    });
    expect(at).not.toBe("");
    const { status, complained } = await keep("--template-file", file);
    expect(status).toBe(1);
    expect(complained).toContain(`${at}: `);
    expect(complained).toContain("the number 7.5 is typed into the formula");
    expect(existsSync(out)).toBe(false);
  });

  it("says which template is missing, which sheets there are, and which options", async () => {
    removeOfficeTemplate(small.id);
    expect((await keep()).complained).toContain("small-check 1.0.0, which is not known here");
    expect((await keep("--sheet", "Slab")).complained).toContain("has no sheet “Slab”; sheets: Beam");
    expect((await keep("--id", "post-tensioned-en1992-2004")).complained).toContain("that of a shipped template");
    const { status, complained } = await run("--keep-template", book, "--version", "1");
    expect(status).toBe(1);
    expect(complained).toContain("--sheet is missing");
    expect(complained).toContain("--version 1: it has three numbers");
    expect((await run("--list", "--office", "x")).complained).toContain("--office goes with --keep-template");
  });
});
