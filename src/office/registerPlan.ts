import { SheetWriter } from "../checker/index.ts";
import { cautions, version } from "../core/index.ts";
import type { Highlight, Plan, Role } from "../sheet/index.ts";
import { gone, notBuilt, registerColumns, type Entry } from "./register.ts";

/** In characters, by field. */
const widths: Readonly<Record<keyof Entry, number>> = {
  member: 18,
  verdict: 14,
  governing: 34,
  utilisation: 11,
  place: 26,
  losses: 13,
  warnings: 10,
  remarks: 44,
  change: 40,
  template: 28,
  version: 9,
  hash: 18,
  defaults: 22,
  file: 24,
  inputs: 18,
  written: 18,
};
const formats: Partial<Readonly<Record<keyof Entry, string>>> = { utilisation: "0.00", losses: "0.0%", warnings: "0" };
const roles: Partial<Readonly<Record<keyof Entry, Role>>> = { member: "item", verdict: "verdict" };

/** A register as a sheet: what a file of it holds, and what stands in the workbook. */
export function registerPlan(
  entries: readonly Entry[],
  { date, from }: { readonly date: string; readonly from: string },
): Plan {
  const w = new SheetWriter(registerColumns.map(({ field }) => widths[field]));
  const last = registerColumns.length - 1;
  const counts = new Map<string, number>();
  for (const { verdict } of entries) counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
  w.sentence(0, "title", "Register of members", 0, last);
  w.sentence(1, "label", `${from}; ${date}; Kernbook ${version}`, 0, last);
  w.sentence(2, "label", [...counts].map(([verdict, count]) => `${verdict}: ${count}`).join(", "), 0, last);
  w.sentence(3, "caution", `${cautions.competence} The verdicts are those of the day; the sheets decide.`, 0, last);
  const headingRow = 5;
  registerColumns.forEach(({ heading }, column) => w.put(headingRow, column, "heading", heading));
  entries.forEach((entry, i) => {
    registerColumns.forEach(({ field }, column) => {
      const value = entry[field];
      const role: Role = roles[field] ?? (typeof value === "number" ? "value" : "description");
      w.put(headingRow + 1 + i, column, role, value ?? undefined, formats[field]);
    });
  });
  const rows = headingRow + 1 + entries.length;
  const verdicts = { row: headingRow + 1, column: 1, rows: Math.max(entries.length, 1), columns: 1 };
  const tone = (text: string, tone: Highlight["tone"]): Highlight => ({ ...verdicts, text, tone });
  w.sentence(4, "label", "content hash of this register", 0, 1);
  return w.plan(rows, {
    hashAt: { row: 4, column: 2 },
    unlocked: [],
    names: [],
    validations: [],
    highlights: [
      tone("OK", "good"),
      tone("FAIL", "bad"),
      tone(notBuilt, "bad"),
      tone(gone, "open"),
      tone("WARNINGS", "open"),
    ],
    charts: [],
    meanings: [],
    template: { id: "register", version: "1", title: "Register of members" },
    freeze: { rows: headingRow + 1, columns: 1 },
    print: {
      area: { row: 0, column: 0, rows, columns: registerColumns.length },
      titleRows: [headingRow, headingRow],
      orientation: "landscape",
      footer: "register · {hash} · page {page} of {pages}",
    },
    summary: {
      overall: { row: headingRow + 1, column: 1 },
      checks: [],
      warnings: { row: 0, column: 0, rows: 0, columns: 1 },
    },
  });
}
