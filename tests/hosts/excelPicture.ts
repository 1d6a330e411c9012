import { a1, type Area, areaA1 } from "../../src/cells/index.ts";
import { isDeepStrictEqual } from "node:util";
import type { CellContent } from "../../src/hosts/index.ts";
import { cellAt, type FakeCell, type FakeSheet } from "./excelFake/index.ts";
import type { Edge, FakeValidation, Line } from "./excelFake/state.ts";
import { cellsOf, placeOf } from "./excelFake/state.ts";
import {
  halfCharacters,
  neighbour,
  type Picture,
  type PicturedRule,
  type PicturedStyle,
  type PicturedValidation,
} from "./picture.ts";

const sides = { EdgeTop: "top", EdgeRight: "right", EdgeBottom: "bottom", EdgeLeft: "left" } as const;
const alignments: Readonly<Record<string, PicturedStyle["align"]>> = {
  General: null,
  Left: "left",
  Center: "center",
  Right: "right",
};
/** What a series is, by the line between its points and by its marks. */
function kindOf(look: Readonly<Record<string, unknown>>): string {
  const isMarked = look["markerStyle"] !== "None";
  if (look["line.lineStyle"] === "Dash") return "limit";
  if (look["line.lineStyle"] === "None") return isMarked ? "point" : "frame";
  return isMarked ? "value" : "outline";
}

function lineOf({ style, weight, color }: Line): string {
  return `${style === "Dot" ? "dotted" : weight.toLowerCase()} ${color.toLowerCase()}`;
}

function styleOf(cell: FakeCell): PicturedStyle {
  return {
    size: cell.size,
    bold: cell.bold,
    italic: cell.italic,
    color: cell.color.toLowerCase(),
    background: cell.fill?.toLowerCase() ?? null,
    border: Object.fromEntries(Object.entries(cell.borders).map(([edge, line]) => [sides[edge as Edge], lineOf(line)])),
    align: alignments[cell.horizontalAlignment] ?? null,
    wrap: cell.wrapText,
  };
}

/** The lines round joined cells are those of its outer cells. */
function lookOf(sheet: FakeSheet, row: number, column: number): PicturedStyle {
  const span = sheet.merged.find((one) => one.row === row && one.column === column);
  const own = styleOf(cellAt(sheet, row, column));
  if (!span) return own;
  const { right, bottom } = styleOf(cellAt(sheet, row + span.rows - 1, column + span.columns - 1)).border;
  const { top, left } = own.border;
  return {
    ...own,
    border: Object.fromEntries(Object.entries({ top, right, bottom, left }).filter(([, line]) => line !== undefined)),
  };
}

interface Basic {
  readonly formula1: number;
  readonly formula2?: number;
  readonly operator: string;
}

/** The least and the most that a comparison lets through. */
function bound(sign: string, value: number): Partial<{ least: number; most: number }> {
  switch (sign) {
    case ">=":
    case "GreaterThanOrEqualTo":
      return { least: value };
    case ">":
    case "GreaterThan":
      return { least: neighbour(value, true) };
    case "<=":
    case "LessThanOrEqualTo":
      return { most: value };
    case "<":
    case "LessThan":
      return { most: neighbour(value, false) };
    default:
      throw new Error(`a comparison ${sign} was not expected`);
  }
}

function ruleOf({ rule, area }: FakeValidation): PicturedRule {
  const [kind, one] = Object.entries(rule!)[0] as [string, Record<string, unknown>];
  if (kind === "list") return { kind: "list", values: String(one["source"]).split(",") };
  const whole = { least: -Number.MAX_VALUE, most: Number.MAX_VALUE };
  if (kind === "custom") {
    const conditions = /^=AND\((.*)\)$/.exec(String(one["formula"]))![1]!.split(",");
    const cell = a1(area);
    const rest = conditions.filter((text) => text !== `ISNUMBER(${cell})` && text !== `${cell}=INT(${cell})`);
    const bounds = rest.map((text) => {
      const m = new RegExp(`^${cell}(>=|<=|>|<)(.+)$`).exec(text);
      if (!m) throw new Error(`the condition ${text} was not expected`);
      return bound(m[1]!, Number(m[2]));
    });
    return {
      kind: "number",
      ...(Object.assign(whole, ...bounds) as typeof whole),
      whole: conditions.length > rest.length + 1,
    };
  }
  const { formula1, formula2, operator } = one as unknown as Basic;
  const limits = operator === "Between" ? { least: formula1, most: formula2! } : bound(operator, formula1);
  return { kind: "number", ...whole, ...limits, whole: kind === "wholeNumber" };
}

