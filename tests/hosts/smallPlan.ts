import type { Area } from "../../src/cells/index.ts";
import type { Plan } from "../../src/sheet/index.ts";

/** A sheet of a few rows, made by hand: one input that matters, a name, a rule, a highlight, a spanned note. */
export const smallPlan: Plan = {
  template: { id: "small", version: "1", title: "Small sheet" },
  hash: "0",
  inputs: { mu: 0.2 },
  rows: 12,
  columns: 5,
  widths: [30, 8, 12, 8, 20],
  spans: [{ row: 1, column: 0, rows: 1, columns: 5 }],
  lines: { 1: 2 },
  cells: [
    { row: 0, column: 0, value: "Small sheet", role: "title" },
    { row: 1, column: 0, value: "A sentence over all columns", role: "note" },
    { row: 2, column: 0, value: "friction coefficient", role: "description" },
    { row: 2, column: 2, value: 0.2, role: "input", format: "0.000" },
    { row: 3, column: 0, value: "=1+1", role: "textInput" },
    { row: 3, column: 1, value: "5.10", role: "source" },
    { row: 3, column: 2, value: "TRUE", role: "source" },
    { row: 4, column: 2, formula: '=KERN.FRICTION_STRESS(0.3,C3,0.003,"1/m",1395,12)', role: "value", format: "0.0" },
    { row: 5, column: 2, formula: '=IF(C5>1200,"OK","FAIL")', role: "verdict" },
    { row: 6, column: 2, formula: "=C5*2", role: "value" },
    { row: 7, column: 2, role: "mark" },
    { row: 8, column: 2, formula: '=KERN.FRICTION_STRESS(0.3,C8,0.003,"1/m",1395,12)', role: "value" },
    { row: 9, column: 2, value: true, role: "value" },
  ],
  names: [
    { name: "kb_mu", row: 2, column: 2, rows: 1, columns: 1 },
    { name: "kb_all", row: 2, column: 2, rows: 3, columns: 1 },
  ],
  validations: [
    {
      row: 2,
      column: 2,
      rows: 1,
      columns: 1,
      rule: { kind: "number", above: 0, max: 1 },
      title: "Friction coefficient",
      message: "above 0 and at most 1 1/rad",
    },
  ],
  highlights: [{ row: 5, column: 2, rows: 1, columns: 1, text: "OK", tone: "good" }],
  unlocked: [
    { row: 2, column: 2, rows: 1, columns: 1 },
    { row: 3, column: 0, rows: 1, columns: 1 },
  ],
  freeze: { rows: 1, columns: 0 },
  print: {
    area: { row: 0, column: 0, rows: 12, columns: 5 },
    titleRows: [0, 0],
    orientation: "landscape",
    footer: "{page} of {pages}",
  },
  charts: [],
  meanings: [],
  summary: { overall: { row: 5, column: 2 }, checks: [], warnings: { row: 11, column: 0, rows: 0, columns: 1 } },
};

/** Prestress against time, from the moment of transfer on; and an outline that closes, whose lower edge is drawn from right to left. */
const times = [0, 0.5, 10, 100, 1000, 20_000];
const outline: readonly (readonly [number, number])[] = [
  [-150, 0.4],
  [120, 0.9],
  [320, 0.7],
  [60, 0.2],
  [-150, 0.4],
];
const column = (at: number, row: number, rows: number): Area => ({ row, column: at, rows, columns: 1 });

/** The small sheet with charts of every kind: a logarithmic axis, a series with an x of its own, points without a line. */
export const chartPlan: Plan = {
  ...smallPlan,
  template: { id: "charts", version: "1", title: "Small sheet with charts" },
  rows: 24,
  cells: [
    ...smallPlan.cells,
    ...times.flatMap((t, i) => [
      { row: 12 + i, column: 0, value: t, role: "value" as const },
      { row: 12 + i, column: 1, formula: `=1300-20*LN(1+A${13 + i})`, role: "value" as const },
      { row: 12 + i, column: 4, value: 1050, role: "value" as const },
    ]),
    ...outline.flatMap(([e, share], i) => [
      { row: 18 + i, column: 0, value: e, role: "value" as const },
      { row: 18 + i, column: 1, formula: `=${share}*1`, role: "value" as const },
    ]),
    { row: 23, column: 2, value: 100, role: "value" },
    { row: 23, column: 3, formula: "=0.1+0.45", role: "value" },
  ],
  print: { ...smallPlan.print, area: { row: 0, column: 0, rows: 24, columns: 5 } },
  charts: [
    {
      id: "time",
      title: "Prestress against time",
      x: { label: "t", unit: "days", log: true },
      y: { label: "σ_p", unit: "MPa" },
      at: { row: 1, column: 6, rows: 20, columns: 8 },
      series: [
        { name: "tendon 1", kind: "value", x: column(0, 12, 6), y: column(1, 12, 6) },
        { name: "least", kind: "limit", x: column(0, 12, 6), y: column(4, 12, 6) },
      ],
    },
    {
      id: "region",
      title: "Force and eccentricity",
      x: { label: "e", unit: "mm" },
      y: { label: "1/P", unit: "1/MN", down: true },
      at: { row: 22, column: 6, rows: 20, columns: 8 },
      series: [
        { name: "outline", kind: "value", x: column(0, 18, 5), y: column(1, 18, 5) },
        { name: "this design", kind: "point", x: column(2, 23, 1), y: column(3, 23, 1) },
      ],
    },
  ],
};
