import type { Address } from "../cells/index.ts";
import { fnv1a64 } from "../core/index.ts";
import { fillAbout } from "./aboutCells.ts";
import { fillAcross } from "./acrossCells.ts";
import { bandRow, columnCount, columns, titleRow, widths } from "./columns.ts";
import { plannedCharts } from "./charts.ts";
import { fillBand, fillFront, fillRegister, fillTitle, fillWarningCounts } from "./frontCells.ts";
import { highlightsOf } from "./highlights.ts";
import { inputValues, nested, shapeValues, type Inputs } from "./inputs.ts";
import { Links, plannedSource, type SourceSheet } from "./links.ts";
import { layOut, type BlockRows } from "./layout.ts";
import { linesOfLowUnderRule } from "./textWidth.ts";
import { heightOfLines, pageBreaks, printScale, type Pages } from "./pageBreaks.ts";
import { inputRoles, type Plan, type PlannedCell, type Role } from "./plan.ts";
import { PlanCells, type Dependency, type Filling } from "./planCells.ts";
import { Problems } from "./problems.ts";
import { fillRow } from "./rowCells.ts";
import { isRecordBlock, shapeSheet, type ShapedBlock, type ShapedSheet } from "./shape.ts";
import { fillTable, markedTitle } from "./tableCells.ts";
import type { InputValue, Template } from "./template.ts";
import { fillWarnings } from "./warningCells.ts";
import { fillHeadings, fillWorkings } from "./workingCells.ts";
import { warningAreas } from "./write.ts";

export type { Dependency } from "./planCells.ts";

export interface Expansion {
  readonly sheet: ShapedSheet;
  /** Made anew each time it is asked for: who only checks a template needs none. */
  readonly plan: () => Plan;
  readonly dependencies: readonly Dependency[];
  readonly problems: readonly string[];
}

function fillBlock(filling: Filling, block: ShapedBlock): void {
  const { cells, layout } = filling;
  const rows = layout.blockRows.get(block);
  if (rows) fillBlockTitle(filling, block, rows);
  for (const item of block.items) {
    if (item.kind === "row") fillRow(filling, item);
    else if (item.kind === "table") fillTable(filling, layout.tables.get(item)!);
    else if (item.kind === "across") fillAcross(filling, layout.across.get(item)!);
    else if (item.kind === "note") {
      const role = item.note.caution ? "caution" : "note";
      cells.sentence(layout.itemRows.get(item)!, role, item.note.note, columns.description, columns.mark);
    } else if (item.kind === "warnings") {
      fillRegister(filling);
      fillWarnings(filling, layout.itemRows.get(item)!);
      fillWarningCounts(filling);
    }
  }
}

function fillBlockTitle(filling: Filling, block: ShapedBlock, { title, headings: heads, note }: BlockRows): void {
  const { cells } = filling;
  cells.put(title, columns.item, "block", String(block.number));
  const recordOnly = isRecordBlock(block.block);
  markedTitle(filling, title, "block", block.block.title, recordOnly ? columns.mark : undefined);
  if (heads !== undefined) fillHeadings(filling, heads);
  if (note !== undefined) cells.sentence(note, "note", block.block.note!, columns.description, columns.mark);
}

function inputsAsBuilt({ sheet, values }: Filling): Plan["inputs"] {
  const out: Record<string, InputValue> = { ...sheet.values };
  for (const [id, given] of values) {
    const subject = sheet.subjects.get(id)!;
    const sizes = subject.kind === "column" ? subject.table.groups[0]!.over.map(({ members }) => members.length) : [];
    out[id] = nested(given, sizes);
  }
  return out;
}

const textRoles: ReadonlySet<Role> = new Set(["description", "wordIn", "equation", "source", "warning", "linkedText"]);

/** Texts run on over the empty cells beside them; only where cells are joined for them do they wrap. */
function running({ all, spans }: PlanCells): PlannedCell[] {
  const joined = new Set(spans.map(({ row, column }) => row * columnCount + column));
  const filled = new Set(all.map(({ row, column }) => row * columnCount + column));
  return all.map((cell) => {
    const at = cell.row * columnCount + cell.column;
    // A word in place of a symbol has no words beside it.
    const free = cell.role === "listed" && !filled.has(at + 1);
    return (textRoles.has(cell.role) && !joined.has(at)) || free ? { ...cell, runsOn: true as const } : cell;
  });
}

/** Where warnings are answered, on sheets that ask for it. */
function answerOf({ sheet, layout }: Filling): Pick<Plan["summary"], "answer"> {
  const at = (id: string): Address | undefined => {
    const subject = sheet.subjects.get(id);
    return subject?.kind === "row" ? layout.values.get(subject.row) : undefined;
  };
  const [code, typed] = [at("answerCode"), at("warningsAnswered")];
  return code && typed ? { answer: { code, typed } } : {};
}

