import { afterEach, describe, expect, it } from "vitest";
import {
  carryOver,
  compare,
  linkedPlan,
  markCells,
  missingTemplate,
  partsAt,
  quickStart,
  recognise,
} from "../../src/checker/index.ts";
import {
  draftTemplate,
  keepTemplate,
  linkedPlanFor,
  planFor,
  readDefaults,
  readTemplate,
  templateText,
} from "../../src/office/index.ts";
import { columns, expand, logoName, type Inputs, type Logo, type Template } from "../../src/sheet/index.ts";
import { linkedTemplates } from "../../src/templates/index.ts";
import { addOfficeTemplate, officeLinked, officeTemplates, removeOfficeTemplate } from "../../src/templates/offices.ts";
import { MemoryHost } from "../hosts/memory/memoryHost.ts";
import { invented } from "../hosts/logoPictures.ts";
import { MemoryFaults } from "./memoryFaults.ts";
import { Built, en, name } from "./planted.ts";

afterEach(() => {
  for (const { id } of officeTemplates()) removeOfficeTemplate(id);
});

/** The shipped template as an office keeps it, through its file. */
async function officeTemplate(locked: readonly string[] = []): Promise<Template> {
  const built = await Built.of(en);
  const about = { id: "alder-beam", name: "Alder beam", version: "1.0.0", office: "Alder Office (invented)", locked };
  const kept = keepTemplate(await built.compared(), about);
  return (await readTemplate(templateText(kept.template!), { checked: true })).template;
}

const is = "input k7p is locked by the template of Alder Office (invented): it is 0.75";

/** A row of the shipped template with a default, which is locked. */
function lockedAt(id: string, value: number): Pick<Template, "blocks" | "locked"> {
  const blocks = en.blocks.map((block) => ({
    ...block,
    items: block.items.map((item) =>
      "id" in item && item.id === id && item.input ? { ...item, input: { ...item.input, default: value } } : item,
    ),
  }));
  return { blocks, locked: [id] };
}

async function sheetOf(template: Template): Promise<MemoryFaults> {
  const faults = new MemoryFaults(new MemoryHost());
  const plan = expand(template, template.example.inputs);
  await faults.host.apply(plan, { sheetName: name, progress: () => undefined });
  return faults;
}

