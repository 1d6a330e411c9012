import { describe, expect, it, test } from "vitest";
import {
  builtMember,
  comparedWithLast,
  entriesOf,
  membersOf,
  plannedMember,
  readCsv,
  readDefaults,
  registerPlan,
  registerRows,
  writeCsv,
  type Entry,
  type Run,
} from "../../../src/office/index.ts";
import { linkedTemplates, templates } from "../../../src/templates/index.ts";
import { fileNames } from "../../../src/command/sheet/fileNames.ts";

const usual = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
const linked = () => linkedTemplates.filter(({ id }) => id === `stressing-record-${usual.id}`);

function read(text: string, template: typeof usual | undefined = usual) {
  const { separator, records } = readCsv(text);
  return membersOf(records, separator, { all: templates, usual: template, linked });
}
const settings = (text: string) => read(text).members.map((member) => Object.fromEntries(member.settings));

describe("a table of members", () => {
  it("gives each row its inputs: numbers, choices, texts, lists and places of lists; empty fields give none", () => {
    expect(
      settings(
        'member,GS,exposure,project,sigj,cpL[1][1],cpL[1][2],# remark\nA,8.5,XD,"= Quay, 2","1400,1395",0,0.5,x\n' +
          "B,,,,,,,\nC,(empty),,,(empty),,,",
      ),
    ).toEqual([
      { gs: 8.5, exposure: "XD", project: "= Quay, 2", sigj: [1400, 1395], cpL: [[0, 0.5]] },
      {},
      { gs: null, sigj: null },
    ]);
  });
  it("takes decimal commas where the separator is another, and refuses them where they could be a list", () => {
    expect(settings("member;gs\nA;8,5\nB;8.5")).toEqual([{ gs: 8.5 }, { gs: 8.5 }]);
    expect(read("member;sigj\nA;1400,1395").bad[0]!.faults[0]).toContain("sigj[1], sigj[2]");
    expect(settings("member;sigj[1];sigj[2]\nA;1400,5;1395")).toEqual([{ sigj: [1400.5, 1395] }]);
  });
  it("gives inputs that only a linked sheet asks for to that sheet", () => {
    const id = linked()[0]!
      .blocks.flatMap(({ items }) => items)
      .flatMap((item) => ("id" in item && item.input && !["gs"].includes(item.id) ? [item.id] : []))
      .find((one) => !usual.blocks.some(({ items }) => items.some((item) => "id" in item && item.id === one)))!;
    const [member] = read(`member,${id}\nA,1`).members;
    expect([...member!.settings]).toEqual([]);
    expect([...member!.linkedSettings.keys()]).toEqual([id]);
  });
  it("refuses headings that name nothing, stand twice or leave out the members", () => {
    expect(() => read("member,mue\nA,0.2")).toThrow("column “mue” is no input of post-tensioned-en1992-2004");
    expect(() => read("member,mu,MU\nA,1,1")).toThrow("stands twice");
    expect(() => read("name,mu\nA,1")).toThrow("no column “member”");
    expect(() => read("member,sigj,sigj[1]\nA,1,1")).toThrow("keep one of them");
    expect(() => read("")).toThrow("the table is empty");
    expect(() => read("member,mu\n")).toThrow("no row below");
    expect(
      () =>
        readCsv("member,gs\nA,1") &&
        membersOf(readCsv("member,gs\nA,1").records, ",", { all: templates, usual: undefined, linked }),
    ).toThrow("--template is missing");
  });
  it("reports bad rows and takes the others", () => {
    const { members, bad } = read('member,gs\nA,1\na,2\n,3\nB,4,5\nC,"6"7\nD,8');
    expect(members.map(({ name }) => name)).toEqual(["A", "D"]);
    expect(bad.map(({ name, line, faults }) => [name, line, faults.join()])).toEqual([
      ["a line 3", 3, expect.stringContaining("stands in line 2 already")],
      ["line 4", 4, expect.stringContaining("give the member a name")],
      ["B", 5, expect.stringContaining("1 more fields than the table has columns")],
      ["C", 6, expect.stringContaining("follows a closing quotation mark")],
    ]);
  });
  it("lets each row name its template", () => {
    const { members, bad } = read("member,template,gs\nA,pre-tensioned-en1992-2004,1\nB,,1\nC,none,1");
    expect(members.map(({ template }) => template.id)).toEqual(["pre-tensioned-en1992-2004", usual.id]);
    expect(bad[0]!.faults[0]).toContain("there is no template “none”");
  });
});

const entry = (member: string, more: Partial<Entry> = {}): Entry => ({
  member,
  verdict: "OK",
  governing: "compression",
  utilisation: 0.9,
  place: "x = 1 m",
  losses: 0.2,
  warnings: 0,
  remarks: "",
  change: "",
  template: usual.id,
  version: "1.0.0",
  hash: "h",
  defaults: "",
  file: `${member}.xlsx`,
  inputs: "i",
  written: "w",
  ...more,
});
const names = (entries: readonly Entry[]) => entries.map(({ member }) => member);

