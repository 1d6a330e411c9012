import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { runSheet } from "../../../src/command/sheet/run.ts";
import { openWorkbook } from "../../../src/hosts/index.ts";
import { entriesOf, readCsv, type Entry } from "../../../src/office/index.ts";
import { templates } from "../../../src/templates/index.ts";
import { builtSheet } from "../../plan/builtSheet.ts";
import { listener } from "./listener.ts";

const id = "pre-tensioned-is1343-1980";
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "members-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const at = (name: string): string => join(folder, name);

const run = (words: readonly string[], stopAfter?: number) =>
  runWithout(["--example", ...(words.includes("--out") ? [] : ["--out", at("out")]), ...words], stopAfter);

async function runWithout(words: readonly string[], stopAfter = Infinity) {
  const { voice, heard } = listener();
  let done = 0;
  const code = await runSheet(["--template", id, ...words], {
    ...voice,
    progress: () => done++,
    stopped: () => done >= stopAfter,
  });
  const unbroken = (lines: string): string => lines.replace(/\n {2}(?=\S)/g, " ");
  const { said, complained } = heard();
  return { code, said: unbroken(said), complained: unbroken(complained) };
}
const table = (...rows: readonly string[]): string => {
  writeFileSync(at("members.csv"), `\uFEFFmember;gs;ql\r\n${rows.join("\r\n")}\r\n`);
  return at("members.csv");
};
const register = (name = "out/register.csv"): readonly Entry[] =>
  entriesOf(
    readCsv(readFileSync(at(name), "utf8")).records.map(({ fields }) => fields),
    true,
  );
const sheets = (): readonly string[] => readdirSync(at("out")).filter((name) => name.endsWith(".xlsx"));

// One run builds on the last, as in an office.
it("writes a sheet for each row, stops when told and goes on from there, and reports bad rows beside the others", async () => {
  const members = table("Alder 1;;", "Alder 2;90;3", "Alder 3;x;", "Alder 4;;3,5");
  const stopped = await run(["--members", members], 1);
  expect(stopped.code).toBe(130);
  expect(stopped.complained).toContain("Stopped after 1 of 3 members");
  expect(sheets()).toEqual(["Alder 1.xlsx"]);
  expect(readdirSync(at("out")).sort()).toEqual(["Alder 1.xlsx", "members.unfinished"]);
  const first = statSync(at("out/Alder 1.xlsx")).mtimeMs;
  const { code, said, complained } = await run(["--members", members]);
  expect(code).toBe(3);
  expect(complained).toContain("line 4, Alder 3: input gs (gs");
  expect(said).toMatch(/2 computed, [\d.]+ s each, 1 unchanged and kept/);
  expect(statSync(at("out/Alder 1.xlsx")).mtimeMs).toBe(first);
  expect(readdirSync(at("out")).sort()).toEqual(["Alder 1.xlsx", "Alder 2.xlsx", "Alder 4.xlsx", "register.csv"]);
  const entries = register();
  expect(entries.map(({ member, verdict }) => [member, verdict])).toEqual([
    ["Alder 3", "NOT BUILT"],
    ["Alder 2", "FAIL"],
    ...entries.slice(2).map(({ member }) => [member, "OK"]),
  ]);
  expect(entries[1]!.utilisation).toBeGreaterThan(1);
});

it("says in the register what the sheet of the same inputs says, in the file too", () => {
  const built = builtSheet(id);
  const entry = register().find(({ member }) => member === "Alder 1")!;
  expect(entry.verdict).toBe(built.verdicts().overall);
  expect(entry.losses).toBeCloseTo(built.column("uLost")[0] as number, 12);
  const { workbook } = openWorkbook(readFileSync(at("out/Alder 1.xlsx")));
  expect(workbook.sheets.map(({ name }) => name)).toEqual(["Alder 1"]);
  const name = workbook.sheets[0]!.names.find((one) => one.name === "kb_uLost")!.reference;
  const [, column, row] = /\$([A-Z]+)\$(\d+)$/.exec(name)!;
  const cell = workbook.sheets[0]!.cells.find(
    (one) => one.row === Number(row) - 1 && one.column === column!.charCodeAt(0) - 65,
  )!;
  expect(cell.value).toBe(entry.losses);
  expect(entry.utilisation).toBeLessThanOrEqual(1);
});

