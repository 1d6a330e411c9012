/** What keeps a sheet from a verdict is named, and no raw error of the program stands for a figure. */
import { expect, it } from "vitest";
import type { Address } from "../../../src/cells/index.ts";
import { changeOfSheet, recogniseAmong } from "../../../src/checker/index.ts";
import { planValues } from "../../../src/hosts/index.ts";
import {
  columns,
  expand,
  missingInputs,
  missingText,
  noResultText,
  plannedSnapshot,
} from "../../../src/sheet/index.ts";
import { allTemplates, templates } from "../../../src/templates/index.ts";
import { exampleOf, planned } from "../../plan/builtSheet.ts";
import { openCells } from "../../../taskpane/build/openCells.ts";

const template = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
const plan = expand(template, {});
const cells = planValues(plan, "Beam")!;
const open = openCells(plan, ({ row }) => cells[row]?.[columns.verdict]?.text ?? "");

it("names every row that is to be filled in, and rows of a table that say the same once", () => {
  expect(open.filter(({ title }) => !/^(\d+\.\d+ \w|\w[^,]*(, [^,]+)*, rows? \d)/.test(title))).toEqual([]);
  expect(open).toContainEqual(expect.objectContaining({ title: "1.44 span between the supports", status: "MISSING" }));
  expect(open).toContainEqual(expect.objectContaining({ title: "Tendons, rows 1 to 3", status: "MISSING" }));
  const [front] = plan.cells.filter(({ role }) => role === "block").sort((a, b) => a.row - b.row);
  expect(open.filter(({ at }) => at.row < front!.row)).toEqual([]);
});

it("names each missing input below its line, by id, label and cell", () => {
  const isMissing = ({ row }: Address) => cells[row]?.[columns.verdict]?.text === "MISSING";
  const all = missingInputs(plan, isMissing, ({ row, column }) => cells[row]?.[column]?.value);
  const named = openCells(plan, ({ row }) => cells[row]?.[columns.verdict]?.text ?? "", all);
  // Every line that says MISSING names what is, and nothing is named twice or left out.
  for (const { title, status, missing } of named)
    expect([title, missing.length > 0]).toEqual([title, status === "MISSING"]);
  expect(named.flatMap(({ missing }) => missing)).toEqual(all);
  const [tendons] = named.filter(({ title }) => title === "Tendons, rows 1 to 3");
  expect(tendons!.missing.map(({ id }) => id)).toEqual(expect.arrayContaining(["sigj[1]", "sigj[2]", "sigj[3]"]));
  const [span] = named.filter(({ title }) => title === "1.44 span between the supports");
  expect(span!.missing).toMatchObject([
    { id: "L", label: expect.stringContaining("span between the supports") as unknown, where: "" },
  ]);
  // The cell is the one that the sheet's name for the input leads to.
  const { row, column } = plan.names.find(({ name }) => name === "kb_L")!;
  expect(span!.missing[0]!.at).toEqual({ row, column });
});

it("names a table of one row by the table, not by the column that stands where rows have their values", () => {
  const record = allTemplates.find(({ id }) => id === "stressing-record-post-tensioned-en1992-2004")!;
  const { plan: of, values } = planned(record, { ...exampleOf(record), jkMax: [null] });
  const shown = ({ row, column }: Address) => values[row]?.[column]?.text ?? "";
  const all = missingInputs(
    of,
    (at) => shown(at) === "MISSING",
    ({ row, column }) => values[row]?.[column]?.value,
  );
  expect(all.map(({ id }) => id)).toEqual(["jkMax[1]"]);
  const [jack] = openCells(of, shown, all).filter(({ missing }) => missing.length > 0);
  expect(jack!.title).toBe("Jack and gauge, row 1");
  expect(missingText(jack!.missing[0]!)).toContain("rated pressure of jack and pump");
});

it("tells rows of a table apart that say something else", () => {
  const [first] = open.filter(({ title }) => title === "Tendons, rows 1 to 3");
  const lines = openCells(plan, ({ row }) => (row === first!.at.row + 1 ? "OUT OF RANGE" : "MISSING"));
  expect(lines.filter(({ title }) => title.startsWith("Tendons,")).map(({ title, status }) => [title, status])).toEqual(
    [
      ["Tendons, row 1", "MISSING"],
      ["Tendons, row 2", "OUT OF RANGE"],
      ["Tendons, row 3", "MISSING"],
    ],
  );
});

it("a change of an empty sheet says that inputs are missing, not which error the program shows", () => {
  const snapshot = { ...plannedSnapshot(plan, "Beam"), cells };
  const shape = Object.fromEntries(template.shape.map(({ id }) => [id, plan.inputs[id] ?? null]));
  // The errors are there: on the sheet itself they are as they were.
  expect(cells.flat().some(({ error }) => error?.code === "#VALUE!")).toBe(true);
  const other = templates.find(({ id }) => id === "post-tensioned-is1343-1980")!;
  for (const [to, of] of [
    [template, { ...shape, tendons: 2 }],
    [other, {}],
  ] as const) {
    const { checks } = changeOfSheet(recogniseAmong(snapshot, [template])!, to, of);
    const said = checks.flatMap(({ before, after }) => [before, after]);
    expect(said.flatMap(({ utilisation, verdict }) => [utilisation, verdict]).filter((t) => t.includes("#"))).toEqual(
      [],
    );
  }
  const { checks } = changeOfSheet(recogniseAmong(snapshot, [template])!, other, {});
  expect(checks.map(({ before }) => before)).toContainEqual({ utilisation: "–", verdict: "inputs missing" });
  expect([noResultText(["OK", "MISSING"]), noResultText(["OK", "default"])]).toEqual(["inputs missing", "no result"]);
});
