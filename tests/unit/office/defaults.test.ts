import { describe, expect, it } from "vitest";
import { Refused, readDefaults } from "../../../src/office/index.ts";
import { columns, expand, officeWord, type Inputs } from "../../../src/sheet/index.ts";
import { allTemplates, templates } from "../../../src/templates/index.ts";
import { invented } from "../../hosts/logoPictures.ts";

const en = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
const is = templates.find(({ id }) => id === "post-tensioned-is1343-1980")!;
const record = allTemplates.find(({ id }) => id === `stressing-record-${en.id}`)!;

const mm = (id: string, value: number) => ({ id, value, unit: "mm" });
const file = {
  kind: "kernbook office defaults",
  office: "Alder Office (invented)",
  version: "3",
  date: "2026-11-01",
  titleBlock: [{ id: "project", value: "=1+1", unit: "–" }],
  nationalFactors: [{ id: "k7p", value: 0.7, unit: "-", source: "an annex", enteredBy: "AB", enteredOn: "2026-10-01" }],
  stock: [{ id: "product", unit: "–", values: ["Y1860S7-15.7", "Y1860S7-15.3", "IS14268-II-15.2"] }],
  ducts: [
    { name: "Steel 80", inputs: [mm("duct", 80), { id: "k", value: 0.005, unit: "rad/m" }] },
    { name: "Plastic 76", inputs: [mm("duct", 76), { id: "mu", value: 0.14, unit: "1/rad" }] },
  ],
  jacks: [
    { name: "J1", inputs: [{ id: "jkArea", value: 40000, unit: "mm²" }] },
    { name: "J2", inputs: [{ id: "jkArea", value: 42000, unit: "mm²" }] },
  ],
};
const read = (more: object = {}, chosen = {}) =>
  readDefaults(JSON.stringify({ ...file, ...more }), allTemplates, chosen);

function refusal(more: object | string): string {
  try {
    readDefaults(typeof more === "string" ? more : JSON.stringify({ ...file, ...more }), allTemplates);
  } catch (error) {
    if (error instanceof Refused) return error.messages.join("\n");
    throw error;
  }
  return "";
}

