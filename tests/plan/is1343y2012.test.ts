/**
 * The sheets for IS 1343:2012 hold the form of the rules of 1980 and no number of their own. With the numbers of 1980
 * entered they must say what the sheets of 1980 say, to the last digits: these are held to other sources by their own
 * tests. No number of 2012 is tested here: none is known.
 */
import { describe, expect, it } from "vitest";
import { a1, cellsOf } from "../../src/cells/index.ts";
import { planValues } from "../../src/hosts/index.ts";
import { readDefaults, Refused } from "../../src/office/index.ts";
import { columns, expand, officeWord, says, withEntered, type Inputs, type Template } from "../../src/sheet/index.ts";
import { allTemplates, templates } from "../../src/templates/index.ts";
import { builtSheet, planned } from "./builtSheet.ts";

const ways = ["post-tensioned", "pre-tensioned"] as const;
/** A sheet with its status words and warnings. */
function sheetOf(one: Template, inputs: Inputs) {
  const { plan, values } = planned(one, inputs);
  return {
    overall: values[plan.summary.overall.row]![plan.summary.overall.column]!.value,
    status: (id: string) => values[plan.meanings.find((it) => it.id === id)!.at.row]![columns.verdict]!.value,
    warnings: cellsOf(plan.summary.warnings)
      .map(({ row, column }) => values[row]![column]!.text)
      .join("\n"),
  };
}
const template = (id: string): Template => templates.find((one) => one.id === id)!;
const inputRows = ({ blocks }: Template) =>
  blocks
    .flatMap(({ items }) => items)
    .flatMap((item) => ("id" in item && item.input ? [{ ...item, input: item.input }] : []));
/** Numbers that are entered from a copy: the sheet lists where each comes from. */
function numbersOf(one: Template) {
  const listed = one.dimensions["officeNumber"]!;
  const ids = "members" in listed ? listed.members.map(({ id }) => id) : [];
  return inputRows(one).filter(({ id }) => ids.includes(id));
}
/** Of those that 1980 does not give as one number: within its range, and invented. */
const standIns: Readonly<Record<string, number>> = { k: 0.0025, ftTransferIn: -1, ftType3In: -4 };
const without = (inputs: Inputs, ids: readonly string[]): Inputs =>
  Object.fromEntries(Object.entries(inputs).filter(([id]) => !ids.includes(id)));

/** What the office enters, the numbers of 1980 as stand-ins for those of its copy. */
function officeFile(one: Template, changes: Readonly<Record<string, number>> = {}): string {
  const values = numbersOf(one).map(({ id, input }) => ({
    id,
    value: changes[id] ?? standIns[id] ?? (input.near!.value as number),
    unit: unitOf(one, id),
    clause: "6.2, invented",
    enteredBy: "AB",
    enteredOn: "2026-10-01",
  }));
  return JSON.stringify({
    kind: "kernbook office defaults",
    office: "Alder Office (invented)",
    version: "1",
    date: "2026-11-01",
    numbers: [{ standard: "is1343-2012", values }],
  });
}
const unitOf = (one: Template, id: string): string => says(inputRows(one).find((row) => row.id === id)!).unit;

