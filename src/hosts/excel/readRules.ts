import { piecesOf, unquotedText, withoutPrefix, type Address, type Area } from "../../cells/index.ts";
import type { ColourRule, EntryRule, SheetRules } from "../host/host.ts";
import { rangeOf } from "./areas.ts";
import { ruleOf } from "./entryRule.ts";
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
  const [piece, ...more] = piecesOf(withoutPrefix(String(formula)));
  return piece?.kind === "text" && more.length === 0 ? unquotedText(piece.text) : undefined;
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
