import type { Address, Area } from "../../cells/index.ts";
import type { Validation } from "../../sheet/index.ts";
import type { ColourRule, EntryRule, SheetRules } from "../host/host.ts";
import { rangeOf } from "./areas.ts";
import { mostCellObjects, rowSteps } from "./read.ts";

/** So many of the program's objects a request. */
const mostObjects = 150;

async function lockedCells(sheet: Excel.Worksheet, area: Area): Promise<readonly (readonly boolean[])[]> {
  const { protection } = sheet;
  protection.load("protected");
  await sheet.context.sync();
  if (!protection.protected)
    return Array.from({ length: area.rows }, () => Array.from({ length: area.columns }, () => false));
  const out: (readonly boolean[])[] = [];
  for (const part of rowSteps(area, mostCellObjects)) {
    const cells = rangeOf(sheet, part).getCellProperties({ format: { protection: true } });
    await sheet.context.sync();
    out.push(...cells.value.map((line) => line.map(({ format }) => format?.protection?.locked !== false)));
  }
  return out;
}

/** The program gives a number of a rule as a formula, such as `=10`. */
function numberOf(written: unknown): number {
  return typeof written === "number"
    ? written
    : typeof written === "string" && written.replace(/^=/, "").trim() !== ""
      ? Number(written.replace(/^=/, ""))
      : NaN;
}

const boundOf = {
  GreaterThanOrEqualTo: "min",
  GreaterThan: "above",
  LessThanOrEqualTo: "max",
  LessThan: "below",
  ">=": "min",
  ">": "above",
  "<=": "max",
  "<": "below",
} as const;

/** A comparison of the program's own, or the condition on the cell itself that a plan's rule becomes where the program has none. */
function ruleOf({ list, decimal, wholeNumber, custom }: Excel.DataValidationRule): Validation["rule"] | "other" {
  if (list)
    return typeof list.source === "string" && !list.source.startsWith("=")
      ? { kind: "list", values: list.source.split(",").map((value) => value.trim()) }
      : "other";
  const basic = decimal ?? wholeNumber;
  if (basic) {
    const whole = wholeNumber ? ({ whole: true } as const) : {};
    const [first, second] = [numberOf(basic.formula1), numberOf(basic.formula2)];
    if (basic.operator === "Between")
      return Number.isNaN(first + second) ? "other" : { kind: "number", min: first, max: second, ...whole };
    const bound = boundOf[basic.operator as keyof typeof boundOf] as (typeof boundOf)[keyof typeof boundOf] | undefined;
    return bound === undefined || Number.isNaN(first) ? "other" : { kind: "number", [bound]: first, ...whole };
  }
  const conditions = /^=AND\(ISNUMBER\((\$?[A-Z]+\$?\d+)\),(.*)\)$/i.exec(custom?.formula ?? "");
  if (!conditions) return "other";
  const [, cell, rest] = conditions as unknown as readonly [string, string, string];
  const rule: Record<string, number | true> = {};
  for (const condition of rest.split(",")) {
    if (condition === `${cell}=INT(${cell})`) {
      rule["whole"] = true;
      continue;
    }
    const compared = condition.startsWith(cell) ? /^(>=|<=|>|<)([-+.\dE]+)$/i.exec(condition.slice(cell.length)) : null;
    if (!compared) return "other";
    rule[boundOf[compared[1] as keyof typeof boundOf]] = Number(compared[2]);
  }
  return { kind: "number", ...rule };
}

async function entriesOf(
  sheet: Excel.Worksheet,
  places: readonly Address[],
): Promise<readonly (EntryRule | undefined)[]> {
  const out: (EntryRule | undefined)[] = [];
  for (let i = 0; i < places.length; i += mostObjects) {
    const some = places
      .slice(i, i + mostObjects)
      .map((place) => rangeOf(sheet, { ...place, rows: 1, columns: 1 }).dataValidation);
    for (const one of some) one.load("type,rule,errorAlert");
    await sheet.context.sync();
    for (const { type, rule, errorAlert } of some)
      out.push(
        type === "None"
          ? undefined
          : { rule: ruleOf(rule), refuses: errorAlert.showAlert && errorAlert.style === "Stop" },
      );
  }
  return out;
}

/** The text of a condition such as `="FAIL"`; undefined where it compares with something else. */
function textOf(formula: unknown): string | undefined {
  const text = /^=?"((?:[^"]|"")*)"$/.exec(String(formula))?.[1];
  return text?.replaceAll('""', '"');
}

/** What a conditional format of each type the program has says besides its condition; of the others only that they are there. */
function partOf(
  one: Excel.ConditionalFormat,
):
  | { readonly format: Excel.ConditionalRangeFormat; readonly condition?: () => Pick<ColourRule, "text" | "begins"> }
  | undefined {
  switch (one.type) {
    case "CellValue": {
      const { cellValue } = one;
      cellValue.load("rule");
      return {
        format: cellValue.format,
        condition: () => {
          const text = cellValue.rule.operator === "EqualTo" ? textOf(cellValue.rule.formula1) : undefined;
          return text === undefined ? {} : { text };
        },
      };
    }
    case "ContainsText": {
      const { textComparison } = one;
      textComparison.load("rule");
      return {
        format: textComparison.format,
        condition: () =>
          textComparison.rule.operator === "BeginsWith" ? { text: textComparison.rule.text, begins: true } : {},
      };
    }
    case "Custom":
      return { format: one.custom.format };
    case "PresetCriteria":
      return { format: one.preset.format };
    case "TopBottom":
      return { format: one.topBottom.format };
    default:
      return undefined;
  }
}

async function coloursOf(sheet: Excel.Worksheet, area: Area): Promise<readonly ColourRule[]> {
  const { conditionalFormats } = rangeOf(sheet, area);
  conditionalFormats.load("items/type");
  await sheet.context.sync();
  const out: ColourRule[] = [];
  for (let i = 0; i < conditionalFormats.items.length; i += mostObjects) {
    const some = conditionalFormats.items.slice(i, i + mostObjects).map((one) => {
      const { areas } = one.getRanges();
      areas.load("items/rowIndex,items/columnIndex,items/rowCount,items/columnCount");
      const part = partOf(one);
      if (part) {
        part.format.load("numberFormat");
        part.format.font.load("color");
        part.format.fill.load("color");
      }
      return { areas, part };
    });
    await sheet.context.sync();
    for (const { areas, part } of some) {
      const format = part?.format;
      const written: unknown = format?.numberFormat;
      out.push({
        areas: areas.items.map(({ rowIndex, columnIndex, rowCount, columnCount }) => ({
          row: rowIndex,
          column: columnIndex,
          rows: rowCount,
          columns: columnCount,
        })),
        ...part?.condition?.(),
        ...(format?.font.color && { color: format.font.color.toUpperCase() }),
        ...(format?.fill.color && { background: format.fill.color.toUpperCase() }),
        ...(typeof written === "string" && written !== "" && { format: written }),
      });
    }
  }
  return out;
}

/** What the sheet's cells refuse, and how they colour what they hold. */
export async function rulesOf(sheet: Excel.Worksheet, area: Area, places: readonly Address[]): Promise<SheetRules> {
  if (area.rows === 0 || area.columns === 0) return { locked: [], entries: places.map(() => undefined), colours: [] };
  return {
    locked: await lockedCells(sheet, area),
    entries: await entriesOf(sheet, places),
    colours: await coloursOf(sheet, area),
  };
}
