import { describe, expect, it } from "vitest";
import { expand, lint, type Plan, type Template } from "../../../src/sheet/index.ts";
import { copy } from "./small.ts";

function setResults(template: Template, id: string, results: readonly string[]): void {
  Object.assign(
    template.blocks.find((block) => block.id === id)!,
    { results },
  );
}

/** The small template with results: of its losses one column and one row, of its checks one column, nothing of the summary. */
function withResults(): Template {
  const template = copy();
  setResults(template, "losses", ["sfr", "jack"]);
  setResults(template, "checks", ["vs"]);
  setResults(template, "summary", []);
  return template;
}

const template = withResults();
const plan = expand(template, template.example.inputs);
const { rows: printed } = plan.print.area;
const at = (id: string, of: Plan = plan) => of.meanings.find((meaning) => meaning.id === id)!.at;
const cell = ({ row, column }: { row: number; column: number }, of = plan) =>
  of.cells.find((one) => one.row === row && one.column === column);

describe("the workings of a sheet", () => {
  it("stand below what is printed, in one group of rows; results, inputs, checks and what counts over the sheet above", () => {
    expect(lint(template)).toEqual([]);
    for (const id of ["sfr", "jack", "vs", "mu", "sigj", "uMax", "nFail", "overall"])
      expect(at(id).row, id).toBeLessThan(printed);
    for (const id of ["theta", "ecc", "sf", "ref", "factor", "vx"]) expect(at(id).row, id).toBeGreaterThan(printed);
    const [group] = plan.groups!;
    expect(plan.groups).toHaveLength(1);
    expect(group!.row).toBeGreaterThan(printed);
    expect(group!.row + group!.rows).toBe(plan.rows);
    expect(plan.print.breaks!.every((row) => row < printed)).toBe(true);
  });

  it("keep the verdict beside the results it judges, and repeat what tells rows apart", () => {
    const verdict = plan.cells.filter(({ role, row }) => role === "verdict" && row >= at("vs").row && row < printed);
    expect(verdict.filter(({ row }) => row < at("vs").row + at("vs").rows)).toHaveLength(at("vs").rows);
    const { row, rows } = at("vx");
    for (let i = 0; i < rows; i++)
      expect(cell({ row: row + i, column: 0 })?.formula).toBe(`=$A${at("vs").row + i + 1}`);
  });

  it("say where they are, and how they are printed", () => {
    const told = plan.cells.filter(({ formula }) => formula?.includes("outside the print area"));
    expect(told.map(({ row }) => row < printed)).toEqual([true, false]);
    for (const { formula } of told) expect(formula).toContain(`ROW($A$${plan.rows})`);
  });

  it("are counted where they hold verdicts", () => {
    const other = withResults();
    setResults(other, "checks", ["factor"]);
    const moved = expand(other, other.example.inputs);
    const verdicts = moved.cells.filter(({ role, row }) => role === "verdict" && row >= at("vs", moved).row);
    expect(at("vs", moved).row).toBeGreaterThan(moved.print.area.rows);
    expect(verdicts.length).toBeGreaterThanOrEqual(at("vs", moved).rows);
    const count = cell(at("nFail", moved), moved)!.formula!;
    const last = Number(/.*:\$O\$(\d+)/.exec(count)![1]);
    expect(count.match(/COUNTIF/g)).toHaveLength(2);
    expect(last).toBe(moved.rows);
  });

  it("are asked for by ids the block has", () => {
    const wrong = withResults();
    setResults(wrong, "losses", ["jack", "vs"]);
    expect(lint(wrong)).toEqual([
      expect.stringMatching(/^block \d+ \(losses\): results: there is no row, table, column or chart vs in it$/),
    ]);
  });

  it("are not there without results, nor a group", () => {
    const whole = expand(copy(), copy().example.inputs);
    expect(whole.groups).toBeUndefined();
    expect(whole.print.area.rows).toBe(whole.rows);
  });
});