it("keeps what is unchanged, replaces nothing without --force, and says what changed", async () => {
  const same = await run(["--members", table("Alder 1;;", "Alder 2;90;3", "Alder 4;;3,5")]);
  expect(same.said).toContain("0 computed, 3 unchanged and kept");
  expect(same.said).toContain("Alder 3: no longer in the table; was NOT BUILT");
  writeFileSync(at("out/Alder 1.xlsx"), Buffer.concat([readFileSync(at("out/Alder 1.xlsx")), Buffer.from(" ")]));
  const changed = table("Alder 1;;", "Alder 2;;", "Alder 5;;3");
  const before = readFileSync(at("out/register.csv"), "utf8");
  const refused = await run(["--members", changed]);
  expect(refused.code).toBe(2);
  expect(refused.complained).toContain("--force replaces them");
  expect(readFileSync(at("out/register.csv"), "utf8")).toBe(before);
  expect(existsSync(at("out/Alder 5.xlsx"))).toBe(false);
  const forced = await run(["--members", changed, "--force", "--register", at("out/register.csv")]);
  expect(forced.code).toBe(0);
  expect(forced.said).toMatch(/Alder 2: verdict FAIL → OK; utilisation \d+\.\d\d → 0\.\d\d/);
  const entries = register();
  expect(entries.find(({ member }) => member === "Alder 1")!.remarks).toContain("the file was changed since");
  expect(entries.find(({ member }) => member === "Alder 4")!.verdict).toBe("REMOVED");
  expect(entries.find(({ member }) => member === "Alder 5")!.change).toBe("new");
});

it("writes the register as a workbook too, and reads it back for the next run", async () => {
  const members = table("Alder 1;;", "Alder 5;;3");
  const first = await run(["--members", members, "--out", at("book"), "--register", at("register.xlsx")]);
  expect(first.code).toBe(0);
  const again = await run(["--members", members, "--out", at("book"), "--register", at("register.xlsx")]);
  expect(again.said).toContain("Changes since the last register: none");
  expect(again.said).toContain("0 computed, 2 unchanged and kept");
});

it("writes a table to fill in, whose rows for people are passed over, and computes it once it is filled", async () => {
  const given = ["--set", "rows=1", "--set", "fck=45"];
  const { code, said } = await run(["--inputs", "--out", at("fill.csv"), ...given]);
  expect(code).toBe(0);
  expect(said).toContain("rows = 1");
  const [head, row] = readCsv(readFileSync(at("fill.csv"), "utf8")).records.map(({ fields }) => fields);
  expect(head).toContain("L");
  expect(head).toContain("strands[1]");
  expect(head).not.toContain("strands[2]");
  expect(head).not.toContain("fck");
  expect(row![head!.indexOf("L")]).toContain("[m]");
  expect(row![0]).toBe("#");
  // The example's values in its columns: nothing else is missing.
  const { inputs } = templates.find((one) => one.id === id)!.example;
  const fields = head!.slice(1).map((heading) => {
    const [name, ...places] = heading.split(/[[\]]+/).filter((part) => part !== "");
    const value = places.reduce<unknown>((list, place) => (list as unknown[])[Number(place) - 1], inputs[name!]);
    return typeof value === "number" || typeof value === "string" ? String(value) : "";
  });
  writeFileSync(at("filled.csv"), `${readFileSync(at("fill.csv"), "utf8")}\r\n${["Alder 9", ...fields].join(",")}\r\n`);
  const filled = await runWithout(["--members", at("filled.csv"), "--out", at("filled"), ...given]);
  expect(filled.complained).toBe("");
  const [entry, ...others] = register("filled/register.csv");
  expect(others).toEqual([]);
  expect(entry!.member).toBe("Alder 9");
  expect(entry!.remarks).not.toContain("inputs missing");
}, 120_000);

it("refuses a call that cannot be meant, with nothing written", async () => {
  const members = table("A;;");
  for (const [words, said] of [
    [["--members", at("none.csv")], "cannot be read"],
    [["--members", members, "--out", at("a.xlsx")], "name a folder"],
    [["--members", members, "--register", at("r.txt")], "ends neither in .csv nor in .xlsx"],
    [["--members", members, "--register", members], "is no register of members"],
    [["--members", members, "--set", "nu=1"], "has no input “nu”"],
    [["--members", members, "--portable"], "--portable does not go with --members"],
    [["--members", members, "--sheet-name", "A"], "--sheet-name does not go with --members"],
  ] as const) {
    const { code, complained } = await run([...words, ...(words.length === 2 ? ["--out", at("nothing")] : [])]);
    expect([code, complained]).toEqual([1, expect.stringContaining(said)]);
  }
  expect(existsSync(at("nothing"))).toBe(false);
});