describe("a sheet of an office's template", () => {
  it("is recognised while its template is loaded; else the sheet says which one is missing", async () => {
    const template = await officeTemplate();
    const { host } = await sheetOf(template);
    expect(await compare(host, name)).toBeUndefined();
    expect(await missingTemplate(host, name)).toEqual({
      templateId: "alder-beam",
      templateVersion: "1.0.0",
      office: "Alder Office (invented)",
      hash: expect.stringMatching(/^[0-9a-f]{16}$/) as string,
      functionsVersion: expect.stringMatching(/^\d+\.\d+\.\d+$/) as string,
    });
    await addOfficeTemplate(template);
    expect(await missingTemplate(host, name)).toBeUndefined();
    const comparison = (await compare(host, name))!;
    expect(comparison.recognised.template).toBe(template);
    expect(comparison.clean).toBe(true);
  });

  it("has the linked sheets of the shipped one", async () => {
    await addOfficeTemplate(await officeTemplate());
    const strength = officeLinked().find(({ id }) => id === "alder-beam-strength")!;
    const plan = expand(strength, strength.example.inputs);
    expect(plan.source?.template).toBe("alder-beam");
    expect(plan.cells.length).toBeGreaterThan(500);
  });

  it("says who changed a locked row, and of a locked input that it has another value", async () => {
    const template = await officeTemplate(["fck", "k7p"]);
    await addOfficeTemplate(template);
    const faults = await sheetOf(template);
    const recognised = (await recognise(faults.host, name))!;
    const [fck, factor] = ["fck", "k7p"].map((id) => recognised.plan.meanings.find((one) => one.id === id)!.at);
    const isOpen = (row: number) =>
      recognised.plan.unlocked.some((area) => area.row === row && area.column === columns.value);
    expect([fck, factor].map((at) => isOpen(at!.row))).toEqual([false, false]);
    await faults.unprotected(name);
    await faults.typeOver(name, { row: fck!.row, column: columns.unit }, "N/mm²");
    await faults.typeOver(name, factor!, 0.8);
    const part = partsAt(recognised.plan, factor!.row).item!;
    await faults.host.enterAll(name, markCells(part, (await recognise(faults.host, name))!, "AB", "2026-11-29"));
    const found = (await compare(faults.host, name))!.findings.filter(({ kind }) => kind === "locked row changed");
    expect(found.map(({ at, grade }) => [at!.row, grade])).toEqual([
      [fck!.row, "serious"],
      [factor!.row, "serious"],
    ]);
    expect(found[0]!.what).toContain("Alder Office (invented)");
    expect(found[0]!.what).toContain("unit changed");
    expect(found[0]!.what).toMatch(/Nobody has signed the row\.$/);
    expect(found[1]).toMatchObject({ expected: "0.75", found: "0.8" });
    expect(found[1]!.what).toMatch(/The row is signed: AB 2026-11-29\.$/);
  });

  it("takes nothing but marks for signatures: its row's, its table's, its block's", async () => {
    const template = await officeTemplate(["fck", "Anet"]);
    await addOfficeTemplate(template);
    const faults = await sheetOf(template);
    const { host } = faults;
    await faults.unprotected(name);
    const { plan } = (await recognise(host, name))!;
    const [fck, area] = ["fck", "Anet"].map((id) => plan.meanings.find((one) => one.id === id)!.at);
    await faults.typeOver(name, { row: fck!.row, column: columns.unit }, "N/mm²");
    await faults.typeOver(name, { row: area!.row + 1, column: area!.column }, 3.25);
    const told = async (): Promise<readonly string[]> => {
      const { findings } = (await compare(host, name))!;
      const rows = new Set([fck!.row, area!.row + 1]);
      const locked = findings.filter(({ kind, at }) => kind === "locked row changed" && rows.has(at!.row));
      return locked.map(({ what }) => /(?<=\. )(The \w+ is signed|Nobody has signed).*$/.exec(what)![0]);
    };
    expect(await told()).toEqual(["Nobody has signed the row.", "Nobody has signed the table."]);
    const { block, item: row } = partsAt(plan, fck!.row);
    const { item: table } = partsAt(plan, area!.row + 1);
    const word = { column: columns.mark, value: "assumed" };
    const typed = { row: table!.markRow!, column: columns.mark, value: "AB 2026-11-29" };
    await host.enterAll(name, [{ row: row!.markRow!, ...word }, typed]);
    expect(await told()).toEqual([
      "Nobody has signed the row; its mark says “assumed”.",
      "Nobody has signed the table; its mark says “AB 2026-11-29”.",
    ]);
    for (const part of [block!, table!])
      await host.enterAll(name, markCells(part, (await recognise(host, name))!, "AB", "2026-11-29"));
    expect(await told()).toEqual(["The block is signed: AB 2026-11-29.", "The table is signed: AB 2026-11-29."]);
    await faults.typeOver(name, { row: area!.row + 1, column: area!.column }, 3.5);
    expect((await told())[1]).toBe("The table is signed: AB 2026-11-29, before values changed.");
  });

  it("is not built with another value of a locked input, from wherever that comes", async () => {
    const template = await officeTemplate(["k7p"]);
    expect(() => planFor(template, new Map([["k7p", 0.8]]), {})).toThrow(is);
    expect(planFor(template, new Map([["k7p", 0.75]]), { k7p: 0.8 }).inputs["k7p"]).toBe(0.75);
    const factor = { id: "k7p", value: 0.7, unit: "–" };
    const defaults = readDefaults(
      JSON.stringify({
        kind: "kernbook office defaults",
        office: "Alder Office (invented)",
        version: "1",
        date: "2026-11-01",
        nationalFactors: [factor],
      }),
      [template, en],
    );
    expect(defaults.inputsFor(en)).toEqual({ k7p: 0.7 });
    expect(defaults.inputsFor(template)).toEqual({});
    for (const k7p of [0.8, null]) expect(() => expand(template, { ...en.example.inputs, k7p })).toThrow(is);
  });

  it("takes no other value of a locked input on a linked sheet, neither set nor of its example", () => {
    const plan = expand(en, en.example.inputs);
    const deflection = linkedTemplates.find(({ id }) => id === `deflection-${en.id}`)!;
    const id = "lockable";
    const row = { id, text: "factor", symbol: "–", unit: "–", input: { min: 0, max: 2, default: 1 } };
    const [first, ...others] = deflection.blocks;
    const template: Template = {
      ...deflection,
      id: "alder-deflection",
      office: "Alder Office (invented)",
      locked: [id],
      blocks: [{ ...first!, items: [...first!.items, row] }, ...others],
    };
    const linked = (start: Inputs, set: Inputs = {}) =>
      linkedPlanFor(template, { plan, sheetName: "Beam" }, start, new Map(Object.entries(set))).inputs[id];
    expect(linked({ ...deflection.example.inputs, [id]: 0.9 })).toBe(1);
    expect(linked({}, { [id]: 1 })).toBe(1);
    expect(() => linked({}, { [id]: 0.9 })).toThrow(
      "input lockable is locked by the template of Alder Office (invented): it is 1",
    );
  });

  it("drops what a sheet before had in a locked input, and says so", async () => {
    const template = await officeTemplate(["k7p"]);
    const { inputs } = expand(en, { ...en.example.inputs, k7p: 0.8 });
    const { lost, parked, ...carried } = carryOver({ template: en, inputs }, template, {});
    expect(carried.inputs["k7p"]).toBe(0.75);
    expect(lost.map(({ id, value, why }) => [id, value, why])).toEqual([["k7p", 0.8, is]]);
    expect(expand(template, carried.inputs).inputs["k7p"]).toBe(0.75);
    expect(parked).toEqual({});
    const emptied = { ...inputs, k7p: null };
    expect(carryOver({ template: en, inputs: emptied }, template, {}).inputs["k7p"]).toBe(0.75);
  });

  it("keeps a locked input as it is where the quick start would assume another value, not where one is answered", () => {
    const template: Template = { ...en, ...lockedAt("psi1", 0.7), office: "Alder Office (invented)" };
    const answers = { L: 24, section: "I" as const, h: 1500, fck: 45, gs: 5, ql: 10, demand: "XC1" };
    const { inputs, assumed } = quickStart(template, { ...answers, product: "Y1860S7-15.7", tendons: 2, strands: 9 });
    expect(expand(template, inputs).inputs["psi1"]).toBe(0.7);
    expect(assumed.has("psi1")).toBe(false);
    const deep: Template = { ...en, ...lockedAt("fck", 50), office: "Alder Office (invented)" };
    const answered = quickStart(deep, { ...answers, product: "Y1860S7-15.7", tendons: 2, strands: 9 });
    expect(() => expand(deep, answered.inputs)).toThrow("input fck is locked by the template of Alder Office");
  });

  it("keeps what is locked when it is made a template again, unless that is said", async () => {
    const template = await officeTemplate(["k7p"]);
    await addOfficeTemplate(template);
    const { host } = await sheetOf(template);
    const again = { id: "alder-beam", name: "Alder beam", version: "1.1.0", office: "Alder Office (invented)" };
    const comparison = (await compare(host, name))!;
    expect(keepTemplate(comparison, again).template!.locked).toEqual(["k7p"]);
    expect(keepTemplate(comparison, { ...again, locked: [] }).template!.locked).toBeUndefined();
    const wrong = keepTemplate(comparison, { ...again, locked: ["nothing"] });
    expect(wrong.refused.map(({ what }) => what).join()).toContain("locked: there is no row or column nothing");
  });

  it("has the logo of the sheet that it was made of, and its sheets have it, linked ones too", async () => {
    const logo = { image: invented, width: 30 };
    const built = await Built.of(en);
    const comparison = await built.compared();
    const about = { id: "alder-beam", name: "Alder beam", version: "1.1.0", office: "Alder Office (invented)", logo };
    const kept = keepTemplate(comparison, about);
    expect(kept.rows.find(({ label }) => label === logoName)).toMatchObject({ kind: "added" });
    const { template } = await readTemplate(templateText(kept.template!), { checked: true });
    expect(template.logo).toEqual(logo);
    expect(expand(template, template.example.inputs).logo).toMatchObject({ image: invented, text: logoName });
    await addOfficeTemplate(template);
    const strength = officeLinked().find(({ id }) => id === "alder-beam-strength")!;
    expect(expand(strength, strength.example.inputs).logo?.image).toBe(invented);
    const broken = templateText({ ...template, logo: { ...logo, width: 50 } });
    await expect(readTemplate(broken, { checked: true })).rejects.toThrow("logo, width = 50 mm; from 5 to 40 mm");
    const other = templateText({ ...template, logo: { ...logo, image: "https://example.com/a.png" } });
    await expect(readTemplate(other, { checked: true })).rejects.toThrow(/no picture as data:image/);
  });

  it("of a linked sheet has no copy of the logo of its source's template", async () => {
    const logo = { image: invented, width: 30 };
    const source: Template = { ...(await officeTemplate()), logo };
    await addOfficeTemplate(source);
    const { host } = await sheetOf(source);
    const linked = officeLinked().find(({ id }) => id === "alder-beam-strength")!;
    const sheetName = "Strength";
    const plan = await linkedPlan(host, linked, name, linked.example.inputs);
    await host.apply(plan, { sheetName, progress: () => undefined });
    const comparison = (await compare(host, sheetName))!;
    const about = { id: "alder-strength", name: "Alder strength", version: "1.0.0", office: "Alder Office (invented)" };
    const kept = (own: Logo | undefined) => {
      const { rows, refused, template } = draftTemplate(comparison, { ...about, logo: own });
      expect(refused).toEqual([]);
      return { told: rows.filter(({ label }) => label === logoName), logo: template!.logo };
    };
    expect(await host.logo(sheetName)).toEqual(logo);
    expect(kept(await host.logo(sheetName))).toEqual({ told: [], logo: undefined });
    expect(kept({ ...logo, width: 20 })).toMatchObject({ told: [{ kind: "changed" }], logo: { width: 20 } });
    const none = { kind: "left out", what: "the sheet has none; sheets of the template have their source's" };
    expect(kept(undefined)).toMatchObject({ told: [none], logo: undefined });
  });

  it("may hold a block of another template of the office, once that is loaded", async () => {
    const template = await officeTemplate();
    const [block] = template.blocks.filter(({ front }) => !front);
    const text = (id: string): string => {
      const { blocks, ...rest } = JSON.parse(templateText(template)) as { blocks: { id: string }[] };
      return JSON.stringify({
        ...rest,
        id,
        blocks: blocks.map((one) => (one.id === block!.id ? { use: `alder-beam#${one.id}` } : one)),
      });
    };
    await expect(readTemplate(text("alder-other"), { checked: true })).rejects.toThrow(/no shared part alder-beam#/);
    await addOfficeTemplate(template);
    const read = await readTemplate(text("alder-other"), { checked: true });
    expect(read.template.blocks).toEqual(template.blocks);
  });
});
