import type { Book, Snapshot } from "../../src/cells/index.ts";
import { bookOfSheets } from "../../src/checker/index.ts";
import { openGridInNode, type CellContent, type CellValue, type Host } from "../../src/hosts/index.ts";
import { expand, type Inputs, type Plan, type Template } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { MemoryHost } from "../hosts/memory/memoryHost.ts";
import type { MemoryWorkbook } from "../hosts/memory/workbook.ts";
import type { TestHost } from "./faults.ts";

const most = 6;
const built = new Map<
  string,
  { readonly workbook: MemoryWorkbook; readonly plan: Plan; readonly template: Template }
>();

/** A template's sheet in memory, read as a book. What was built before is copied. */
export async function builtBook(id: string, inputs: Inputs = {}) {
  const key = JSON.stringify([id, inputs]);
  let known = built.get(key);
  if (!known) {
    const { host, plan, template } = await bookOn(new MemoryHost(), id, inputs);
    if (built.size >= most) built.delete(built.keys().next().value!);
    built.set(key, (known = { workbook: host.workbook, plan, template }));
  }
  const { workbook, plan, template } = known;
  const host = new MemoryHost(workbook.copy());
  return { host, plan, template, snapshot: () => snapshotOf(host, plan) };
}

/** The same on the grid, where an edit takes seconds. */
export async function gridBook(id: string, inputs: Inputs = {}) {
  return bookOn(await openGridInNode(), id, inputs);
}

async function bookOn<T extends TestHost>(host: T, id: string, inputs: Inputs) {
  const template = templates.find((t) => t.id === id);
  if (!template) throw new Error(`there is no template ${id}`);
  const plan = expand(template, { ...template.example.inputs, ...inputs });
  await host.apply(plan, { sheetName: "Beam", progress: () => undefined });
  return { host, plan, template, snapshot: () => snapshotOf(host, plan) };
}

export async function snapshotOf(host: Host, plan: Plan): Promise<Snapshot> {
  const cells = await host.read("Beam", { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
  return {
    sheet: "Beam",
    rows: plan.rows,
    columns: plan.columns,
    cells,
    names: new Map(plan.names.map(({ name, ...area }) => [name.toLowerCase(), { ...area, sheet: "Beam" }])),
  };
}

/** "B3" as row and column. */
export function at(address: string): { readonly row: number; readonly column: number } {
  const [, letter, row] = /^([A-Z])(\d+)$/.exec(address)!;
  return { row: Number(row) - 1, column: letter!.charCodeAt(0) - 65 };
}

/** A sheet of cells by address, without a host: a text that begins with `=` is a formula whose value is yet unknown. */
export function sheetOf(cells: Readonly<Record<string, CellValue>>, sheet = "Sheet1"): Snapshot {
  const placed = Object.entries(cells).map(([address, value]) => ({ ...at(address), value }));
  const rows = Math.max(...placed.map(({ row }) => row)) + 1;
  const columns = Math.max(...placed.map(({ column }) => column)) + 1;
  const all: CellContent[][] = Array.from({ length: rows }, () =>
    Array.from({ length: columns }, () => ({ value: null, text: "" })),
  );
  for (const { row, column, value } of placed) {
    all[row]![column] =
      typeof value === "string" && value.startsWith("=")
        ? { value: null, text: "", formula: value }
        : { value, text: String(value ?? "") };
  }
  return { sheet, rows, columns, cells: all, names: new Map() };
}

export const bookOf = (cells: Readonly<Record<string, CellValue>>): Book => bookOfSheets([sheetOf(cells)]);
