import { type Area, columnLetters, type Snapshot } from "../../cells/index.ts";
import { takeSnapshot } from "../book/takeSnapshot.ts";
import { cautions } from "../../core/index.ts";
import { logoToTake, type CellContent, type Host } from "../../hosts/index.ts";
import { columnCount, withLogo, type Plan, type PlannedChart } from "../../sheet/index.ts";
import type { Looks } from "../../hosts/index.ts";
import { isCopy, readingCopy } from "../recognise/head.ts";
import { recogniseSnapshot } from "../recognise/recognise.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { SheetWriter } from "../writer.ts";
import { areaNow, lookOf, plainRole } from "./look.ts";
import { breaksBefore, fittedWidths, sidesFor } from "./printed.ts";
import { saidFormulas, saidText, type SaidFormula } from "./said.ts";

/** Rows above the copied ones. */
export const headRows = 4;

/** Columns with headings. */
const headed = columnCount;

/**
 * A row takes at least so many formulas; more where many wait, so that they stay near their rows; and no more lines
 * than a row can show.
 */
const least = 2;
const share = 4;
const mostLines = 22;

const linesOf = (text: string, width: number): number =>
  text.split("\n").reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / (width - 1))), 0);

/** How many of the formulas that wait stand in one row. */
function fitting(waiting: readonly string[], width: number): number {
  const wanted = Math.max(least, Math.ceil(waiting.length / share));
  let lines = 0;
  for (let count = 0; count < Math.min(wanted, waiting.length); count++) {
    lines += linesOf(waiting[count]!, width);
    if (count > 0 && lines > mostLines) return count;
  }
  return wanted;
}

interface HandOutFacts {
  /** Date and time, as a person reads it. */
  readonly when: string;
  readonly host: string;
  /** Why the copy goes without the logo of its original; empty where it does not. */
  readonly without?: string;
}

/** What a cell shows, without its formula: an error is its text. */
function shown({ value, error }: CellContent): string | number | boolean | undefined {
  if (error) return error.code;
  return value === null || value === "" ? undefined : value;
}

function headLines(
  w: SheetWriter,
  { sheet }: Snapshot,
  recognised: Recognised | undefined,
  { when, host, without = "" }: HandOutFacts,
  formulaColumn: number,
  last: number,
  facing: boolean,
): void {
  const letters = columnLetters(formulaColumn);
  const head = recognised?.head;
  w.sentence(0, "title", `${readingCopy} “${sheet}”, for reading only`, 0, last);
  w.sentence(
    1,
    "note",
    `Made ${when} in ${host}, from values as computed then. Nothing here recalculates: all cells hold ` +
      "values, and what is typed over changes nothing else. Formulas of the original stand as text in " +
      "column " +
      `${letters}${
        recognised
          ? ": first with symbols and the numbers of rows, [4.1] the row of number 4.1, as D9 in the words of D9, then"
          : ","
      } ` +
      `with the addresses of this copy${facing ? "; printed, on the page after that of their rows" : ""}. ` +
      `Row ${headRows + 1} here is row 1 of the original. ${without}`.trim(),
    0,
    last,
  );
  w.sentence(
    2,
    "label",
    head
      ? `${head.templateId} ${head.templateVersion}, content hash ${head.hash}, worksheet functions as built ` +
          `${head.functionsVersion}. Content hash of this copy: beside, in column ${letters}.`
      : `A sheet that no template of Kernbook built. Content hash of this copy: beside, in column ${letters}.`,
    0,
    last,
  );
  w.sentence(3, "caution", `${cautions.competence} ${cautions.stressing}`, 0, last);
}

/** Writes the formulas beside their rows, what has no room goes on beneath. Gives the rows it took. */
function writeFormulas(
  w: SheetWriter,
  snapshot: Snapshot,
  said: ReadonlyMap<number, readonly SaidFormula[]>,
  column: number,
): number {
  const waiting: string[] = [];
  let row = 0;
  for (; row < snapshot.rows || waiting.length > 0; row++) {
    for (const one of said.get(row) ?? []) {
      const error = snapshot.cells[one.at.row]![one.at.column]!.error;
      waiting.push(
        `${saidText(one, headRows, w.widths[column]!)}${error?.message === undefined ? "" : `\n(${error.code}: ${error.message})`}`,
      );
    }
    const here = waiting.splice(0, fitting(waiting, w.widths[column]!));
    if (here.length > 0) w.put(headRows + row, column, "equation", here.join("\n"));
  }
  return row;
}

const down = (area: Area): Area => ({ ...area, row: area.row + headRows });

function movedChart(chart: PlannedChart, from: number, to: number): PlannedChart {
  return {
    ...chart,
    at: { ...down(chart.at), column: chart.at.column - from + to },
    series: chart.series.map((one) => ({ ...one, x: down(one.x), y: down(one.y) })),
  };
}

