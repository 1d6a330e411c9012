import { a1, type Area, areaA1 } from "../../cells/index.ts";
import { cautions, version } from "../../core/index.ts";
import type { WorksheetFunction } from "../../../functions/index.ts";
import type { PublishedCase } from "../../published/index.ts";
import type { Highlight, Plan } from "../../sheet/index.ts";
import { SheetWriter } from "../writer.ts";
import { putProof, type Placed } from "./block.ts";
import { columns, countColumns, head, headings, widths } from "./columns.ts";
import { proofsOf } from "./entries.ts";
import { basesExplained, fail, good, overallWords, wordsExplained } from "./words.ts";

/** What the sheet says of where and when it was made. */
export interface MadeWhere {
  /** Date and time with the zone, as a person reads it. */
  readonly when: string;
  readonly host: string;
}

/** A validation sheet and what stands where on it. */
interface Validation {
  readonly plan: Plan;
  readonly rows: readonly (Placed["rows"][number] & { readonly id: string; readonly function: string })[];
}

export const validationTitle = "Validation of the worksheet functions in this installation";
const proves =
  "What it proves: that the functions loaded here give, on the inputs of these checks, the numbers " +
  "printed in the works named, within half a unit of the last printed digit or a wider tolerance whose " +
  "reason stands beside it. Every KERN formula is computed here, from the cells to its right or " +
  "beneath it.";
const provesNot =
  "What it does not prove: that a function is right for inputs between and beyond these, that a " +
  "printed number is right, that a rule applies to a member at hand, or that a design is fit. What " +
  "rests on memory or on no publication is counted apart. Where the overall word is not PASS, do not " +
  "use the functions for a design until the reason is known.";

const cell = (row: number, column: number): string => a1({ row, column }, true);

function sentences(w: SheetWriter): void {
  const last = columns.verdict;
  w.sentence(head.title, "title", validationTitle, 0, w.widths.length - 1);
  headings.forEach((heading, column) =>
    column === columns.inputs
      ? w.sentence(head.headings, "heading", heading, column, w.widths.length - 1)
      : w.put(head.headings, column, "heading", heading),
  );
  w.sentence(head.proves, "note", proves, columns.what, last);
  w.sentence(head.not, "note", provesNot, columns.what, last);
  w.sentence(head.words, "note", wordsExplained, columns.what, last);
  w.sentence(head.competence, "caution", cautions.competence, columns.what, last);
  w.sentence(head.stressing, "caution", cautions.stressing, columns.what, last);
}

function madeWhere(w: SheetWriter, { when, host }: MadeWhere): void {
  const label = (row: number, text: string): void => w.put(row, columns.what, "label", text);
  label(head.made, "made");
  w.sentence(head.made, "label", when, columns.basis, columns.number);
  label(head.built, "product version, as built");
  w.put(head.built, columns.basis, "label", version);
  label(head.hash, "content hash");
  label(head.now, "version of the functions, now");
  w.formula(head.now, columns.basis, "label", "=KERN.VERSION()");
  w.formula(
    head.now,
    columns.printed,
    "verdict",
    `=IFERROR(IF(${cell(head.now, columns.basis)}=${cell(head.built, columns.basis)},"SAME","${
      overallWords.changed
    }"),"${overallWords.changed}")`,
  );
  label(head.host, "made in");
  w.sentence(head.host, "label", host, columns.basis, columns.number);
  label(head.overall, "overall");
  w.put(head.made, columns.compared, "label", "filed by");
  w.put(head.made, columns.difference, "mark");
  w.put(head.built, columns.compared, "label", "date");
  w.put(head.built, columns.difference, "mark");
}

