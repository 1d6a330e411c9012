import type { Area } from "../../cells/index.ts";
import type { Plan } from "../../sheet/index.ts";
import { defaultStyle, lookKey, styleOf, type CellStyle } from "../look/styles.ts";
import { blocks, rowRuns } from "../host/blocks.ts";
import { addressLists } from "./areas.ts";

const edges = {
  all: ["EdgeTop", "EdgeRight", "EdgeBottom", "EdgeLeft"],
  below: ["EdgeBottom"],
  above: ["EdgeTop"],
} as const;
const strokes = { dotted: ["Dot", "Thin"], thin: ["Continuous", "Thin"], medium: ["Continuous", "Medium"] } as const;
const alignments = { left: "Left", center: "Center", right: "Right" } as const;
/** Neighbours share a line: the stronger one is drawn last and stays. */
const strength = { none: 0, dotted: 1, thin: 2, medium: 3 } as const;

/** Gives cells a look. Each area is one cell where the look has lines on all sides, one row where it has a line below or above. */
export function drawLook(format: Excel.RangeFormat, style: CellStyle): void {
  const { font } = format;
  font.size = style.size ?? defaultStyle.size!;
  font.color = style.color ?? defaultStyle.color!;
  if (style.bold) font.bold = true;
  if (style.italic) font.italic = true;
  if (style.background !== undefined) format.fill.color = style.background;
  if (style.align) format.horizontalAlignment = alignments[style.align];
  if (style.indent !== undefined) format.indentLevel = style.indent;
  if (style.wrap) format.wrapText = true;
  if (style.shrink) format.shrinkToFit = true;
  format.verticalAlignment = "Center";
  if (!style.border) return;
  const [line, weight] = strokes[style.border.line];
  for (const side of edges[style.border.sides]) {
    const edge = format.borders.getItem(side);
    // The weight sets a line of its own kind in some versions, so the kind comes after it.
    edge.weight = weight;
    edge.style = line;
    edge.color = style.border.color;
  }
}

function groupedAs(style: CellStyle): (cells: readonly Area[]) => readonly Area[] {
  if (!style.border) return blocks;
  return style.border.sides === "all" ? (cells) => cells : rowRuns;
}

/** One step of drawing: some areas of one role. */
export interface LookStep {
  readonly address: string;
  readonly style: CellStyle;
  readonly cells: number;
}

/**
 * The looks of all the plan's cells, role by role, in the order in which they are to be drawn. Joined cells all get the
 * look of the first.
 */
export function lookSteps(plan: Plan): readonly LookStep[] {
  const spans = new Map(plan.spans.map((span) => [`${span.row} ${span.column}`, span]));
  const byLook = new Map<string, { readonly style: CellStyle; readonly areas: Area[] }>();
  for (const cell of plan.cells) {
    const { row, column } = cell;
    const key = lookKey(cell);
    const of = byLook.get(key) ?? { style: styleOf(cell), areas: [] };
    of.areas.push(spans.get(`${row} ${column}`) ?? { row, column, rows: 1, columns: 1 });
    byLook.set(key, of);
  }
  const strengthOf = ({ border }: CellStyle): number => strength[border?.line ?? "none"];
  return [...byLook.values()]
    .sort((a, b) => strengthOf(a.style) - strengthOf(b.style))
    .flatMap(({ style, areas }) => {
      return addressLists(groupedAs(style)(areas)).map((address) => ({
        address,
        style,
        cells: address.split(",").length,
      }));
    });
}