describe.each(ways)("%s to IS 1343:2012", (way) => {
  const is2012 = template(`${way}-is1343-2012`);
  const numbers = numbersOf(is2012).map(({ id }) => id);
  const bare = without(is2012.example.inputs, numbers);

  it("has no default for any number of the standard", () => {
    expect(numbers.length).toBeGreaterThan(25);
    for (const { id, input } of numbersOf(is2012)) expect(input.default, id).toBeUndefined();
    // Of the functions of 1980 only the product of ratio and stress is left, which holds no number.
    const called = new Set(JSON.stringify(is2012.blocks).match(/\w+_IS1343_\d{4}/g));
    expect([...called]).toEqual(["CREEP_LOSS_IS1343_1980"]);
  });

  it("says with the numbers of 1980 what the sheet of 1980 says", () => {
    const base = template(`${way}-is1343-1980`);
    const [now, before] = [builtSheet(is2012.id), builtSheet(base.id)];
    for (const id of ["Pinf", "lTotal", "lCr", "lSh", "lRe", "fc", "ft", "vmax", "vmin"]) {
      const [mine, theirs] = [now.column(id), before.column(id)];
      expect(mine.length, id).toBe(theirs.length);
      mine.forEach((value, i) => {
        if (typeof theirs[i] === "number") expect(value as number, `${id} ${i}`).toBeCloseTo(theirs[i], 9);
        else expect(value, `${id} ${i}`).toBe(theirs[i]);
      });
    }
    expect(now.verdicts().overall).toBe(before.verdicts().overall);
  });

  it("is INCOMPLETE without the numbers, and names each of them", () => {
    const sheet = sheetOf(is2012, bare);
    expect(sheet.overall).toBe("INCOMPLETE");
    const statuses = new Map(numbers.map((id) => [id, sheet.status(id)]));
    const needed = [...statuses].filter(([, status]) => status === "MISSING").map(([id]) => id);
    // The others belong to another zone, surroundings, type or kind of tendon.
    const conditional = [...statuses].filter(([, status]) => status !== "MISSING").map(([id]) => id);
    expect(needed.length).toBeGreaterThan(20);
    for (const id of conditional) expect(id).toMatch(/^(line[I]+\d|shrink(Dry|Cap)|ft\w+In|trans\w+)$/);
  });

  it("computes once the office has entered them, and says who, when and by which clause", () => {
    const office = readDefaults(officeFile(is2012), allTemplates);
    expect(office.doubts).toEqual([]);
    const inputs = { ...bare, ...office.inputsFor(is2012) };
    const { overall, status } = sheetOf(is2012, inputs);
    expect(overall).toBe("OK");
    for (const id of numbers) expect(status(id), id).not.toBe("MISSING");
    const plan = expand(is2012, inputs);
    const entered = withEntered(plan, office.marksFor(plan, is2012));
    const rowOf = (id: string): number => plan.meanings.find((one) => one.id === id)!.at.row;
    const textAt = (row: number, column: number): unknown =>
      entered.cells.find((cell) => cell.row === row && cell.column === column)?.value;
    const by = plan.meanings.find(({ id }) => id === "nfBy")!.at;
    const on = plan.meanings.find(({ id }) => id === "nfOn")!.at;
    const clause = plan.meanings.find(({ id }) => id === "nfClause")!.at;
    expect(by.rows).toBe(numbers.length);
    for (let i = 0; i < by.rows; i++) {
      expect(textAt(by.row + i, by.column)).toMatch(/^office: .*, AB$/);
      expect(textAt(on.row + i, on.column)).toBe("2026-10-01");
      expect(textAt(clause.row + i, clause.column)).toBe("6.2, invented");
    }
    const values = planValues(entered, "Beam")!;
    for (const id of numbers) expect(values[rowOf(id)]![columns.mark]!.value, id).toBe(officeWord);
    // They are of this edition alone.
    expect(Object.keys(office.inputsFor(template(`${way}-is1343-1980`)))).toEqual([]);
    expect(Object.keys(office.inputsFor(template(`${way}-en1992-2004`)))).toEqual([]);
  });

  it("takes no name of the language for an input or a column of the origins", () => {
    const office = readDefaults(officeFile(is2012), allTemplates);
    const plan = expand(is2012, { ...bare, ...office.inputsFor(is2012) });
    const creep = plan.meanings.find(({ id }) => id === "creep1")!;
    const meanings = [...plan.meanings, { ...creep, id: "constructor" }];
    expect(office.marksFor({ ...plan, meanings }, is2012)).toEqual(office.marksFor(plan, is2012));
  });

  it("says nothing of the office where another number is typed", () => {
    const office = readDefaults(officeFile(is2012), allTemplates);
    const plan = expand(is2012, { ...bare, ...office.inputsFor(is2012), creep1: 2.5 });
    const by = plan.meanings.find(({ id }) => id === "nfBy")!.at;
    const marks = office.marksFor(plan, is2012).filter(({ column }) => column === by.column);
    expect(marks.filter(({ value }) => String(value).startsWith("office: ")).length).toBe(numbers.length - 1);
  });

  it("warns of a number far from that of 1980, with both, on the sheet and where it is entered", () => {
    const text = /jackShare = 0\.9 is far from 0\.8, the number of IS 1343:1980; expected: 0\.65 to 0\.85/;
    const { doubts } = readDefaults(officeFile(is2012, { jackShare: 0.9 }), allTemplates);
    expect(doubts).toEqual([expect.stringMatching(text)]);
    const sheet = sheetOf(is2012, { ...is2012.example.inputs, jackShare: 0.9 });
    expect(sheet.overall).toBe("WARNINGS");
    expect(sheet.warnings).toMatch(/c_?j = 0\.9 is far from 0\.8, the number of IS 1343:1980/);
  });

  it("refuses one beyond what it can be, with the value, what is allowed and that of 1980", () => {
    const refused = (file: string): string => {
      try {
        readDefaults(file, allTemplates);
      } catch (error) {
        if (error instanceof Refused) return error.messages.join("\n");
        throw error;
      }
      return "";
    };
    expect(refused(officeFile(is2012, { jackShare: 76 }))).toMatch(
      /numbers of is1343-2012, jackShare = 76 is above 0\.95.*0\.5 to 0\.95.*IS 1343:1980 has 0\.8/,
    );
    const file = officeFile(is2012);
    expect(refused(file.replace("is1343-2012", "is1343-2102"))).toContain(
      "numbers of is1343-2102: no template is to this standard; allowed: en1992-2004, is1343-1980, is1343-2012",
    );
    expect(refused(file.replace('"enteredBy":"AB",', ""))).toContain("enteredBy");
  });
});

it("numbers of a national annex go the same way to the templates of EN 1992", () => {
  const file = JSON.parse(officeFile(template("post-tensioned-is1343-2012"))) as Record<string, unknown>;
  const origin = { clause: "NA to 5.10.2.1, invented", enteredBy: "AB", enteredOn: "2026-10-01" };
  file["numbers"] = [{ standard: "en1992-2004", values: [{ id: "k7p", value: 0.7, unit: "–", ...origin }] }];
  const office = readDefaults(JSON.stringify(file), allTemplates);
  for (const way of ways) {
    const en = template(`${way}-en1992-2004`);
    expect(office.inputsFor(en)).toEqual({ k7p: 0.7 });
    const plan = expand(en, { ...en.example.inputs, k7p: 0.7 });
    const { row } = plan.meanings.find(({ id }) => id === "k7p")!.at;
    const formula = `=IF(${a1({ row, column: columns.value })}=0.7,"${officeWord}","")`;
    expect(office.marksFor(plan, en)).toContainEqual({ row, column: columns.mark, formula });
    expect(office.originsIn(en, plan.inputs)).toEqual(["k7p = 0.7: NA to 5.10.2.1, invented, AB, 2026-10-01"]);
    expect(office.originsIn(en, { ...plan.inputs, k7p: 0.75 })).toEqual([]);
  }
  expect(office.inputsFor(template("post-tensioned-is1343-2012"))).toEqual({});
});
