import type { Plan } from "../../sheet/index.ts";
import { SheetWriter } from "../writer.ts";
import type { Comparison } from "./compare.ts";
import { gradesInOrder, gradeWords, type Finding } from "./finding.ts";
import { aboutOf, comparedWith, limits, outcomeOf, whereOf } from "./said.ts";

const columns = { no: 0, grade: 1, where: 2, of: 3, what: 4, expected: 5, found: 6, answer: 7 } as const;
const headings = ["no.", "grade", "where", "of", "what", "expected", "found", "answer, initials, date"];
const widths = [6, 12, 12, 32, 40, 34, 34, 24];

/** The list of findings as a sheet, with a column for the answer to each. */
export function findingsPlan(
  comparison: Comparison,
  { date, host }: { readonly date: string; readonly host: string },
): Plan {
  const w = new SheetWriter(widths);
  const last = columns.answer;
  let row = 0;
  w.sentence(row++, "title", `Comparison of “${comparison.sheet}” with its template`, 0, last);
  headings.forEach((heading, column) => w.put(row, column, "heading", heading));
  row++;
  let hashAt = { row: 0, column: 0 };
  const facts = [
    ["outcome", outcomeOf(comparison)],
    ...comparedWith(comparison),
    ["date", date],
    ["host", host],
  ] as const;
  for (const [what, text] of facts) {
    w.sentence(row, "label", what, columns.no, columns.where);
    w.sentence(row++, "label", text, columns.of, columns.found);
  }
  w.sentence(row, "label", "content hash of this list", columns.no, columns.where);
  hashAt = { row: row++, column: columns.of };
  w.sentence(row++, "caution", limits, columns.no, columns.found);
  const unlocked: { row: number; column: number; rows: number; columns: number }[] = [];
  let number = 0;
  const line = (finding: Finding): void => {
    w.put(row, columns.no, "item", String(++number));
    w.put(row, columns.grade, "description", gradeWords[finding.grade].one);
    w.put(row, columns.where, "symbol", whereOf(finding) || "sheet");
    w.put(row, columns.of, "description", aboutOf(finding));
    w.put(row, columns.what, "description", finding.what);
    w.put(row, columns.expected, "description", finding.expected);
    w.put(row, columns.found, "description", finding.found);
    w.put(row, columns.answer, "mark");
    unlocked.push({ row: row++, column: columns.answer, rows: 1, columns: 1 });
  };
  for (const grade of gradesInOrder) {
    const these = comparison.findings.filter((f) => f.grade === grade);
    if (these.length === 0) continue;
    row++;
    w.sentence(row++, "block", `${gradeWords[grade].title}: ${these.length} (${gradeWords[grade].means})`, 0, last);
    these.forEach(line);
  }
  return w.plan(row, {
    hashAt,
    unlocked,
    names: [],
    validations: [],
    highlights: [],
    charts: [],
    meanings: [],
    template: {
      id: "comparison",
      version: comparison.recognised.plan.template.version,
      title: `Comparison of ${comparison.sheet}`,
    },
    freeze: { rows: 2, columns: 0 },
    print: {
      area: { row: 0, column: 0, rows: row, columns: widths.length },
      titleRows: [0, 1],
      orientation: "landscape",
      footer: "comparison · {hash} · page {page} of {pages}",
    },
    summary: {
      overall: { row: 2, column: columns.of },
      checks: [],
      warnings: { row: 0, column: 0, rows: 0, columns: 1 },
    },
  });
}
