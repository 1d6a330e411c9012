import { type Address, cellAt, columnLetters, rewritten, shortened } from "../../cells/index.ts";
import { columns } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { labels, tableOf } from "./cells.ts";
import type { Finding } from "./finding.ts";

/** Numbers that follow each other, as pairs of first and count. */
function runs(numbers: readonly number[]): readonly (readonly [number, number])[] {
  const out: [number, number][] = [];
  for (const n of numbers) {
    const last = out.at(-1);
    if (last && last[0] + last[1] === n) last[1]++;
    else out.push([n, 1]);
  }
  return out;
}

const several = (count: number, one: string): string => (count === 1 ? `A ${one}` : `${count} ${one}s`);

/** The first and the last row of all that a planned formula refers to. */
function rowsMentioned(formula: string): readonly (readonly [number, number])[] {
  const out: (readonly [number, number])[] = [];
  rewritten(formula, "", ({ from, to = from }) => {
    out.push([Math.min(from.row, to.row), Math.max(from.row, to.row)]);
    return "";
  });
  return out;
}

/** Rows and columns that are gone, and formulas that lost what they referred to with them. */
export function goneFindings(recognised: Recognised): readonly Finding[] {
  const { plan } = recognised;
  const labelOf = labels(recognised);
  const ofTable = tableOf(recognised);
  const filled = new Set(
    plan.cells.filter(({ value, formula }) => value !== undefined || formula !== undefined).map(({ row }) => row),
  );
  const gone = Array.from({ length: plan.rows }, (_, row) => row).filter(
    (row) => recognised.rowNow(row) === undefined && filled.has(row),
  );
  const mentioned =
    gone.length === 0
      ? []
      : plan.cells.flatMap(({ row, formula }) =>
          formula === undefined || recognised.rowNow(row) === undefined ? [] : [rowsMentioned(formula)],
        );
  const out: Finding[] = runs(gone).map(([first, count]) => {
    let before = first - 1;
    while (before >= 0 && recognised.rowNow(before) === undefined) before--;
    // A range keeps what is left of it.
    const lost = mentioned.filter((spans) => spans.some(([from, to]) => from >= first && to < first + count)).length;
    const names = [
      ...new Set(
        Array.from(
          { length: count },
          (_, i) => ofTable(first + i) ?? labelOf({ row: first + i, column: columns.description }),
        ).filter(Boolean),
      ),
    ];
    const row = before < 0 ? 0 : recognised.rowNow(before)!;
    return {
      kind: "row deleted",
      grade: "serious",
      at: { row, column: 0 },
      label: names.slice(0, 3).join("; ") + (names.length > 3 ? ` and ${names.length - 3} more` : ""),
      what:
        `${several(count, "row")} of the template ${count === 1 ? "is" : "are"} missing after this ` +
        `place.${lost > 0 ? ` ${several(lost, "formula")} referred to ${count === 1 ? "it" : "them"}.` : ""}`,
      expected: shortened(names.join("; "), 200),
      found: "missing",
    };
  });
  const lostColumns = Array.from({ length: plan.columns }, (_, c) => c).filter(
    (c) => recognised.columnNow(c) === undefined,
  );
  for (const [first, count] of runs(lostColumns))
    out.push({
      kind: "column deleted",
      grade: "serious",
      what: `${several(count, "column")} of the template ${count === 1 ? "is" : "are"} missing.`,
      expected: `column ${columnLetters(first)}`,
      found: "missing",
    });
  return out;
}

const holdsSomething = ({ snapshot }: Recognised, row: number, column: number): boolean => {
  const cell = cellAt(snapshot, row, column);
  return cell.formula !== undefined || cell.error !== undefined || (cell.value !== null && cell.value !== "");
};

/** Rows and columns the template does not have, and what stands in cells it leaves free. */
export function addedFindings(recognised: Recognised): readonly Finding[] {
  const { plan, snapshot } = recognised;
  const out: Finding[] = [];
  const nowColumns = Array.from({ length: snapshot.columns }, (_, c) => c);
  const lastRow = Math.max(...Array.from({ length: plan.rows }, (_, r) => recognised.rowNow(r) ?? -1));
  const lastColumn = Math.max(...Array.from({ length: plan.columns }, (_, c) => recognised.columnNow(c) ?? -1));
  const rows = Array.from({ length: snapshot.rows }, (_, r) => r).filter((r) => recognised.rowPlanned(r) === undefined);
  for (const [first, count] of runs(rows)) {
    const content = Array.from({ length: count }, (_, i) => first + i).filter((r) =>
      nowColumns.some((c) => holdsSomething(recognised, r, c)),
    );
    if (first > lastRow) {
      if (content.length > 0)
        out.push({
          kind: "own cells",
          grade: "note",
          at: { row: content[0]!, column: 0 },
          rows: count,
          what: "Cells of your own stand below the template's last row.",
        });
    } else {
      const words = cellWords(recognised, content[0]);
      out.push({
        kind: "row inserted",
        grade: content.length > 0 ? "look" : "note",
        at: { row: first, column: 0 },
        rows: count,
        what:
          content.length > 0
            ? `${several(count, "row")} that the template does not have ${count === 1 ? "was" : "were"} inserted.`
            : `${several(count, "empty row")} ${count === 1 ? "was" : "were"} inserted.`,
        ...(words && { found: words }),
      });
    }
  }
  for (const [first, count] of runs(
    nowColumns.filter((c) => c <= lastColumn && recognised.columnPlanned(c) === undefined),
  ))
    out.push({
      kind: "column inserted",
      grade: "look",
      at: { row: 0, column: first },
      what: `${several(count, "column")} that the template does not have ${count === 1 ? "was" : "were"} inserted.`,
    });

  const keyOf = (row: number, column: number): number => row * plan.columns + column;
  const planned = new Set(plan.cells.map(({ row, column }) => keyOf(row, column)));
  const beside: Address[] = [];
  for (let r = 0; r < snapshot.rows; r++) {
    const plannedRow = recognised.rowPlanned(r);
    if (plannedRow === undefined) continue;
    for (const c of nowColumns) {
      const plannedColumn = recognised.columnPlanned(c);
      if (plannedColumn === undefined ? c <= lastColumn : planned.has(keyOf(plannedRow, plannedColumn))) continue;
      if (!holdsSomething(recognised, r, c)) continue;
      if (plannedColumn === undefined) beside.push({ row: r, column: c });
      else
        out.push({
          kind: "cell added",
          grade: "look",
          at: { row: r, column: c },
          what: "Something was written into a cell that the template leaves empty.",
          expected: "empty",
          found: wordsOf(recognised, r, c),
        });
    }
  }
  if (beside[0])
    out.push({
      kind: "own cells",
      grade: "note",
      at: beside[0],
      what:
        `${several(beside.length, "cell")} of your own ${beside.length === 1 ? "stands" : "stand"} to the ` +
        "right of the template's columns.",
    });
  return out;
}

const wordsOf = ({ snapshot }: Recognised, row: number, column: number): string => {
  const cell = cellAt(snapshot, row, column);
  return cell.formula ?? cell.error?.code ?? cell.text;
};

function cellWords(recognised: Recognised, row: number | undefined): string {
  if (row === undefined) return "";
  const words = recognised.snapshot.cells[row]!.flatMap((_cell, c) =>
    holdsSomething(recognised, row, c) ? [wordsOf(recognised, row, c)] : [],
  );
  return shortened(words.join(" | "), 120);
}
