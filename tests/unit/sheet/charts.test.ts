import { describe, expect, test } from "vitest";
import { expand, lint, type ChartSpec, type Plan, type Template } from "../../../src/sheet/index.ts";
import { copy, small } from "./small.ts";

const stages = ["transfer", "lifting", "service"];
const line = { column: "mean", name: "mean", kind: "value" } as const;

function withChart(more: Partial<ChartSpec>): Template {
  const template = copy();
  Object.assign(template.charts[1]!, more);
  return template;
}
const charted = (more: Partial<ChartSpec>): Plan["charts"][number] =>
  expand(withChart(more), small.example.inputs).charts.find(({ id }) => id === "mean")!;
const areaOf = (id: string) => expand(small, small.example.inputs).meanings.find((meaning) => meaning.id === id)!.at;

describe("a logarithmic axis", () => {
  test("reaches the plan", () =>
    expect(charted({ x: { ...small.charts[1]!.x, log: true } }).x).toEqual({ label: "x", unit: "m", log: true }));
  test("is said only where it is wanted, so that sheets built before keep their mark", () =>
    expect(charted({}).x).toEqual({ label: "x", unit: "m" }));
  test.each([
    ["x", false],
    ["x", 10],
    ["y", true],
  ] as const)("is on or not there, and of x only: %s %s", (axis, log) => {
    const template = copy();
    Object.assign(template.charts[1]![axis], { log });
    expect(lint(template).join("\n")).toContain(`charts 2, ${axis}, log: `);
  });
});

describe("an axis that grows downward", () => {
  test("reaches the plan, and is of y only", () => {
    expect(charted({ y: { ...small.charts[1]!.y, down: true } }).y).toMatchObject({ down: true });
    const template = copy();
    Object.assign(template.charts[1]!.x, { down: true });
    expect(lint(template).join("\n")).toContain("charts 2, x, down: ");
  });
});

describe("a series with an x of its own", () => {
  test("of its own table", () => {
    const { series } = charted({
      series: [line, { column: "vs", x: "vx", name: "at service", kind: "value", member: "service" }],
    });
    const { row, column, rows } = areaOf("vx");
    const first = row + (rows / stages.length) * 2;
    expect(series[1]!.x).toEqual({ row: first, column, rows: rows / stages.length, columns: 1 });
    expect(series[1]!.y).toEqual({ ...series[1]!.x, column: areaOf("vs").column });
    expect(series[0]!.x).toEqual(areaOf("x"));
  });
  test("of a table over what is left when a member is chosen", () => {
    const { series } = charted({
      x: { column: "ax", label: "x", unit: "m" },
      series: [{ column: "vs", x: "raw", name: "at service", kind: "value", member: "service" }],
    });
    expect(series[0]!.x).toEqual(areaOf("raw"));
  });
  test("of another table over the same members, also for one member of them", () => {
    const template = withChart({
      series: [line, { column: "share", x: "factor", name: "factor", kind: "point", member: "lifting" }],
    });
    const block = template.blocks.find(({ id }) => id === "checks")!;
    (block.items as unknown[]).push({
      table: "shares",
      title: "Shares",
      over: ["stage"],
      columns: [
        { id: "sn", text: "stage", symbol: "no.", index: "stage" },
        { id: "share", text: "share", symbol: "s", formula: "{factor}" },
      ],
    });
    const plan = expand(template, small.example.inputs);
    const at = (id: string) => plan.meanings.find((meaning) => meaning.id === id)!.at;
    const one = plan.charts.find(({ id }) => id === "mean")!.series[1]!;
    expect(one.x).toEqual({ ...at("factor"), row: at("factor").row + 1, rows: 1 });
    expect(one.y).toEqual({ ...at("share"), row: at("share").row + 1, rows: 1 });
  });
  test.each([
    ["nowhere", "nowhere is not a table column present here"],
    ["L", "L is not a table column present here"],
    ["bm", "series mean: bm does not run over the same members"],
    ["px", "series mean: px does not run over the same members"],
  ])("not of %s", (x, message) => {
    expect(lint(withChart({ series: [{ ...line, x }] })).join("\n")).toContain(`chart mean: ${message}`);
  });
});

describe("a point", () => {
  test("is drawn after every line, whatever its place in the template", () => {
    const { series } = charted({
      series: [
        { column: "mean", name: "first point", kind: "point" },
        { column: "mean", name: "limit", kind: "limit" },
        { column: "mean", name: "second point", kind: "point" },
        line,
      ],
    });
    expect(series.map(({ name, kind }) => [name, kind])).toEqual([
      ["limit", "limit"],
      ["mean", "value"],
      ["first point", "point"],
      ["second point", "point"],
    ]);
  });
  test("is one of three kinds", () =>
    expect(lint(withChart({ series: [{ ...line, kind: "dot" as never }] })).join("\n")).toContain(
      "charts 2, series 1, kind: ",
    ));
});
