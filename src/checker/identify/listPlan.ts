import { version } from "../../core/index.ts";
import type { Plan } from "../../sheet/index.ts";
import { SheetWriter } from "../writer.ts";
import type { Finding } from "./finding.ts";
import {
  countsText,
  evidenceText,
  limitsOfIdentifying,
  outcomeText,
  placeWords,
  verdictsInOrder,
  verdictWords,
  type IdentifiedList,
} from "./list.ts";
import { argumentText } from "./listPaper.ts";

const columns = { no: 0, cell: 1, called: 2, formula: 3, rule: 4, arguments: 5, outcome: 6, answer: 7 } as const;
const headings = ["no.", "cell", "called", "formula", "function, source", "arguments", "what differs", "answer"];
const widths = [6, 10, 26, 34, 32, 34, 40, 22];

/** The list as a sheet, with a column for the answer to each. */
export function identifiedPlan(
  list: IdentifiedList,
  { date, host }: { readonly date: string; readonly host: string },
): Plan {
  const w = new SheetWriter(widths);
  const last = columns.answer;
  let row = 0;
  w.sentence(row++, "title", `Formulas of “${list.sheet}” and what they compute`, 0, last);
  headings.forEach((heading, column) => w.put(row, column, "heading", heading));
  row++;
  const facts = [
    ["outcome", countsText(list)],
    ["date", date],
    ["host", host],
    ["version", `Kernbook ${version}`],
  ] as const;
  for (const [what, text] of facts) {
    w.sentence(row, "label", what, columns.no, columns.cell);
    w.sentence(row++, "label", text, columns.called, columns.outcome);
  }
  w.sentence(row, "label", "content hash of this list", columns.no, columns.cell);
  const hashAt = { row: row++, column: columns.called };
  w.sentence(row++, "caution", limitsOfIdentifying, columns.no, columns.outcome);
  const unlocked: { row: number; column: number; rows: number; columns: number }[] = [];
  let number = 0;
  const line = (finding: Finding): void => {
    const { place, label, formula, found } = finding;
    w.put(row, columns.no, "item", String(++number));
    w.put(row, columns.cell, "symbol", placeWords(place));
    w.put(row, columns.called, "description", label);
    w.put(row, columns.formula, "description", formula);
    if (found) {
      w.put(row, columns.rule, "description", `${found.id}\n${found.source}`);
      w.put(row, columns.arguments, "description", found.arguments.map(argumentText).join("; "));
    }
    w.put(
      row,
      columns.outcome,
      "description",
      [outcomeText(finding), evidenceText(finding)].filter(Boolean).join("; "),
    );
    w.put(row, columns.answer, "mark");
    unlocked.push({ row: row++, column: columns.answer, rows: 1, columns: 1 });
  };
  for (const verdict of verdictsInOrder) {
    const these = list.findings.filter((f) => f.verdict === verdict);
    if (these.length === 0) continue;
    row++;
    w.sentence(row++, "block", `${verdictWords[verdict].title}: ${these.length}`, 0, last);
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
    template: { id: "identified", version: "1", title: `Formulas of ${list.sheet}` },
    freeze: { rows: 2, columns: 0 },
    print: {
      area: { row: 0, column: 0, rows: row, columns: widths.length },
      titleRows: [0, 1],
      orientation: "landscape",
      footer: "formulas identified · {hash} · page {page} of {pages}",
    },
    summary: {
      overall: { row: 2, column: columns.called },
      checks: [],
      warnings: { row: 0, column: 0, rows: 0, columns: 1 },
    },
  });
}
