import { a1, type Address } from "../../src/cells/index.ts";
import { afterEach, expect } from "vitest";
import {
  compare,
  tracerOf,
  type Comparison,
  type FindingKind,
  type Flag,
  type Grade,
} from "../../src/checker/index.ts";
import { columns, expand, type Meaning, type Plan, type PlannedCell, type Template } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import type { Faults } from "./faults.ts";
import { gridWithFaults } from "./gridFaults.ts";
import { MemoryHost } from "../hosts/memory/memoryHost.ts";
import type { MemoryWorkbook } from "../hosts/memory/workbook.ts";
import { MemoryFaults } from "./memoryFaults.ts";

export const name = "Beam";
let open: Faults | undefined;
/** Ends the workbook of the test. */
export function ended(): void {
  open?.host.dispose();
  open = undefined;
}
afterEach(ended);

const plans = new Map<Template, Plan>();
/** What a template builds for its example; it is the same each time. */
function examplePlan(template: Template): Plan {
  const plan = plans.get(template) ?? expand(template, template.example.inputs);
  plans.set(template, plan);
  return plan;
}

const built = new Map<Template, MemoryWorkbook>();
/** A workbook with the template's example, built once. */
async function exampleBook(template: Template): Promise<MemoryWorkbook> {
  const before = built.get(template);
  if (before) return before.copy();
  const host = new MemoryHost();
  await host.apply(examplePlan(template), { sheetName: name, progress: () => undefined });
  built.set(template, host.workbook);
  return host.workbook.copy();
}

/** Where a sheet is built: in memory, which takes milliseconds for an edit, or on the grid. */
const places = { memory: () => new MemoryFaults(), grid: gridWithFaults } as const;
type Where = keyof typeof places;

/** An empty workbook in place of the one before. */
export function opened(where: Where = "memory"): Faults {
  ended();
  return (open = places[where]());
}

/** A freshly built sheet with its invented example, and ways to point at its cells. */
export class Built {
  readonly plan: Plan;
  private constructor(
    readonly template: Template,
    readonly faults: Faults,
  ) {
    this.plan = examplePlan(template);
  }

  static async of(template: Template, where?: Where): Promise<Built> {
    if (where === "grid") {
      const onGrid = new Built(template, opened("grid"));
      await onGrid.faults.host.apply(onGrid.plan, { sheetName: name, progress: () => undefined });
      return onGrid;
    }
    ended();
    open = new MemoryFaults(new MemoryHost(await exampleBook(template)));
    return new Built(template, open);
  }

  /** Ready to be changed where it is protected. */
  static async unprotected(template: Template, where?: Where): Promise<Built> {
    const built = await Built.of(template, where);
    await built.faults.unprotected(name);
    return built;
  }

  cell(where: string, fits: (cell: PlannedCell) => boolean): PlannedCell {
    const found = this.plan.cells.find(fits);
    if (!found) throw new Error(`${this.template.id} has no ${where}`);
    return found;
  }

  meaning(id: string): Meaning {
    const found = this.plan.meanings.find((m) => m.id === id);
    if (!found) throw new Error(`${this.template.id} has no ${id}`);
    return found;
  }

  async compared(sheet = name): Promise<Comparison> {
    const comparison = await compare(this.faults.host, sheet);
    if (!comparison) throw new Error(`“${sheet}” was not recognised`);
    return comparison;
  }

  async flags(at: Address): Promise<readonly Flag[]> {
    return (await tracerOf(this.faults.host).trace({ sheet: name, row: at.row, column: at.column })).calls.flatMap(
      ({ flags }) => flags,
    );
  }
}

export const alarms = ({ findings }: Comparison) => findings.filter(({ grade }) => grade !== "note");
export const [en, enPre, is, isPre] = templates as readonly [Template, Template, Template, Template];

/** Does a comparison name this fault at this cell, and nothing else that is no consequence of it? */
export async function finds(
  built: Built,
  kind: FindingKind,
  grade: Grade,
  at: Address | undefined,
  consequences: readonly FindingKind[] = [],
): Promise<Comparison> {
  const comparison = await built.compared();
  const found = comparison.findings.find(
    (f) => f.kind === kind && (at === undefined || (f.at?.row === at.row && f.at.column === at.column)),
  );
  expect(
    found,
    `${kind} at ${at ? a1(at) : "the sheet"}; found ${JSON.stringify(alarms(comparison).slice(0, 5))}`,
  ).toBeDefined();
  expect(found!.grade).toBe(grade);
  expect(comparison.clean).toBe(grade === "note");
  expect(
    alarms(comparison)
      .filter((f) => f !== found && !consequences.includes(f.kind))
      .map((f) => `${f.kind} ${f.at ? a1(f.at) : ""} ${f.what}`),
  ).toEqual([]);
  return comparison;
}

export const isValue = ({ role, column }: PlannedCell): boolean => role === "value" && column === columns.value;