function validationOf(one: FakeValidation): PicturedValidation {
  const { title, message } = one.errorAlert as { title: string; message: string };
  const prompt = one.prompt as { showPrompt: boolean; title: string; message: string };
  if (!prompt.showPrompt || one.errorAlert!["style"] !== "Stop" || one.errorAlert!["showAlert"] !== true)
    throw new Error("the messages of a validation are not shown");
  return {
    rule: ruleOf(one),
    allowBlank: one.ignoreBlanks,
    title,
    message,
    prompt: { title: prompt.title, message: prompt.message },
  };
}

const beginsWith = ({ operator, text }: NonNullable<FakeSheet["highlights"][number]["textRule"]>): string =>
  `${operator === "BeginsWith" ? "begins " : "other "}${text}`;

/** The text of `="text"`. */
const equalTo = (formula: string): string => /^="(.*)"$/.exec(formula)![1]!.replaceAll('""', '"');

/** The sheet as the strict fake keeps it; `contents` as the host reads it, from the upper left cell. */
export function excelPicture(
  sheet: FakeSheet,
  contents: readonly (readonly CellContent[])[],
  columns: number,
): Picture {
  const area = (one: Area): string => areaA1(one, false);
  const within = new Set(
    sheet.merged.flatMap((span) => [...cellsOf(span)].slice(1).map(([row, column]) => a1({ row, column }))),
  );
  const { areas, titleRows, orientation, centerFooter } = sheet.page as {
    areas: Area[];
    titleRows: [number, number];
    orientation: string;
    centerFooter: string;
  };
  return {
    cells: Object.fromEntries(
      [...sheet.cells.keys()]
        .map(placeOf)
        .filter(([row, column]) => !within.has(a1({ row, column })))
        .map(([row, column]) => {
          const cell = cellAt(sheet, row, column);
          const { value, formula, error } = contents[row]![column]!;
          return [
            a1({ row, column }),
            {
              value,
              ...(error && { error: error.code }),
              ...(formula !== undefined && { formula }),
              format: cell.numberFormat,
              style: lookOf(sheet, row, column),
              unlocked: !cell.locked,
            },
          ];
        }),
    ),
    names: Object.fromEntries([...sheet.names.values()].map((one) => [one.name, area(one.area)])),
    validations: Object.fromEntries(sheet.validations.map((one) => [area(one.area), validationOf(one)])),
    highlights: Object.fromEntries(
      sheet.highlights.map(({ area: at, rule, textRule, color, fill }) => [
        `${area(at)} ${textRule ? beginsWith(textRule) : equalTo(rule!.formula1)}`,
        { color: color!, background: fill! },
      ]),
    ),
    protected: sheet.protection !== undefined,
    spans: sheet.merged.map(area),
    freeze: sheet.freeze,
    widths: Array.from({ length: columns }, (_, column) => halfCharacters((sheet.widths.get(column)! / 0.75 - 5) / 7)),
    print: {
      area: area(areas[0]!),
      titleRows,
      orientation: orientation.toLowerCase(),
      footer: centerFooter
        .replace(/^&9 /, "")
        .replaceAll("&P", "{page}")
        .replaceAll("&N", "{pages}")
        .replaceAll("&A", "{sheet}")
        .replaceAll("&&", "&"),
    },
    charts: sheet.charts.map(({ title, scale, reversed, series }) => ({
      title,
      down: reversed,
      log: isDeepStrictEqual(scale, { scaleType: "Logarithmic", logBase: 10, position: "Minimum" }),
      series: series.map(({ name, x, y, look }) => ({ name, kind: kindOf(look), x, y })),
    })),
  };
}
