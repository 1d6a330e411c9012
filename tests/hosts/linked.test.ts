/** A linked sheet on each host: refused without its source, else with the same values. The rules are the project's own. */
import { describe, expect, it } from "vitest";
import { linkedPlan } from "../../src/checker/index.ts";
import type { Host } from "../../src/hosts/index.ts";
import { openGridInNode } from "../../src/hosts/index.ts";
import { expand } from "../../src/sheet/index.ts";
import { linkedTemplates } from "../../src/templates/index.ts";
import { exampleOf, planned, sourceName } from "../plan/builtSheet.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { MemoryHost } from "./memory/memoryHost.ts";
import { openFake } from "./openFake.ts";

const template = linkedTemplates.find(({ id }) => id === "feasible-domain-pre-tensioned-is1343-1980")!;
const progress = (): void => undefined;
const hosts: readonly (readonly [string, () => Promise<Host>])[] = [
  ["memory", () => Promise.resolve(new MemoryHost())],
  ["the grid", openGridInNode],
  ["the spreadsheet program", () => Promise.resolve(openFake({ calculator: memoryCalculator() }).host)],
];

describe.each(hosts)("a linked sheet on %s", (_name, open) => {
  it(
    "is refused without its source or where that has changed, else shows the source's values",
    { timeout: 240_000 },
    async () => {
      const host = await open();
      const { plan: expected, values, source } = planned(template, exampleOf(template));
      await expect(host.apply(expected, { sheetName: "Beam", progress })).rejects.toThrow(
        `has no sheet “${sourceName}”`,
      );

      await host.apply(expand(template.source!.template, source!.plan.inputs), {
        sheetName: sourceName,
        progress,
      });
      const moved = {
        ...expected.source!,
        names: expected.source!.names.map((name) => ({ ...name, row: name.row + 1 })),
      };
      await expect(host.apply({ ...expected, source: moved }, { sheetName: "Beam", progress })).rejects.toThrow(
        "stand elsewhere than a moment ago",
      );
      expect(await host.sheetNames()).not.toContain("Beam");

      const plan = await linkedPlan(host, template, sourceName, template.example.inputs);
      expect(plan.hash).toBe(expected.hash);
      await host.apply(plan, { sheetName: "Beam", progress });
      const read = await host.read("Beam", { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
      for (const { row, column, formula, role } of plan.cells) {
        if (formula === undefined) continue;
        const [now, then] = [read[row]![column]!.value ?? "", values[row]![column]!.value ?? ""];
        if (typeof then === "number") expect(now, role).toBeCloseTo(then, 9);
        else expect(now, role).toBe(then);
      }
    },
  );
});
