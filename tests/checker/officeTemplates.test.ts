import { afterEach, describe, expect, it } from "vitest";
import { compare, missingTemplate, recognise } from "../../src/checker/index.ts";
import { keepTemplate, readTemplate, templateText } from "../../src/office/index.ts";
import { columns, expand, type Template } from "../../src/sheet/index.ts";
import { addOfficeTemplate, officeLinked, officeTemplates, removeOfficeTemplate } from "../../src/templates/offices.ts";
import { MemoryHost } from "../hosts/memory/memoryHost.ts";
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
    const found = (await compare(faults.host, name))!.findings.filter(({ kind }) => kind === "locked row changed");
    expect(found.map(({ at, grade }) => [at!.row, grade])).toEqual([
      [fck!.row, "serious"],
      [factor!.row, "serious"],
    ]);
    expect(found[0]!.what).toContain("Alder Office (invented)");
    expect(found[0]!.what).toContain("unit changed");
    expect(found[1]).toMatchObject({ expected: "0.75", found: "0.8" });
  });
});