describe("the line of a member", () => {
  const example: Run = {
    base: (template) => template.example.inputs,
    common: () => new Map(),
    linked: () => [],
    defaults: readDefaults(
      JSON.stringify({
        kind: "kernbook office defaults",
        office: "Alder Office (invented)",
        version: "3",
        date: "2026-11-01",
        inputs: [{ id: "fck", value: 45, unit: "MPa" }],
      }),
      templates,
    ),
  };
  const lineOf = (text: string, run = example): Entry =>
    builtMember(plannedMember(read(text).members[0]!, run), run, "A.xlsx").entry;

  it("names the check that fails, also one without a utilisation: a kink where a duct needs a curve", () => {
    const kinked = lineOf(
      'member,h,cpShape\nA,1250,"TO_LEVEL,FROM_LEVEL,LINE;TO_LEVEL,FROM_LEVEL,LINE;LINE,LINE,LINE"',
    );
    expect(kinked).toMatchObject({ verdict: "FAIL", governing: "radius of tendon curvature", utilisation: null });
    expect(kinked.place).toMatch(/^tendon \d$/);
    const tight = lineOf("member,ql\nA,30");
    expect(tight.verdict).toBe("FAIL");
    expect(tight.utilisation).toBeGreaterThan(1);
  });

  it("says which check is open where no input is missing", () => {
    const open = lineOf("member,Rlim\nA,(empty)");
    expect(open.verdict).toBe("INCOMPLETE");
    expect(open.remarks).toContain("radius of tendon curvature: LIMIT MISSING");
  });

  it("tells defaults of another content apart, whatever their version says", () => {
    const defaults = readDefaults(
      JSON.stringify({ ...example.defaults!.file, inputs: [{ id: "fck", value: 46, unit: "MPa" }] }),
      templates,
    );
    const last = lineOf("member\nA");
    const now = lineOf("member\nA", { ...example, defaults });
    expect(last.defaults).toMatch(/^Alder Office \(invented\) 3 \(2026-11-01\), content [0-9a-f]{8}$/);
    expect(comparedWithLast([now], [last])[0]!.change).toContain(`office defaults ${last.defaults} → ${now.defaults}`);
    expect(now.defaults).not.toBe(last.defaults);
  });
});

describe("a register", () => {
  it("is sorted by what governs: what could not be built, fails or is open before what is OK, then by utilisation", () => {
    const entries = [
      entry("ok low"),
      entry("ok high", { utilisation: 0.99 }),
      entry("warns", { verdict: "WARNINGS", utilisation: 0.1 }),
      entry("fails", { verdict: "FAIL", utilisation: 1.01 }),
      entry("fails more", { verdict: "FAIL", utilisation: 1.2 }),
      entry("open", { verdict: "INCOMPLETE", utilisation: null }),
      entry("none", { verdict: "NOT BUILT", utilisation: null }),
    ];
    expect(names(comparedWithLast(entries, undefined))).toEqual([
      "none",
      "fails more",
      "fails",
      "open",
      "warns",
      "ok high",
      "ok low",
    ]);
  });
  it("says what changed since the last one: results, new and removed members, or nothing", () => {
    const last = [entry("A"), entry("B"), entry("C"), entry("D", { verdict: "REMOVED" })];
    const now = [
      entry("a"),
      entry("B", { verdict: "FAIL", utilisation: 1.1, inputs: "other" }),
      entry("D"),
      entry("E", { inputs: "other" }),
    ];
    const changes = Object.fromEntries(comparedWithLast(now, last).map(({ member, change }) => [member, change]));
    expect(changes).toEqual({
      a: "",
      B: "verdict OK → FAIL; utilisation 0.90 → 1.10",
      C: "no longer in the table; was OK",
      D: "new",
      E: "new",
    });
    expect(comparedWithLast([entry("A", { inputs: "j" })], last)[0]!.change).toBe("inputs changed, same result");
  });
  it("comes back from a CSV file and from a sheet as it was, whatever the members are called", () => {
    const entries = [entry('=HYPERLINK("x")'), entry("-B;\n2", { utilisation: null, remarks: "'=1" }), entry("C, “D”")];
    const text = writeCsv(registerRows(entries));
    expect(text).not.toMatch(/(^|,)"?[=+@-]/m);
    expect(
      entriesOf(
        readCsv(text).records.map(({ fields }) => fields),
        true,
      ),
    ).toEqual(entries);
    const plan = registerPlan(entries, { date: "2026-01-01", from: "members.csv" });
    const rows: (string | number | null)[][] = Array.from({ length: plan.rows }, () =>
      Array.from({ length: plan.columns }, () => null),
    );
    for (const { row, column, value, formula } of plan.cells) {
      expect(formula).toBeUndefined();
      if (typeof value !== "boolean") rows[row]![column] = value ?? null;
    }
    expect(entriesOf(rows, false)).toEqual(entries);
    expect(() => entriesOf([["a", "b"]], true)).toThrow("no headings of a register");
  });
});

test("files take the members' names as far as every system allows them, all different", () => {
  const given = ["B1", "b1", "a/b", "a:b", "con", "..", "x".repeat(300), "Träger 7.", "../../etc/passwd"];
  const out = [...fileNames(given).values()];
  expect(out.slice(0, 6)).toEqual(["B1.xlsx", "b1 2.xlsx", "a-b.xlsx", "a-b 2.xlsx", "con-.xlsx", "member.xlsx"]);
  expect(out[7]).toBe("Träger 7.xlsx");
  expect(out[8]).toBe("-..-etc-passwd.xlsx");
  expect(new Set(out.map((one) => one.toLowerCase())).size).toBe(given.length);
  for (const one of out) expect(one.length).toBeLessThan(100);
});
