import { a1, areaA1, quotedSheet, type Area } from "../../cells/index.ts";
import { faultOfSheetName, type Highlight, type Plan, type PlannedCell, type Validation } from "../../sheet/index.ts";
import { breaksOf, chartArea, isLowRow, margins, rowHeights, type Heights } from "../look/measures.ts";
import { printAreas } from "../look/printAreas.ts";
import { defaultStyle, styleInRow, tones, type CellStyle } from "../look/styles.ts";
import type { Values } from "../look/values.ts";
import {
  sides,
  type BookCell,
  type BookColourRule,
  type BookEntryRule,
  type BookLook,
  type BookPrint,
  type BookSheet,
  type Side,
  type Workbook,
} from "./workbook.ts";

const font = "Arial";
const sidesOf: Readonly<Record<NonNullable<CellStyle["border"]>["sides"], readonly Side[]>> = {
  all: sides,
  below: ["bottom"],
  above: ["top"],
};

/** A look of the hosts' own table with everything said. */
export function lookOf(
  { size, bold, italic, color, background, border, align, indent, wrap, vertical, shrink }: CellStyle,
  format?: string,
): BookLook {
  return {
    font,
    size: size ?? defaultStyle.size!,
    color: color ?? defaultStyle.color!,
    vertical: vertical ?? "center",
    ...(bold && { bold }),
    ...(italic && { italic }),
    ...(background && { background }),
    ...(border && {
      edges: Object.fromEntries(
        sidesOf[border.sides].map((side) => [side, { line: border.line, color: border.color }]),
      ),
    }),
    ...(align && { align }),
    ...(indent !== undefined && { indent }),
    ...(wrap && { wrap }),
    ...(shrink && { shrink }),
    ...(format !== undefined && { format }),
  };
}

/** `row column` of every cell of some areas. */
function keysOf(areas: readonly Area[]): ReadonlySet<string> {
  return new Set(
    areas.flatMap(({ row, column, rows, columns }) =>
      Array.from({ length: rows * columns }, (_, i) => `${row + Math.floor(i / columns)} ${column + (i % columns)}`),
    ),
  );
}

/** All cells of a plan with what they show. Joined cells all carry the look of the first, since each draws its own lines. */
function cellsOf(plan: Plan, values: Values, heights: Heights): readonly BookCell[] {
  const unlocked = keysOf(plan.unlocked);
  const looks = new Map<string, BookLook>();
  const isLow = isLowRow(heights);
  const lookFor = (cell: PlannedCell): BookLook => {
    const { key: ofRole, style } = styleInRow(cell, isLow);
    const key = `${ofRole} ${cell.format ?? ""}`;
    const look = looks.get(key) ?? lookOf(style, cell.format);
    looks.set(key, look);
    return look;
  };
  const joined = new Map(plan.spans.map((span) => [`${span.row} ${span.column}`, span]));
  return plan.cells.flatMap((cell) => {
    const { row, column, value, formula, lowered } = cell;
    const key = `${row} ${column}`;
    const content = values[row]?.[column];
    // What was computed says its formula: an empty cell that says none stood there before the formula did.
    const isResult = content && (content.formula !== undefined || content.value !== null || content.error);
    if (formula !== undefined && !isResult) throw new Error(`the cell ${a1(cell)} has no computed value`);
    const common = { look: lookFor(cell), ...(unlocked.has(key) && { unlocked: true as const }) };
    const own: BookCell =
      formula === undefined
        ? { row, column, value: value ?? null, ...common, ...(lowered && { lowered }) }
        : {
            row,
            column,
            formula,
            value: content!.value,
            ...(content!.error && { error: content!.error.code }),
            ...common,
          };
    const span = joined.get(key);
    return [
      own,
      ...Array.from({ length: span ? span.rows * span.columns - 1 : 0 }, (_, i) => ({
        row: row + Math.floor((i + 1) / span!.columns),
        column: column + ((i + 1) % span!.columns),
        value: null,
        ...common,
      })),
    ];
  });
}

const entryOf = ({ rule, title, message, allowBlank, ...area }: Validation): BookEntryRule => ({
  areas: [{ row: area.row, column: area.column, rows: area.rows, columns: area.columns }],
  rule,
  allowBlank: allowBlank === true,
  otherwise: "refused",
  title,
  message,
  prompt: { title, message },
});

const colourOf = ({ row, column, rows, columns, text, begins, tone }: Highlight): BookColourRule => ({
  areas: [{ row, column, rows, columns }],
  when: { kind: "text", operator: begins ? "beginsWith" : "equal", text },
  look: tones[tone],
});

/** The footer in the file's own codes: centred, small (the space parts the size from a number that follows), `&` doubled. */
function footerCode(footer: string): string {
  return `&C&9 ${footer.replaceAll("&", "&&").replaceAll("{page}", "&P").replaceAll("{pages}", "&N").replaceAll("{sheet}", "&A")}`;
}

/** The print set-up of a planned sheet. */
export function printOf(plan: Plan, heights: Heights): BookPrint {
  const { titleRows, orientation, footer, pagesWide, addresses, scale } = plan.print;
  const breaks = breaksOf(plan, heights);
  return {
    areas: printAreas(plan, heights),
    titleRows,
    orientation,
    paper: 9,
    ...(scale === undefined ? { fit: { wide: pagesWide ?? 1, high: 0 } } : { scale }),
    ...(pagesWide && { overThenDown: true as const }),
    ...(addresses && { addresses }),
    centred: true,
    margins,
    footer: footerCode(footer),
    ...(breaks && { breaks }),
  };
}

/** A planned sheet's charts, each over no more cells than it takes. */
export function chartsOf(plan: Plan, heights: Heights): BookSheet["charts"] {
  return plan.charts.map((chart) => ({ ...chart, at: chartArea(chart.at, heights) }));
}

/** A planned sheet with what its cells show. */
export function sheetOfPlan(plan: Plan, values: Values, name: string): BookSheet {
  const fault = faultOfSheetName(name);
  if (fault !== undefined) throw new Error(fault);
  const heights = rowHeights(plan, values);
  return {
    name,
    rows: plan.rows,
    columns: plan.columns,
    cells: cellsOf(plan, values, heights),
    spans: plan.spans,
    widths: new Map(plan.widths.map((width, column) => [column, { width }])),
    heights,
    hiddenRows: [],
    groups: plan.groups ?? [],
    freeze: plan.freeze,
    gridlines: false,
    names: plan.names.map((one) => ({ name: one.name, reference: `${quotedSheet(name)}!${areaA1(one)}` })),
    entries: plan.validations.map(entryOf),
    colours: plan.highlights.map(colourOf),
    protected: true,
    print: printOf(plan, heights),
    charts: chartsOf(plan, heights),
    ...(plan.logo && { logo: plan.logo }),
  };
}

/** The names of the functions that plans bring along, each once. */
export function functionNames(plans: readonly Plan[]): Workbook["names"] {
  const all = new Map(plans.flatMap(({ functions = [] }) => functions.map(({ name, formula }) => [name, formula])));
  return [...all].map(([name, reference]) => ({ name, reference }));
}

/** A workbook of one planned sheet. */
export function workbookOfPlan(plan: Plan, values: Values, name: string): Workbook {
  const { template, hash } = plan;
  return {
    sheets: [sheetOfPlan(plan, values, name)],
    names: functionNames([plan]),
    properties: { title: template.title, subject: `${template.id} ${template.version}, ${hash}`, creator: "Kernbook" },
  };
}