describe("defaults of an office", () => {
  it("fill inputs of the same id and unit, a choice only where the template has it", () => {
    const own = read();
    expect(own.inputsFor(en)).toEqual({ project: "=1+1", k7p: 0.7, product: "Y1860S7-15.7", duct: 80, k: 0.005 });
    // There k is a loss per metre: another quantity of the same letter.
    expect(own.inputsFor(is)).toEqual({ project: "=1+1", product: "IS14268-II-15.2", duct: 80 });
    expect(own.inputsFor(record)["jkArea"]).toEqual([40000, 42000]);
    const chosen = own.choosing({ duct: "plastic 76", jack: "J2" });
    expect(chosen.inputsFor(en)).toMatchObject({ duct: 76, mu: 0.14 });
    expect(chosen.inputsFor(en)).not.toHaveProperty("k");
    expect(chosen.inputsFor(record)["jkArea"]).toBe(42000);
    expect(() => own.choosing({ duct: "wood" })).toThrow("it has: Steel 80, Plastic 76");
  });

  it("have a logo for the first page, or say why it is none", () => {
    const logo = { image: invented, width: 36, text: "Alder Office (invented)" };
    const plan = read({ logo }).planned(expand(en, en.example.inputs), en);
    expect(plan.logo).toMatchObject({ image: invented, text: logo.text });
    expect(read().planned(expand(en, en.example.inputs), en).logo).toBeUndefined();
    expect(refusal({ logo: { ...logo, width: 60 } })).toContain("logo, width = 60 mm; from 5 to 40 mm");
    expect(refusal({ logo: { ...logo, image: "logo.png" } })).toContain("logo, image: it is no picture");
    expect(refusal({ logo: { ...logo, height: 3 } })).toContain("logo");
    expect(read({ logo }).hash).not.toBe(read().hash);
  });

  it("mark what is theirs on the sheet, a table only where all of it is, and note their version", () => {
    const own = read();
    const inputs: Inputs = { ...en.example.inputs, k7p: 0.7, k: 0.005, mu: 0.21, project: "other" };
    const plan = expand(en, inputs);
    expect(own.usedIn(en, plan.inputs)).toContain("k7p");
    expect(own.usedIn(en, plan.inputs)).not.toContain("project");
    const marks = own.marksFor(plan, en);
    const rowOf = (id: string): number => plan.meanings.find((one) => one.id === id)!.at.row;
    const marked = marks
      .filter(({ formula }) => formula?.includes(`"${officeWord}"`))
      .map(({ row, column }) => [row, column]);
    expect(marked).toContainEqual([rowOf("k7p"), columns.mark]);
    expect(marked).toContainEqual([rowOf("k"), columns.mark]);
    expect(marked).not.toContainEqual([rowOf("mu"), columns.mark]);
    expect(marks.find(({ row }) => row === rowOf("revWhat"))!.value).toBe(
      "“office”: defaults of Alder Office (invented), 3",
    );
    // Each mark stands in a cell that the plan leaves to people.
    for (const { row, column } of marks)
      expect(plan.cells.find((cell) => cell.row === row && cell.column === column)!.role).toMatch(/^(mark|record)$/);
  });

  it("say what is not in stock, and what has changed since a sheet took them", () => {
    const own = read();
    expect(own.remarksOn(en, { product: "Y1860S7-12.9" })).toEqual([
      "product = Y1860S7-12.9 is not in stock; the office has Y1860S7-15.7, Y1860S7-15.3",
    ]);
    expect(own.remarksOn(en, { product: "Y1860S7-15.3" })).toEqual([]);
    const later = read({ version: "4", nationalFactors: [{ id: "k7p", value: 0.75, unit: "–" }] });
    const marked = new Set(["k7p", "k"]);
    expect(later.changesOn(en, { k7p: 0.7, k: 0.005 }, marked)).toEqual([{ id: "k7p", onSheet: 0.7, now: 0.75 }]);
    expect(later.hash).not.toBe(own.hash);
    expect(read({ note: "other words" }).hash).toBe(own.hash);
  });

  it("are refused with every reason", () => {
    expect(refusal("{")).toContain("the file is not JSON");
    expect(refusal("[]")).not.toBe("");
    const number = { id: "creep2", value: 1.6, unit: "–", clause: "a", enteredBy: "AB", enteredOn: "2026-10-01" };
    const numbers = (standard: string, value: object) => ({ numbers: [{ standard, values: [value] }] });
    for (const [more, said] of [
      [{ ducs: [] }, "ducs: there is no such field; allowed: kind, office, version, date, note, logo, titleBlock"],
      [{ version: 5 }, "version = 5; allowed: a text in quotation marks"],
      [{ date: "2.11.2026" }, "date = “2.11.2026”; allowed: a date such as 2026-11-30"],
      [{ inputs: {} }, "inputs = fields in { }; allowed: a list in [ ]"],
      [{ inputs: [{ id: "h", value: [1], unit: "mm" }] }, "inputs 1 (h), value = a list; allowed: a number or a text"],
      [{ inputs: [{ id: "fck", unit: "MPa" }] }, "inputs 1 (fck): “value” is missing"],
      [{ ducts: [{ name: "a", inputs: [{ id: "h", value: 1, unit: "m", clause: "x" }] }] }, "clause: there is no such"],
      [numbers("IS1343:2012", number), "(IS1343:2012), standard = “IS1343:2012”; allowed: the end of a template's id"],
      [
        numbers("is1343-2012", { ...number, unit: "" }),
        "values 1 (creep2), unit = “”; allowed: a unit, “–” for a number",
      ],
      [numbers("is1343-2012", { ...number, source: "x" }), "allowed: id, value, unit, templates, clause, enteredBy"],
      [{ office: "x".repeat(121) }, "allowed: at most 120 characters"],
      [
        { stock: [{ id: "product", unit: "–", values: [] }] },
        "stock 1 (product), values is empty; allowed: at least 1",
      ],
      [{ kind: "other" }, "kind = “other”; allowed: “kernbook office defaults”"],
    ] as const)
      expect(refusal(more)).toContain(said);
    expect(refusal({ kind: "other" })).toContain("kind");
    expect(refusal({ extra: 1 })).toContain("extra");
    expect(refusal({ inputs: [{ id: "mue", value: 1, unit: "–" }] })).toContain("no template has an input “mue”");
    expect(refusal({ inputs: [{ id: "k", value: 0.005, unit: "1/km" }] })).toMatch(
      /asks for it in “1\/km”; units: .*rad\/m/,
    );
    expect(refusal({ inputs: [{ id: "mu", value: 20, unit: "1/rad" }] })).toMatch(
      /^inputs, mu = 20 1\/rad is above \d/,
    );
    expect(refusal({ inputs: [{ id: "mu", value: "0,2", unit: "1/rad" }] })).toContain("is not a number");
    expect(refusal({ stock: [{ id: "product", unit: "–", values: ["Y1"] }] })).toContain("is not one of the choices");
    expect(refusal({ inputs: [mm("h", 900), mm("h", 950)] })).toContain("is given twice");
    expect(refusal({ ducts: [...file.ducts, { name: "steel 80", inputs: [] }] })).toContain("is given twice");
    expect(refusal(" ".repeat(1_000_001))).toContain("at most 1000000");
    expect(refusal({ inputs: [{ id: "mu", value: 0.2, unit: "1/rad", templates: ["none"] }] })).toContain(
      "no template “none”",
    );
  });
});
