import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { runSheet } from "../../../src/command/sheet/run.ts";
import { openWorkbook } from "../../../src/hosts/index.ts";
import { readWorkbook } from "../../hosts/ourFile.ts";
import { columns, expand } from "../../../src/sheet/index.ts";
import { choosingTemplates, templates } from "../../../src/templates/index.ts";
import { listener } from "./listener.ts";

const root = join(import.meta.dirname, "../../..");
const template = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "sheet-"));
});
afterEach(() => {
  chmodSync(folder, 0o755);
  rmSync(folder, { recursive: true });
});

async function run(...words: readonly string[]) {
  const { voice, heard } = listener();
  const code = await runSheet(words, voice);
  return { code, ...heard() };
}
/** Sentences as they were before they were broken into lines. */
const unbroken = (said: string): string => said.replace(/\n {2}/g, " ");
/** The descriptions of the checks, unbroken. */
function descriptions(said: string): string {
  const lines = said.split("\n");
  const head = lines.findIndex((line) => line.startsWith("  check "));
  const end = lines.findIndex((line) => line.startsWith("Overall verdict"));
  const width = lines[head]!.indexOf("utilisation");
  return lines
    .slice(head + 1, end)
    .map((line) => line.slice(0, width).trim())
    .join(" ");
}
const out = (): string => join(folder, "beam.xlsx");
const write = (...words: readonly string[]) => run("--template", template.id, "--out", out(), ...words);
const readBack = () => readWorkbook(readFileSync(out()));
/** The value of a named cell, or the values of a named column. */
function named(id: string): readonly unknown[] {
  const { names, cells } = readBack();
  const { row, column, rows } = names.find(({ name }) => name === `kb_${id}`)!;
  return cells
    .filter((cell) => cell.column === column && cell.row >= row && cell.row < row + rows)
    .map(({ value }) => value);
}

describe("linked sheets", () => {
  it("stand in the same file, linked to the sheet there, with inputs of their own", async () => {
    const { code, said } = await write("--link", "cross-check", "--set", "soTolLow=0.07", "--set", "tg=70");
    expect(code).toBe(0);
    expect(said).toContain("Linked: Cross-check by time steps");
    const parts = unzipSync(readFileSync(out()));
    const text = (name: string): string => strFromU8(parts[name]!);
    expect(text("xl/workbook.xml")).toContain('name="Cross-check by time steps"');
    const sheet = text("xl/worksheets/sheet2.xml");
    expect(sheet).toMatch(
      /<f>(?:'|&apos;)Alder Quay footbridge beam(?:'|&apos;)!\$H\$\d+<\/f><v>70<\/v>|!\$H\$\d+\)<\/f><v>70<\/v>/,
    );
    expect(sheet).toContain("<v>0.07</v>");
  });
  it("are refused where the template has none of that name, and by themselves", async () => {
    expect((await write("--link", "camber")).complained.replace(/\s+/g, " ")).toContain(
      "there are: cross-check, feasible-domain, end-zones, stressing-record, second-stressing, strength, " +
        "deflection, composite",
    );
    const { code, complained } = await run("--template", `cross-check-${template.id}`, "--out", out());
    expect(code).toBe(1);
    expect(complained).toContain(`write that one, with --link cross-check-${template.id}`);
  });
});