/**
 * A copy for people without the worksheet functions: values only, in the look of the original, with the formulas as
 * text beside. Every cell stands as far
 * below its place on the original as the head has rows. No cell of it has a formula.
 */
function handOutPlan(snapshot: Snapshot, looks: Looks, recognised: Recognised | undefined, facts: HandOutFacts): Plan {
  const look = lookOf(snapshot, looks, recognised);
  const formulaColumn = snapshot.columns + 1;
  const widths = fittedWidths(snapshot, look);
  // The columns every sheet of a template has stay together.
  const left = recognised ? Math.min(headed, widths.length) : widths.length;
  const sides = sidesFor(widths, left);
  const w = new SheetWriter([...widths, sides.gap, sides.formulas]);
  headLines(w, snapshot, recognised, facts, formulaColumn, Math.max(left - 1, 0), sides.pagesWide > 1);
  const joined = new Map(look.spans.map((span) => [`${span.row} ${span.column}`, span]));
  snapshot.cells.forEach((cells, row) => {
    cells.forEach((content, column) => {
      const value = shown(content);
      const role = look.roleAt(row, column);
      const span = joined.get(`${row} ${column}`);
      if (value === undefined && role === undefined) return;
      const format = look.formatAt(row, column);
      if (span && typeof value === "string")
        w.sentence(headRows + row, role ?? plainRole(snapshot, row, column), value, column, column + span.columns - 1);
      else {
        w.put(headRows + row, column, role ?? plainRole(snapshot, row, column), value, format);
        if (span) w.spans.push(down(span));
      }
    });
    w.lines(headRows + row, look.linesAt(row));
  });
  const said = saidFormulas(snapshot, recognised, headRows);
  const written = writeFormulas(w, snapshot, said, formulaColumn);
  const rows = headRows + Math.max(snapshot.rows, written);
  const overall = recognised && areaNow(recognised, { ...recognised.plan.summary.overall, rows: 1, columns: 1 });
  const titleRows: readonly [number, number] = look.titleRows
    ? [headRows + look.titleRows[0], headRows + look.titleRows[1]]
    : [0, 0];
  // Printed on every page, where no formula stands there.
  const heads = look.titleRows && Math.min(...said.keys()) > look.titleRows[1] ? titleRows[1] : 3;
  w.put(heads, formulaColumn, "heading", "formulas of the original, as text");
  const blocks = Array.from({ length: snapshot.rows }, (_, row) => row)
    .filter((row) => look.roleAt(row, 0) === "block")
    .map((row) => headRows + row);
  return w.plan(rows, {
    hashAt: { row: 2, column: formulaColumn },
    template: {
      id: "hand-out",
      version: recognised?.head.templateVersion ?? "–",
      title: `Hand-out copy of ${snapshot.sheet}`,
    },
    names: [],
    validations: [],
    highlights: look.highlights.map((h) => ({ ...h, row: h.row + headRows })),
    unlocked: [],
    freeze: { rows: look.freezeRows === 0 ? 1 : headRows + look.freezeRows, columns: 0 },
    print: {
      area: { row: 0, column: 0, rows, columns: formulaColumn + 1 },
      titleRows,
      orientation: "landscape",
      footer: "hand-out copy, values only · {hash} · page {page} of {pages}",
      addresses: true,
      breaks: breaksBefore(blocks, rows, sides.pagesWide === 1 ? w.widths : widths.slice(0, left), titleRows, (row) =>
        w.linesAt(row),
      ),
      ...(sides.pagesWide > 1 && { pagesWide: sides.pagesWide }),
    },
    charts: look.charts.map((chart) => movedChart(chart, recognised!.plan.columns, formulaColumn + 1)),
    meanings: [],
    summary: {
      overall: overall ? { row: overall.row + headRows, column: overall.column } : { row: 0, column: 0 },
      checks: [],
      warnings: { row: 0, column: 0, rows: 0, columns: 1 },
    },
  });
}

/** The copy of a sheet as it is now; throws where the sheet is empty. */
export async function readHandOut(
  host: Host,
  sheet: string,
  facts: HandOutFacts,
): Promise<{ readonly plan: Plan; readonly recognised: Recognised | undefined }> {
  const snapshot = await takeSnapshot(host, sheet);
  if (snapshot.rows === 0) throw new Error(`the sheet “${sheet}” is empty`);
  if (isCopy(snapshot))
    throw new Error(`“${sheet}” is a hand-out copy already; select a cell of the sheet it was made of`);
  const recognised = await recogniseSnapshot(snapshot);
  const looks = await host.looks(sheet, { row: 0, column: 0, rows: snapshot.rows, columns: snapshot.columns });
  const { logo, without } = await logoToTake(host, sheet);
  const plan = handOutPlan(snapshot, looks, recognised, { ...facts, without });
  return { plan: withLogo(plan, logo, headRows), recognised };
}
