/** Another configuration or standard starts from the sheet as it stands at each press of a button, not as it was once read. */
import { describe, expect, it } from "vitest";
import { changeOfSheet, recognise, type ChangeOfSheet } from "../../../src/checker/index.ts";
import { columns, type Template } from "../../../src/sheet/index.ts";
import { templates } from "../../../src/templates/index.ts";
import { changeNow, NotChangeable, sameChange } from "../../../taskpane/build/changeNow.ts";
import { builtBook } from "../../checker/books.ts";

const engine = {
  recognise,
  changeOfSheet: (...of: Parameters<typeof changeOfSheet>) => Promise.resolve(changeOfSheet(...of)),
};
const other = templates.find(({ id }) => id === "post-tensioned-is1343-1980")!;

async function beam() {
  const { host, plan, template } = await builtBook("post-tensioned-en1992-2004");
  const cellOf = (id: string) => {
    const { row, column } = plan.meanings.find((one) => one.id === id)!.at;
    return { sheet: "Beam", row, column };
  };
  const shape = Object.fromEntries(template.shape.map(({ id }) => [id, plan.inputs[id] ?? null]));
  const change = (to: Template = template): Promise<ChangeOfSheet> =>
    changeNow(engine, host, { sheet: "Beam", template: to, shape: to === template ? shape : {}, parked: {} });
  return { host, plan, cellOf, change };
}

describe("a change of configuration or standard", () => {
  it("that is asked for after an edit has the edit: on the sheet as it is, and on the new one", async () => {
    const { host, cellOf, change } = await beam();
    const before = await change();
    expect(before.overall).toEqual({ before: "OK", after: "OK" });
    // Above its limit of 1440 MPa: the first page's example of the README.
    await host.enter(cellOf("sigj"), 1450);
    const after = await change();
    expect(after.overall).toEqual({ before: "FAIL", after: "FAIL" });
    expect((after.carried.inputs["sigj"] as readonly number[])[0]).toBe(1450);
    expect((after.plan.inputs["sigj"] as readonly number[])[0]).toBe(1450);
    expect(sameChange(before, after)).toBe(false);
  });

  it("is the same where nothing was edited, also after a calculation", async () => {
    const { host, change } = await beam();
    const before = await change();
    await host.recalculate();
    expect(sameChange(before, await change())).toBe(true);
  });

  it("differs where only an input without effect on verdicts, or only a mark, was edited", async () => {
    const { host, plan, cellOf, change } = await beam();
    const before = await change();
    await host.enter(cellOf("project"), "Another quay (invented)");
    const renamed = await change();
    expect(sameChange(before, renamed)).toBe(false);
    const { row } = plan.meanings.find((one) => one.id === "mu")!.at;
    await host.enter({ sheet: "Beam", row, column: columns.mark }, "assumed");
    expect(sameChange(renamed, await change())).toBe(false);
  });

  it("differs for another standard", async () => {
    const { change } = await beam();
    expect(sameChange(await change(), await change(other))).toBe(false);
  });

  it("is refused on a sheet that no template built", async () => {
    const { host } = await beam();
    const asked = { sheet: "Beam", template: other, shape: {}, parked: {} };
    const unknown = { ...engine, recognise: () => Promise.resolve(undefined) };
    await expect(changeNow(unknown, host, asked)).rejects.toThrow(NotChangeable);
  });
});