it("names every input that is missing: cell, id with its place in a list, label and place", async () => {
  const { said } = await write("--blank", "--link", "end-zones");
  const [, linked] = said.split("Linked: End zones");
  const lines = [...linked!.matchAll(/^ {2}([A-Z]+\d+) (\w+(?:\[\d+\])*): (.*)$/gm)].map(([, cell, id, label]) => ({
    cell,
    id,
    label,
  }));
  expect(new Set(lines.map(({ cell }) => cell)).size).toBe(lines.length);
  expect(linked).toContain(`Inputs missing: ${lines.length}\n`);
  // Counted from the template: 4 rows, 4 columns of 2 ends and 3 tendons, 5 columns of 2 ends and 6 tensions.
  const own = lines.filter(({ label }) => !/\(linked, stress check/.test(label!));
  expect(own.length).toBe(4 + 4 * 2 * 3 + 5 * 2 * 6);
  expect(lines).toContainEqual(
    expect.objectContaining({
      id: "aiV[2][1]",
      label: expect.stringMatching(/^height of the plate, av \(right end, /) as unknown,
    }),
  );
  expect(lines).toContainEqual(
    expect.objectContaining({ id: "fykE", label: "yield stress of the end-zone steel, fyk" }),
  );
});

describe("what can be asked", () => {
  it("lists every template with its line", async () => {
    const { code, said } = await run("--list");
    expect(code).toBe(0);
    expect(said.split("\n")).toEqual(
      [...templates, ...choosingTemplates].map(({ id, title, line }) => `${id}\t${title}\t${line}`),
    );
  });

  it("lists the inputs of a template, each with its unit, range, default and choices, on lines that fit a screen", async () => {
    const { code, said } = await run("--template", template.id, "--inputs");
    expect(code).toBe(0);
    const lines = said.split("\n");
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(100);
    const ids = lines.flatMap((line) => /^(\w+): /.exec(line)?.[1] ?? []);
    const refused = (await run("--template", template.id, "--out", "x.xlsx", "--set", "nu=0.2")).complained;
    expect(ids).toEqual(/its inputs: (.*)/.exec(refused)![1]!.split(", "));
    expect(said).toMatch(/\nmu: .*\[1\/rad\]\n {2}0 to 1 1\/rad; .*default/);
    expect(said).toMatch(/\ntendons: tendons\n {2}whole numbers, 1 to 6; default 3\n/);
    expect(said).toMatch(/\nsigj: .*\[MPa\]\n {2}a list by tendon; above 0 /);
    expect(said).toMatch(/\n {4}RECTANGLE: rectangle\n/);
    expect((await run("--inputs")).complained).toContain("--template is missing");
  });

  it("lists the inputs of a linked template, by itself and beside its source", async () => {
    const linked = `end-zones-${template.id}`;
    const alone = await run("--template", linked, "--inputs");
    expect(alone.code).toBe(0);
    expect(alone.said.split("\n")[0]).toBe(`Linked to a sheet of ${template.id}, whose shape it has.`);
    // No input of the source is said to be one of the linked sheet's.
    expect(alone.said).not.toMatch(/^tendons: /m);
    expect(unbroken(alone.said)).toMatch(
      /\naiV: .*\[mm\] a list by end and tendon, with “;” between ends and “,” between tendons; 60 to 5000 mm/,
    );
    const beside = await run("--template", template.id, "--inputs", "--link", "end-zones");
    expect(beside.code).toBe(0);
    expect(beside.said).toContain(`End zones (${linked})`);
    expect(beside.said.endsWith(alone.said)).toBe(true);
    expect(beside.said).toMatch(/\nmu: /);
    const twice = await run("--template", linked, "--inputs", "--link", "end-zones");
    expect(twice.complained).toContain("is a linked sheet itself");
  });

  it("explains itself, with the exit codes", async () => {
    const { code, said } = await run("--help");
    expect(code).toBe(0);
    for (const word of ["--list", "--template", "--set", "--blank", "--example", "--out", "--force", "Ends with 0"])
      expect(said).toContain(word);
  });
});

describe("what is refused, with 1 and nothing written", () => {
  it.each<readonly [string, readonly string[], RegExp]>([
    ["an unknown option", ["--templat", "x"], /--templat/],
    ["a call without a template and a file", [], /--template is missing[\s\S]*--out is missing/],
    ["a word without an option", ["mu=0.2"], /“mu=0.2” belongs to no option/],
    [
      "an unknown template",
      ["--template", "nothing", "--out", "x.xlsx"],
      /no template “nothing”; templates: post-tensioned/,
    ],
    ["another kind of file", ["--template", template.id, "--out", "beam.csv"], /“beam.csv” does not end in .xlsx/],
  ])("%s", async (_, words, message) => {
    const { code, complained } = await run(...words);
    expect(code).toBe(1);
    expect(complained).toMatch(message);
  });

  it.each<readonly [string, readonly string[], RegExp]>([
    ["example and blank at once", ["--blank", "--example"], /exclude each other/],
    ["a sheet name no program takes", ["--sheet-name", "a/b"], /not allowed/],
    ["a setting without a value", ["--set", "mu"], /not of the form name=value/],
    ["an unknown input, with the known ones", ["--set", "nu=0.2"], /no input “nu”; its inputs: .*\bmu\b/],
    [
      "a value out of range",
      ["--set", "mu=-0.1"],
      /input mu \(μ, friction coefficient.*\) = −?-?0\.1 1\/rad is below 0; allowed: 0 to 1 1\/rad/,
    ],
    ["a word for a number", ["--set", "mu=rough"], /input mu .*“rough” is not a number; a number in 1\/rad is needed/],
    ["a decimal comma", ["--set", "mu=0,2"], /input mu .*“0,2” is not a number/],
    ["a number of another base", ["--set", "mu=0x1"], /input mu .*“0x1” is not a number/],
    ["an input set twice", ["--set", "mu=0.2", "--set", "k=0.01", "--set", "mu=0.3"], /“mu” is set twice; give each/],
    ["a choice that is none", ["--set", "cement=X"], /input cement .*“X” is not one of the choices; allowed: S/],
    ["a shape that is none", ["--set", "tendons=7"], /input tendons .*= 7 is above 6; allowed: 1 to 6/],
    ["a part of a tendon", ["--set", "tendons=2.5"], /tendons .*2\.5 is not a whole number/],
    [
      "a list of the wrong length",
      ["--set", "sigj=1400,1395"],
      /input sigj lists 2 values; 3 are needed, one for each tendon, with “,” between them/,
    ],
    [
      "a table's row of the wrong length",
      ["--set", "cpL=0,0.5,1;0,0.5;0,0.5,1"],
      /input cpL, tendon 2 lists 2 values; 3 are needed/,
    ],
    [
      "more values than a list has places",
      ["--set", "sigj=1400,1395,1390,1385"],
      /input sigj lists 4 values; 3 are needed, one for each tendon/,
    ],
    [
      "a table of two parts in one, which a linked sheet asks for",
      ["--link", "end-zones", "--set", "aiV=230,230,220,230,230,220"],
      new RegExp(
        "input aiV lists 6 values in 1 part; 6 are needed, in 2 parts: a part for each end, with “;” between ends, " +
          "and in each part 3, one for each tendon, with “,” between them",
      ),
    ],
    [
      "a part too many",
      ["--link", "end-zones", "--set", "aiV=230,230,220;230,230,220;230,230,220"],
      /input aiV lists 9 values in 3 parts; 6 are needed, in 2 parts/,
    ],
    [
      "a part that is too long, of a linked sheet",
      ["--link", "end-zones", "--set", "siDia=12,12,12,12,10,10;12,12,12,12,10,10,10"],
      /input siDia, end 2 lists 7 values; 6 are needed, one for each tension/,
    ],
    [
      "an unknown input beside a linked sheet, with those of both",
      ["--link", "end-zones", "--set", "aiw=1"],
      /no input “aiw”; its inputs: .*\bmu\b.*; inputs of end-zones-post-tensioned-en1992-2004: .*\baiV\b/,
    ],
    [
      "parts of another dimension, with what stands between which",
      ["--link", "stressing-record", "--set", "jkArea=30000|30000"],
      /jkArea=30000\|30000: the values run over jackEnd; separate them by commas/,
    ],
    [
      "a list over three dimensions with too few parts",
      ["--link", "stressing-record", "--set", "rdBar=86,172,257,343,429|86,171,258,343,428"],
      new RegExp(
        "rdBar lists 10 values in 2 parts; 15 are needed, in 3 parts: a part for each tendon, with “\\|” between tendons, " +
          "and in each part a part for each jack, with “;” between jacks, and in each part 5, one for each stage, with “,”",
      ),
    ],
    ["semicolons where one list is needed", ["--set", "sigj=1400;1395;1400"], /over tendon; separate them by commas/],
    [
      "a list value out of range, named by its tendon",
      ["--set", "sigj=1400,0,1400"],
      /input sigj .*tendon 2.*= 0 MPa is not above 0/,
    ],
    [
      "an input the shape has no place for",
      ["--set", "section=RECTANGLE", "--set", "btop=900"],
      /input btop has no place on a sheet of this shape: section = RECTANGLE/,
    ],
  ])("%s", async (_, words, message) => {
    const { code, complained } = await write(...words);
    expect(complained).toMatch(message);
    expect(complained).toContain("Nothing was written");
    expect(code).toBe(1);
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe("writing", () => {
  it("writes the example, says that it is invented, its checks, verdict, cautions and the file", async () => {
    const { code, said, complained } = await write();
    expect([code, complained]).toEqual([0, ""]);
    expect(readdirSync(folder)).toEqual(["beam.xlsx"]);
    const plan = expand(template, template.example.inputs);
    for (const { description, aside } of plan.summary.checks)
      if (aside) expect(descriptions(said)).not.toContain(description);
      else expect(descriptions(said)).toContain(description);
    expect(said).toMatch(/invented example “Alder Quay/);
    const checked =
      /stresses in service only, strength not checked; cross-check of losses on its own sheet;\s+no temperature counted/;
    expect(said).toMatch(new RegExp(`Overall verdict: OK\\nChecked: ${checked.source}\\nWarnings: none\\nCaution: `));
    for (const caution of template.cautions) expect(unbroken(said)).toContain(`Caution: ${caution}`);
    expect(said).toMatch(/Written: .*beam\.xlsx \(\d+ kB\) in \d+\.\d s$/);
    expect(
      readBack()
        .cells.filter(({ formula }) => formula)
        .map(({ formula }) => formula),
    ).toEqual(expect.arrayContaining(plan.cells.filter(({ formula }) => formula).map(({ formula }) => formula)));
  });

  it("takes settings of rows, lists and shape, cuts the example to the shape, and tells a failing design with 0", async () => {
    const { code, said } = await write(
      "--set",
      "sigj=1450,1400",
      "--set",
      "tendons=2",
      "--set",
      "member==1+1",
      "--set",
      "mu=0.2",
      "--set",
      "cpL=0,0.45,1;0,0.5,1",
      "--sheet-name",
      "B 2",
    );
    expect(code).toBe(0);
    expect(said).toContain("tendons = 2");
    expect(unbroken(said)).toContain("with sigj, tendons, member, mu, cpL as set");
    expect(said).toMatch(/stress at the jack +1\.0\d +FAIL +tendon 1, at the jack/);
    expect(said).toMatch(/Overall verdict: FAIL/);
    expect(readBack().sheet).toBe("B 2");
    expect(named("sigj")).toEqual([1450, 1400]);
    expect(named("mu")).toEqual([0.2]);
    expect(named("member")[0]).toBe("=1+1");
    expect(named("cpL")).toEqual([0, 0.45, 1, 0, 0.5, 1]);
  });

  it("takes an empty setting for every place of a list, and for an input that the shape does not ask for", async () => {
    const { code, complained } = await write("--set", "Rlim=", "--set", "section=RECTANGLE", "--set", "btop=");
    expect([code, complained]).toEqual([0, ""]);
    expect(named("Rlim")).toEqual([null, null, null]);
  });

  it("starts from defaults alone where asked, and says what is missing", async () => {
    const { code, said } = await write("--blank", "--set", "fck=45");
    expect(code).toBe(0);
    for (const line of said.split("\n")) if (!line.startsWith("Written:")) expect(line.length).toBeLessThanOrEqual(100);
    expect(said).toMatch(/the template's defaults only, with fck as set/);
    expect(said).not.toContain("Alder Quay");
    expect(said).toMatch(/Overall verdict: INCOMPLETE/);
    expect(said).toMatch(/Inputs missing: (\d+)\n {2}[A-Z]+\d+ \w+(?:\[\d+\])*: .*\n[\s\S]*\nWarnings: \d+\n/);
    expect(said).not.toContain("more on the sheet");
    expect(said).toMatch(/Cells with an error: \d+; enter the missing inputs first/);
    const judged = said.slice(said.indexOf("Governing checks:"), said.indexOf("Overall verdict:"));
    expect(judged).toMatch(/ – +inputs missing$/m);
    expect(judged).not.toContain("#VALUE!");
    expect(named("fck")).toEqual([45]);
    expect(named("L")).toEqual([null]);
  });

  it.each([[[]], [["--portable"]]])("keeps the words that mark what the office gave %j", async (more) => {
    const defaults = join(folder, "office.json");
    const inputs = [{ id: "mu", value: 0.17, unit: "1/rad" }];
    const office = { kind: "kernbook office defaults", office: "Alder Office (invented)", version: "3" };
    writeFileSync(defaults, JSON.stringify({ ...office, date: "2026-11-01", inputs }));
    expect(await write("--defaults", defaults, ...more)).toMatchObject({ code: 0, complained: "" });
    const { cells } = openWorkbook(readFileSync(out())).workbook.sheets[0]!;
    expect(cells.filter(({ column, value }) => column === columns.mark && value === "office")).toHaveLength(1);
  });

  it("says warnings where the sheet has any", async () => {
    expect(unbroken((await write("--set", "mu=0.9")).said)).toMatch(/Warnings: [1-9]\d* input .*μ.* = 0\.9 /);
  });
});

describe("what could not be written, with 2", () => {
  it("leaves a file that is there alone, and replaces it by --force", async () => {
    writeFileSync(out(), "mine");
    const { code, complained } = await write();
    expect(code).toBe(2);
    expect(complained).toMatch(/beam\.xlsx is there already; --force replaces it/);
    expect(readFileSync(out(), "utf8")).toBe("mine");
    expect((await write("--force")).code).toBe(0);
    expect(readBack().protected).toBe(true);
    expect(readdirSync(folder)).toEqual(["beam.xlsx"]);
  });

  it("says that the folder is missing, and leaves nothing behind", async () => {
    const { code, complained } = await run("--template", template.id, "--out", join(folder, "no", "beam.xlsx"));
    expect(code).toBe(2);
    expect(complained).toMatch(/could not be written: .*ENOENT/);
    expect(readdirSync(folder)).toEqual([]);
  });

  it("leaves nothing behind when the last step fails", async () => {
    mkdirSync(join(out(), "inside"), { recursive: true });
    const { code, complained } = await write("--force");
    expect(code).toBe(2);
    expect(complained).toMatch(/beam\.xlsx is there already and is no file/);
    expect(readdirSync(folder)).toEqual(["beam.xlsx"]);
  });
});

it("works as a command: exit code, screen and file", () => {
  const call = (...words: readonly string[]) =>
    spawnSync(process.execPath, ["--import", "tsx", "src/command/sheet.ts", ...words], { cwd: root, encoding: "utf8" });
  const good = call("--template", template.id, "--out", out());
  expect([good.status, good.stderr]).toEqual([0, ""]);
  expect(good.stdout).toContain("Overall verdict: OK");
  const refused = call("--template", template.id, "--out", out());
  expect([refused.status, refused.stdout]).toEqual([2, ""]);
  expect(call("--nothing").status).toBe(1);
  expect(existsSync(out())).toBe(true);
  // Three times a program that loads the grid.
}, 180_000);