/** Puts everything a shaped sheet holds into cells. */
function build(filling: Filling): Expansion {
  const { sheet, layout, cells, problems } = filling;
  fillTitle(filling);
  for (const row of layout.gaps) cells.lower(row);
  for (const block of sheet.blocks) if (block.block.front) fillFront(filling, block);
  for (const [caution, row] of layout.cautions) cells.sentence(row, "caution", caution, 0, columns.mark);
  for (const block of sheet.blocks) if (!block.block.front) fillBlock(filling, block);
  fillAbout(filling);
  fillWorkings(filling);
  fillBand(filling);
  const charts = plannedCharts(layout, problems);
  return { sheet, plan: () => planOf(filling, charts), dependencies: cells.dependencies, problems: problems.list };
}

/** What must not change without the hash: a cell without what is typed into inputs later. */
function hashedCell(cell: PlannedCell): Partial<PlannedCell> {
  const { value, formula } = cell;
  const out: Record<string, unknown> = {};
  for (const key in cell) if (key !== "value" && key !== "formula") out[key] = cell[key as keyof PlannedCell];
  if (value !== undefined && !inputRoles.has(cell.role)) out.value = value;
  // Where the source's cells stand, and what that sheet is called, is no matter of the template's.
  if (formula !== undefined && !cell.link) out.formula = formula;
  return out;
}

/** Cells to type in, but for inputs that the template locks. */
function withoutLocked({ names, unlocked }: PlanCells, { locked = [] }: Template): Plan["unlocked"] {
  const areas = names.filter(({ name }) => locked.includes(name.replace(/^kb_/, "")));
  return areas.length === 0
    ? unlocked
    : unlocked.filter((area) => !areas.some(({ row, column }) => row === area.row && column === area.column));
}

/** A formula with subscripts just below the rule of the headings gets a little more room. */
function clearOfRules(cells: PlanCells): void {
  const ruled = new Set(cells.all.filter(({ role }) => role === "heading").map(({ row }) => row));
  for (const { row, role, lowered } of cells.all)
    if (role === "equation" && lowered && ruled.has(row - 1)) cells.raise(row, linesOfLowUnderRule);
}

/** The filled cells as a plan. */
function planOf(filling: Filling, charts: Plan["charts"]): Plan {
  const { sheet, layout, cells } = filling;
  const { template } = sheet;
  const { rows, together, body, printed } = layout;
  const pages: Pages = { together, body, printed };
  clearOfRules(cells);
  const planned = running(cells);
  const said = {
    template: { id: template.id, version: template.version, title: template.title },
    cells: planned,
    names: cells.names,
    validations: cells.validations,
    unlocked: withoutLocked(cells, template),
    ...(layout.workings && { groups: [{ row: layout.workings.first + 1, rows: rows - layout.workings.first - 1 }] }),
    spans: cells.spans,
    charts,
  };
  const hash = fnv1a64(JSON.stringify({ ...said, shape: sheet.values, cells: planned.map(hashedCell) }));
  planned.push({ ...cells.hashAt, role: "label", value: hash });
  return {
    ...said,
    inputs: inputsAsBuilt(filling),
    hash,
    ...(filling.links && { source: filling.links.planned(template.source!.template.id) }),
    rows,
    columns: columnCount,
    widths,
    lines: Object.fromEntries(cells.lines),
    highlights: highlightsOf(layout, cells),
    freeze: { rows: bandRow + 1, columns: 0 },
    print: {
      area: { row: 0, column: 0, rows: layout.printed, columns: columnCount },
      titleRows: [titleRow, bandRow],
      orientation: "portrait",
      scale: printScale,
      footer: `${template.id} ${template.version} · ${hash} · {sheet} · page {page} of {pages}`,
      breaks: pageBreaks(pages, (row) => heightOfLines(cells.lines.get(row) ?? 1)),
      pages,
    },
    meanings: cells.meanings,
    judged: cells.judged,
    conflicts: cells.conflicts,
    summary: {
      overall: cells.overall ?? { row: 0, column: 0 },
      checks: cells.checks,
      warnings: warningAreas(layout)[0] ?? { row: 0, column: columns.value, rows: 0, columns: 1 },
      ...answerOf(filling),
    },
  };
}

/** Template and inputs as cells, with all that is wrong with either; for lint and `expand`. */
export function expandLoosely(template: Template, inputs: Inputs, source?: SourceSheet): Expansion {
  const problems = new Problems();
  const shaped = shapeSheet(template, shapeValues(template, inputs, problems));
  for (const problem of shaped.problems) problems.add("", problem);
  const { sheet } = shaped;
  const values = inputValues(sheet, inputs, problems);
  const of = sheet.source && new Links(source ?? plannedSource(sheet.source));
  const filling: Filling = {
    sheet,
    layout: layOut(sheet),
    values,
    problems,
    cells: new PlanCells(problems),
    ...(of && { links: of }),
  };
  return build(filling);
}
