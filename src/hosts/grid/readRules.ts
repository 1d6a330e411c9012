import { type Address, type Area, holds } from "../../cells/index.ts";
import type { ICellData, IRange } from "@univerjs/core";
import type { Validation } from "../../sheet/index.ts";
import type { ColourRule, EntryRule, SheetRules } from "../host/host.ts";
import { choicesOf } from "./choicesOf.ts";
import { lockedCells } from "./lockedCells.ts";
import { neighbour } from "./rules.ts";
import type { GridRuntime, GridSheet } from "./runtime.ts";
import { areaOf } from "./sheetData.ts";

export type GridEntryRule = ReturnType<GridSheet["getDataValidations"]>[number]["rule"];
export type GridColourRule = ReturnType<GridSheet["getConditionalFormattingRules"]>[number];

/** A bound as a plan has it. One that is the next number to a shorter one stands for “above” or “below” that. */
function bound(written: string | undefined, up: boolean): { readonly at?: number; readonly open: boolean } {
  const value = Number(written);
  if (Math.abs(value) === Number.MAX_VALUE) return { open: true };
  const beside = neighbour(value, !up);
  return String(beside).length < String(value).length ? { at: beside, open: true } : { at: value, open: false };
}

/** A rule of the grid in a plan's words. */
export function entryRule(
  { core }: GridRuntime,
  { operator, formula1, formula2, ...rule }: GridEntryRule,
): Validation["rule"] | "other" {
  const { DataValidationOperator, DataValidationType } = core;
  // The grid's parts each bring a type of their own for the same words.
  const type = String(rule.type);
  if (type === String(DataValidationType.LIST)) return { kind: "list", values: choicesOf(formula1 ?? "") };
  const whole = type === String(DataValidationType.WHOLE);
  if (
    (!whole && type !== String(DataValidationType.DECIMAL)) ||
    String(operator) !== String(DataValidationOperator.BETWEEN) ||
    [formula1, formula2].some((text) => !Number.isFinite(Number(text ?? "?")))
  )
    return "other";
  const [low, high] = [bound(formula1, true), bound(formula2, false)];
  return {
    kind: "number",
    ...(low.at !== undefined && (low.open ? { above: low.at } : { min: low.at })),
    ...(high.at !== undefined && (high.open ? { below: high.at } : { max: high.at })),
    ...(whole && { whole: true }),
  };
}

interface TextRule {
  readonly type: string;
  readonly subType?: string;
  readonly operator?: string;
  readonly value?: unknown;
  readonly style?: ICellData["s"];
}

function colourRule({ ranges, rule }: GridColourRule): ColourRule {
  const { type, subType, operator, value, style } = rule as TextRule;
  const begins = operator === "beginsWith";
  const known =
    type === "highlightCell" && subType === "text" && typeof value === "string" && (begins || operator === "equal");
  const { cl, bg, n } = typeof style === "object" && style ? style : {};
  return {
    areas: ranges.map(areaOf),
    ...(known && { text: value, ...(begins && { begins }) }),
    ...(cl?.rgb && { color: cl.rgb.toUpperCase() }),
    ...(bg?.rgb && { background: bg.rgb.toUpperCase() }),
    ...(n?.pattern && { format: n.pattern }),
  };
}

/** What the sheet's cells refuse, and how they colour what they hold. */
export async function rulesOf(
  grid: GridRuntime,
  sheet: GridSheet,
  area: Area,
  places: readonly Address[],
): Promise<SheetRules> {
  const rules = sheet
    .getDataValidations()
    .map(({ rule }) => ({ areas: (rule.ranges as readonly IRange[]).map(areaOf), rule }));
  return {
    locked: await lockedCells(sheet, area),
    entries: places.map((place): EntryRule | undefined => {
      const found = rules.find(({ areas }) => areas.some((one) => holds(one, place)));
      return (
        found && {
          rule: entryRule(grid, found.rule),
          refuses:
            found.rule.errorStyle === grid.core.DataValidationErrorStyle.STOP && found.rule.showErrorMessage !== false,
        }
      );
    }),
    colours: sheet.getConditionalFormattingRules().map(colourRule),
  };
}
