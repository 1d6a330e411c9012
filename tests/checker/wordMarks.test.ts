/** Words in the column of marks that follow the inputs beside them: they go with the value that nobody typed. */
import { afterAll, describe, expect, it } from "vitest";
import { cellAt, type Address } from "../../src/cells/index.ts";
import { assumedMarks, readMarks, recognise, saidOf, unmarkCells, wordMarks } from "../../src/checker/index.ts";
import { changeOfSheet } from "../../src/checker/rebuild/changeOfSheet.ts";
import { unconfirmedIn } from "../../src/checker/marks/unconfirmed.ts";
import { readWordFormula, wordFormula, type WatchingWord } from "../../src/checker/marks/wordFormula.ts";
import { markedInputs } from "../../src/office/index.ts";
import { columns, expand, officeWord, withEntered, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { alarms, ended, opened, name } from "./planted.ts";
import { compare } from "../../src/checker/index.ts";

const template = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
const inputs = { ...template.example.inputs, intervals: 2 };
const plan: Plan = expand(template, inputs);
const assumed = new Set(["mu", "k", "cement", "sigj", "duct", "fckStep", "RH"]);
const marked = withEntered(plan, assumedMarks(plan, assumed, new Set(["strands"])));
afterAll(ended);

const at = (id: string, index = 0): Address => {
  const { row, column } = plan.meanings.find((one) => one.id === id)!.at;
  return { row: row + index, column };
};
const tableMark = Math.max(
  ...plan.cells.filter(({ role, row }) => role === "subtitle" && row < at("strands").row).map(({ row }) => row),
);
const markOf = (id: string): Address => ({ row: id === "table" ? tableMark : at(id).row, column: columns.mark });

async function sheet(where: "memory" | "grid" = "memory", of: Plan = marked) {
  const faults = opened(where);
  const { host } = faults;
  await host.apply(of, { sheetName: name, progress: () => undefined });
  const type = async (place: Address, value: string | number): Promise<void> => {
    await host.enter({ sheet: name, ...place }, value);
  };
  const shown = async (place: Address): Promise<unknown> =>
    (await host.read(name, { ...place, rows: 1, columns: 1 }))[0]![0]!.value;
  const now = async () => (await recognise(host, name))!;
  return { faults, host, type, shown, now };
}

describe("the formula of a word", () => {
  const at = (row: number, value: string | number | null) => ({ row, column: 6, value });
  it.each<[readonly WatchingWord[], string]>([
    [[{ word: "assumed", cells: [at(44, 0.19)] }], '=IF(G45=0.19,"assumed","")'],
    [[{ word: "assumed", cells: [at(44, -8)] }], '=IF(G45=-8,"assumed","")'],
    [[{ word: "office", cells: [at(44, "NET")] }], '=IF(G45="NET","office","")'],
    [[{ word: "assumed", cells: [at(44, null)] }], '=IF(G45="","assumed","")'],
    [
      [
        { word: "assumed", cells: [at(9, 65), at(10, 65), at(11, 70)] },
        { word: "proposed", cells: [at(12, 6), at(13, 6)] },
      ],
      '=IF(COUNTIF($G$13:$G$14,6)>0,"proposed",IF(OR(COUNTIF($G$10:$G$11,65)>0,G12=70),"assumed",""))',
    ],
    [[{ word: "office", cells: [at(9, 65), at(10, 65)] }], '=IF(COUNTIF($G$10:$G$11,65)=2,"office","")'],
    // Programs count 15 digits of a typed number.
    [
      [{ word: "measured", cells: [at(9, 1 / 3)] }],
      '=IF(ABS(N(G10)-0.333333333333333)<=0.000000000000003,"measured","")',
    ],
  ])("says what it follows, and is read back", (words, formula) => {
    expect(wordFormula(words)).toBe(formula);
    const read = readWordFormula(formula)!;
    const sorted = (all: readonly WatchingWord[]) => new Map(all.map(({ word, cells }) => [word, cells.length]));
    expect(sorted(read)).toEqual(sorted(words));
  });

  it.each([
    '=IF(G45=0.19,"checked","")',
    '=IF(G45=0.19,"","assumed")',
    '=IF(G45<>0.19,"assumed","")',
    '=IF(AND(G45=0.19,G46=2),"assumed","")',
    '=IF(COUNTIF(G10:G12,6)>9,"assumed","")',
    '=IF(Other!G45=0.19,"assumed","")',
    '=IF(FALSE,"assumed","")',
    '="assumed"',
    "=G45",
    "=IF(",
  ])("%s is none", (formula) => {
    expect(readWordFormula(formula)).toBeUndefined();
  });
});

describe.each(["memory", "grid"] as const)("on a sheet in %s", (where) => {
  it("goes with another value, stays with the same, and the first page counts it", async () => {
    const { host, type, shown, now } = await sheet(where);
    const before = unconfirmedIn(await now());
    expect(before).toBe(5);
    expect(await shown(markOf("mu"))).toBe("assumed");
    await type(at("mu"), 0.19);
    expect(await shown(markOf("mu"))).toBe("assumed");
    await type(at("mu"), 0.2);
    expect(await shown(markOf("mu"))).toBe("");
    await type(at("cement"), "R");
    const band = plan.cells.find(({ role }) => role === "bandText")!;
    expect(await shown(band)).toContain("Assumptions not confirmed: 3.");
    expect(unconfirmedIn(await now())).toBe(3);
    expect(readMarks(await now())).toEqual([]);
    expect(alarms((await compare(host, name))!)).toEqual([]);
    // What was typed back is what was assumed: initials confirm it.
    await type(at("mu"), 0.19);
    expect(await shown(markOf("mu"))).toBe("assumed");
  }, 240_000);
});

describe("a table", () => {
  it("is assumed until the last of its assumed places holds something else", async () => {
    const { type, shown } = await sheet();
    const mark = markOf("table");
    expect(await shown(mark)).toBe("proposed");
    for (const tendon of [0, 1, 2]) await type(at("strands", tendon), 7);
    expect(await shown(mark)).toBe("assumed");
    for (const tendon of [0, 1, 2]) await type(at("sigj", tendon), 1390);
    for (const tendon of [0, 1]) await type(at("duct", tendon), 70);
    expect(await shown(mark)).toBe("assumed");
    await type(at("duct", 2), 70);
    expect(await shown(mark)).toBe("");
  });
});

describe("Compare", () => {
  it.each<[string, string, string]>([
    ["follows the input above", '=IF({up}=0.19,"assumed","")', "astray"],
    ["compares with what the input cannot be", '=IF({own}=-3,"assumed","")', "astray"],
    ["says nothing whatever is typed", '=IF(FALSE,"assumed","")', "unreadable"],
    ["is a text of somebody's", "ok AB", "unreadable"],
  ])("finds a mark that %s", async (_, planted, state) => {
    const { faults, host, now } = await sheet();
    const { row, column } = at("mu");
    const letter = (r: number) => `${String.fromCharCode(65 + column)}${r + 1}`;
    const text = planted.replace("{own}", letter(row)).replace("{up}", letter(row - 1));
    await faults.typeOver(name, markOf("mu"), text.startsWith("=") ? { formula: text } : text);
    expect(readMarks(await now()).map((mark) => [mark.at, mark.state])).toEqual([[markOf("mu"), state]]);
    expect(alarms((await compare(host, name))!)).toMatchObject([
      { kind: "mark stale", grade: "look", at: markOf("mu") },
    ]);
    // And takes it off as any other mark.
    await host.enterAll(name, unmarkCells(readMarks(await now())[0]!));
    expect(alarms((await compare(host, name))!)).toEqual([]);
  });

  it("raises no alarm where rows were inserted and the sheet was renamed", async () => {
    const { faults, host, now } = await sheet();
    await faults.unprotected(name);
    await faults.insertRows(name, at("sigj").row + 1, 1);
    await faults.insertRows(name, 12, 2);
    expect(unconfirmedIn(await now())).toBe(5);
    expect(readMarks(await now())).toEqual([]);
    const mu = (await now()).rowNow(at("mu").row)!;
    await host.enter({ sheet: name, row: mu, column: at("mu").column }, 0.2);
    expect(unconfirmedIn(await now())).toBe(4);
    await faults.rename(name, "Girder 7");
    const found = (await compare(host, "Girder 7"))!;
    expect(found.findings.filter(({ kind }) => kind === "mark stale")).toEqual([]);
  });
});

describe("change and upgrade", () => {
  it("carry the words over with what they are about, place by place", async () => {
    const office = wordMarks(plan, new Map([[officeWord, (id: string) => id === "gamma"]]));
    const { type, now } = await sheet("memory", withEntered(marked, office));
    await type(at("mu"), 0.2);
    for (const tendon of [0, 1]) await type(at("sigj", tendon), 1380);
    const changed = changeOfSheet(await now(), template, { tendons: 4 });
    const next = await sheet("memory", withEntered(changed.plan, changed.marks));
    const of = new Set(
      saidOf(await next.now()).flatMap(({ word, cell: { id, index } }) =>
        word === "assumed" ? [`${id} ${index}`] : [],
      ),
    );
    expect([...of].filter((key) => key.startsWith("sigj"))).toEqual(["sigj 2", "sigj 3"]);
    expect(of.has("mu 0")).toBe(false);
    expect(of.has("RH 0")).toBe(true);
    expect([...markedInputs(await next.now())]).toEqual(["gamma"]);
    expect(alarms((await compare(next.host, name))!)).toEqual([]);
  });

  it("an assumed value set aside by a change comes back as assumed, one that was typed does not", async () => {
    const { type, now } = await sheet("memory", marked);
    await type(at("duct", 2), 85);
    const fewer = changeOfSheet(await now(), template, { tendons: 2 });
    const between = await sheet("memory", withEntered(fewer.plan, fewer.marks));
    const back = changeOfSheet(await between.now(), template, { tendons: 3 }, fewer.carried.parked);
    expect([back.carried.inputs["sigj"], back.carried.inputs["duct"]]).toEqual([plan.inputs["sigj"], [65, 65, 85]]);
    const again = await sheet("memory", withEntered(back.plan, back.marks));
    const said = saidOf(await again.now()).flatMap(({ word, cell: { id, index } }) =>
      ["sigj", "duct", "strands"].includes(id) ? [`${id} ${index}: ${word}`] : [],
    );
    const all = [0, 1, 2].flatMap((tendon) => [`sigj ${tendon}: assumed`, `strands ${tendon}: proposed`]);
    expect(said.filter((one) => !one.startsWith("duct")).sort()).toEqual(all.sort());
    expect(said).not.toContain("duct 2: assumed");
  }, 60_000);

  it("what came from the office is still compared with it once another value is typed", async () => {
    const office = wordMarks(plan, new Map([[officeWord, (id: string) => id === "gamma"]]));
    const { type, now, shown } = await sheet("memory", withEntered(plan, office));
    expect(await shown(markOf("gamma"))).toBe("office");
    await type(at("gamma"), 24);
    expect(await shown(markOf("gamma"))).toBe("");
    expect([...markedInputs(await now())]).toEqual(["gamma"]);
    expect(cellAt((await now()).snapshot, at("gamma").row, at("gamma").column).value).toBe(24);
  });
});
