import type { Area } from "../../cells/index.ts";
import { textWidth, type PlannedChart } from "../../sheet/index.ts";
import type { BookSheet } from "../workbook/workbook.ts";
import { isToScale, namedSeries } from "./chartLook.ts";
import { columnMargin, defaultColumnWidth, defaultRowHeight } from "./measures.ts";

/** In points. */
export interface Size {
  readonly width: number;
  readonly height: number;
}
/** Parts of a chart's width and height. */
export interface Part {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** A digit of the file's column widths. */
const digit = 5.25;

/** How large cells are together. */
export function sizeOf({ row, column, rows, columns }: Area, { widths, heights }: BookSheet): Size {
  let [width, height] = [0, 0];
  for (let c = column; c < column + columns; c++)
    width += ((widths.get(c)?.width ?? defaultColumnWidth) + columnMargin) * digit;
  for (let r = row; r < row + rows; r++) height += heights.get(r) ?? defaultRowHeight;
  return { width, height };
}

/** All in points of print, for a title of 11 points and words of 9. */
const line = { title: 17, word: 13 } as const;
const character = { title: 6.2, word: 4.8 } as const;
const around = { top: 10, bottom: 13, left: 50, right: 14 } as const;
/** The sample of a line beside its name, and the room between two. */
const sample = 46;
const least = 36;

/**
 * Where the lines are drawn, within their axes. Programs left to themselves give words most of a small chart.
 */
export function plotArea(chart: PlannedChart, { width, height }: Size): Part {
  const { title } = chart;
  const series = [...namedSeries(chart)];
  const titleLines = Math.ceil((textWidth(title) * character.title) / (width - 10));
  const entry = Math.max(1, ...series.map(({ name }) => textWidth(name))) * character.word + sample;
  const besides = Math.max(1, Math.floor((width - 10) / entry));
  const legend = isToScale(chart) ? 0 : Math.ceil(series.length / besides) * line.word;
  const top = around.top + titleLines * line.title;
  // Below the axis its numbers and its title, then the legend.
  const bottom = 2 * line.word + legend + around.bottom;
  const h = Math.max(height - top - bottom, least);
  if (isToScale(chart)) {
    const side = Math.min(h, width - around.left - around.right);
    return {
      x: (width - side + around.left - around.right) / (width + width),
      y: top / height,
      w: side / width,
      h: side / height,
    };
  }
  return { x: around.left / width, y: top / height, w: (width - around.left - around.right) / width, h: h / height };
}
