import type { Plan, Role } from "../../sheet/index.ts";
import { SheetWriter } from "../writer.ts";
import { cautions } from "../../core/index.ts";
import { utilisationText } from "./chapter.ts";
import { assumedText, noVerdict, type ReadSheet } from "./read.ts";
import { checkedText, governing, type ReportFacts } from "./report.ts";

const columns = { no: 0, sheet: 1, what: 2, verdict: 3, utilisation: 4, where: 5 } as const;
const widths = [6, 26, 52, 16, 12, 30];

/**
 * The summary of a member as a sheet: what each of its sheets says, every check, warnings, assumptions and revisions.
 * Values, no formulas.
 */
export function reportSheetPlan(sheets: readonly [ReadSheet, ...ReadSheet[]], { date }: ReportFacts): Plan {
  const [first] = sheets;
  const w = new SheetWriter(widths);
  const last = columns.where;
  let row = 0;
  const line = (cells: readonly (readonly [number, Role, string | number])[]): void => {
    for (const [column, role, value] of cells) w.put(row, column, role, value);
    row++;
  };
  const block = (text: string): void => {
    row++;
    w.sentence(row++, "block", text, 0, last);
  };
  const member = first.title.find(([what]) => what === "Member")?.[1] || first.of.snapshot.sheet;
  w.sentence(row++, "title", `Report: ${member}`, 0, last);
  for (const [what, text] of [...first.title, ["Made", date] as const]) {
    if (text === "") continue;
    w.sentence(row, "label", what, columns.no, columns.sheet);
    w.sentence(row++, "label", text, columns.what, last);
  }
  w.sentence(row, "label", "Content hash of this report", columns.no, columns.sheet);
  const hashAt = { row: row++, column: columns.what };
  w.sentence(
    row++,
    "note",
    "Values as they stood then: nothing here follows the sheets. Make it anew after a change.",
    0,
    last,
  );
  w.sentence(row++, "caution", `${cautions.competence} ${cautions.stressing}`, 0, last);

  block("Summary");
  const heads = ["no.", "sheet", "governing check", "verdict", "utilisation", "where"];
  line(heads.map((text, column) => [column, "heading", text] as const));
  const overall = { row, column: columns.verdict };
  sheets.forEach((sheet, i) => {
    const most = governing(sheet);
    line([
      [columns.no, "item", String(i + 1)],
      [columns.sheet, "description", sheet.of.snapshot.sheet],
      [columns.what, "description", most?.description ?? "–"],
      [columns.verdict, "overall", sheet.overall],
      [columns.utilisation, "utilisation", utilisationText(most?.utilisation)],
      [columns.where, "description", most?.where ?? ""],
    ]);
    const assumed = assumedText(sheet);
    if (assumed) w.sentence(row++, "warning", assumed, columns.verdict, last);
  });
  sheets.forEach((sheet, i) => {
    const { of, checks, warnings, assumed, revisions } = sheet;
    block(`${i + 1} ${of.snapshot.sheet}: ${of.template.title}`);
    w.sentence(row++, "label", `${of.head.templateId} ${of.head.templateVersion}, hash ${of.head.hash}`, 0, last);
    w.sentence(row++, "label", `Rows and tables signed off: ${checkedText(sheet)}`, 0, last);
    line([
      [columns.what, "heading", "check"],
      [columns.verdict, "heading", "verdict"],
      [columns.utilisation, "heading", "utilisation"],
      [columns.where, "heading", "where"],
    ]);
    for (const { description, verdict, utilisation, where } of checks)
      line([
        [columns.what, "description", description],
        [columns.verdict, "verdict", verdict || noVerdict],
        [columns.utilisation, "utilisation", utilisationText(utilisation)],
        [columns.where, "description", where],
      ]);
    for (const text of warnings) w.sentence(row++, "warning", text, columns.sheet, last);
    for (const text of assumed) w.sentence(row++, "label", `assumed, not confirmed: ${text}`, columns.sheet, last);
    for (const { name, what, date: on, by, checkedBy, state } of revisions)
      w.sentence(
        row++,
        "label",
        `revision ${name}: ${[what, on, by && `by ${by}`, checkedBy && `checked by ${checkedBy}`, state].filter(Boolean).join(", ")}`,
        columns.sheet,
        last,
      );
  });
  return w.plan(row, {
    hashAt,
    unlocked: [],
    names: [],
    validations: [],
    highlights: [],
    charts: [],
    meanings: [],
    template: { id: "report", version: first.of.plan.template.version, title: `Report: ${member}` },
    freeze: { rows: 1, columns: 0 },
    print: {
      area: { row: 0, column: 0, rows: row, columns: widths.length },
      titleRows: [0, 0],
      orientation: "landscape",
      footer: "report · {hash} · page {page} of {pages}",
    },
    summary: { overall, checks: [], warnings: { row: 0, column: 0, rows: 0, columns: 1 } },
  });
}