/** Live counts by basis and verdict over all rows, and the word for the whole. */
function counts(w: SheetWriter, first: number, last: number, built: ReadonlyMap<string, number>): void {
  const over = (column: number): string => areaA1({ row: first, column, rows: last - first, columns: 1 });
  const { basis, values, built: asBuilt } = countColumns;
  const words = [...good, fail];
  ["basis of the check", "values", "as built", ...words].forEach((text, i) =>
    w.put(head.counts, basis + i, "tableHeading", text),
  );
  const total = head.firstBasis + basesExplained.length;
  const at = (i: number): number => asBuilt + 1 + i;
  basesExplained.forEach(([word, meaning], i) => {
    const row = head.firstBasis + i;
    w.put(row, basis, "description", word);
    w.formula(row, values, "value", `=COUNTIF(${over(columns.basis)},${cell(row, basis)})`, "0");
    w.put(row, asBuilt, "bound", built.get(word) ?? 0, "0");
    good.forEach((v, k) =>
      w.formula(
        row,
        at(k),
        "value",
        `=COUNTIFS(${over(columns.basis)},${cell(row, basis)},${over(columns.verdict)},"${v}")`,
        "0",
      ),
    );
    // What is none of the good words is a failure, an error in the verdict's own cell too.
    w.formula(
      row,
      at(good.length),
      "value",
      `=${cell(row, values)}-SUM(${areaA1({ row, column: at(0), rows: 1, columns: good.length })})`,
      "0",
    );
    w.sentence(row, "note", meaning, at(words.length), columns.verdict);
  });
  w.put(total, basis, "description", "all");
  [values, asBuilt, ...words.map((_, k) => at(k))].forEach((column) =>
    w.formula(
      total,
      column,
      "value",
      `=SUM(${areaA1({ row: head.firstBasis, column, rows: basesExplained.length, columns: 1 })})`,
      "0",
    ),
  );
  const now = cell(head.now, columns.printed);
  w.formula(
    head.overall,
    columns.basis,
    "overall",
    `=IF(${cell(total, at(good.length))}<>0,"${fail}",IF(${cell(total, values)}<>${cell(total, asBuilt)},"${
      overallWords.incomplete
    }",IF(${now}<>"SAME","${overallWords.changed}","PASS")))`,
  );
  w.sentence(
    head.overall,
    "note",
    "FAIL: a value fails. INCOMPLETE: rows were taken away. CHANGED: all agree, but the functions are of " +
      "another version than the sheet; make a new one.",
    columns.printed,
    columns.verdict,
  );
}

function highlights(rows: number): readonly Highlight[] {
  const tones: readonly (readonly [string, Highlight["tone"]])[] = [
    ["PASS", "good"],
    ["SAME", "good"],
    ["DIFFERS", "good"],
    ["REFUSED", "good"],
    ["BY TRACE", "open"],
    [overallWords.changed, "open"],
    [overallWords.incomplete, "open"],
    [fail, "bad"],
  ];
  const one = (row: number, column: number): Area => ({ row, column, rows: 1, columns: 1 });
  const areas: readonly Area[] = [
    { row: head.blocks, column: columns.verdict, rows: rows - head.blocks, columns: 1 },
    one(head.overall, columns.basis),
    one(head.now, columns.printed),
  ];
  return areas.flatMap((area) => tones.map(([text, tone]) => ({ ...area, text, tone })));
}

/**
 * The sheet an office files: every published check as a live formula, with its inputs, the printed value and a verdict
 * computed on the sheet.
 */
export function validationPlan(
  cases: readonly PublishedCase[],
  functions: readonly WorksheetFunction[],
  made: MadeWhere,
): Validation {
  const w = new SheetWriter(widths);
  sentences(w);
  madeWhere(w, made);
  let next: number = head.blocks;
  const rows = proofsOf(cases, functions).flatMap((proof, i) => {
    const placed = putProof(w, next, i + 1, proof);
    next = placed.next;
    return placed.rows.map((row) => ({ ...row, id: proof.case.id, function: proof.case.function }));
  });
  const built = new Map<string, number>();
  for (const { entry } of rows) built.set(entry.basis, (built.get(entry.basis) ?? 0) + 1);
  counts(w, head.blocks, next, built);
  const overall = { row: head.overall, column: columns.basis };
  const mark = { row: head.made, column: columns.difference, rows: 2, columns: 1 };
  const plan = w.plan(next, {
    hashAt: { row: head.hash, column: columns.basis },
    template: { id: "validation", version, title: "Validation" },
    names: [
      { name: "kb_overall", ...overall, rows: 1, columns: 1 },
      { name: "kb_functionsVersion", row: head.now, column: columns.basis, rows: 1, columns: 1 },
    ],
    validations: [],
    highlights: highlights(next),
    unlocked: [mark],
    freeze: { rows: head.headings + 1, columns: 0 },
    print: {
      area: { row: 0, column: 0, rows: next, columns: w.widths.length },
      titleRows: [head.title, head.headings],
      orientation: "landscape",
      footer: `validation ${version} · {hash} · page {page} of {pages}`,
    },
    charts: [],
    meanings: [],
    summary: { overall, checks: [], warnings: { row: 0, column: columns.basis, rows: 0, columns: 1 } },
  });
  return { plan, rows };
}
