import type { ISheetDataValidationRule } from "@univerjs/core";
import { a1, withoutPrefix } from "../../cells/index.ts";
import type { BookColourRule, BookEntryRule } from "../workbook/workbook.ts";
import { gridStyleOf, lookOfGrid, type GridStyle } from "./bookLook.ts";
import { entryRule, type GridColourRule, type GridEntryRule } from "./readRules.ts";
import { validationRule, type highlightRule } from "./rules.ts";
import type { GridRuntime } from "./runtime.ts";
import { areaOf, rangeOf } from "./sheetData.ts";

type Core = GridRuntime["core"];

const styles = { refused: "STOP", asked: "WARNING", told: "INFO", taken: "STOP" } as const;
const isNumber = (text: string): boolean => text.trim() !== "" && Number.isFinite(Number(text));
/** The grid takes a number as it is, anything else as a formula. */
const operand = (formula: string): string => (isNumber(withoutPrefix(formula)) ? withoutPrefix(formula) : formula);

/** What may be typed somewhere, as the grid's rule. */
export function gridEntryRule(core: Core, entry: BookEntryRule, uid: string): ISheetDataValidationRule {
  const { areas, rule, allowBlank, otherwise, title, message, prompt } = entry;
  const said = {
    uid,
    ranges: areas.map(rangeOf),
    allowBlank,
    errorStyle: core.DataValidationErrorStyle[styles[otherwise]],
    showErrorMessage: otherwise !== "taken",
    errorTitle: title ?? "",
    error: message ?? "",
    showInputMessage: prompt !== undefined,
    promptTitle: prompt?.title ?? "",
    prompt: prompt?.message ?? "",
  };
  if (rule.kind !== "other") {
    const validation = { ...areas[0]!, rule, title: "", message: "" };
    return { ...validationRule(core, validation, uid), ...said };
  }
  const { type, operator, formulas } = rule;
  const [first, second] = formulas.map(operand);
  return {
    ...said,
    type,
    ...(type !== "list" &&
      type !== "custom" && { operator: (operator ?? "between") as NonNullable<ISheetDataValidationRule["operator"]> }),
    ...(type === "list" && { showDropDown: true }),
    ...(first !== undefined && { formula1: first }),
    ...(second !== undefined && { formula2: second }),
  };
}

const kept: ReadonlySet<string> = new Set(["whole", "decimal", "list", "custom", "date", "time", "textLength"]);

/** A rule of the grid as a file has it; undefined for one that files do not know. */
export function entryOfGrid(grid: GridRuntime, rule: GridEntryRule): BookEntryRule | undefined {
  const { core } = grid;
  const type = String(rule.type);
  if (!kept.has(type)) return undefined;
  const fromCells = type === "list" && (rule.formula1 ?? "").startsWith("=");
  const known = fromCells ? "other" : entryRule(grid, rule);
  const { errorStyle, showErrorMessage, errorTitle, error, prompt, promptTitle, showInputMessage } = rule;
  const otherwise =
    showErrorMessage === false
      ? "taken"
      : ((["refused", "asked", "told"] as const).find(
          (word) => core.DataValidationErrorStyle[styles[word]] === errorStyle,
        ) ?? "refused");
  const formulas = [rule.formula1, rule.formula2].flatMap((text) => (text === undefined || text === "" ? [] : [text]));
  return {
    areas: (rule.ranges as readonly Parameters<typeof areaOf>[0][]).map(areaOf),
    rule:
      known === "other"
        ? { kind: "other", type, ...(rule.operator !== undefined && { operator: String(rule.operator) }), formulas }
        : known,
    allowBlank: rule.allowBlank === true,
    otherwise,
    ...(errorTitle && { title: errorTitle }),
    ...(error && { message: error }),
    ...(showInputMessage && (promptTitle || prompt) && { prompt: { title: promptTitle ?? "", message: prompt ?? "" } }),
  };
}

const textOperators = [
  ["equal", "equal"],
  ["beginsWith", "beginsWith"],
  ["endsWith", "endsWith"],
  ["contains", "containsText"],
  ["notContains", "notContainsText"],
] as const;

const comparing: ReadonlyMap<string, string> = new Map([
  ["equal", "="],
  ["notEqual", "<>"],
  ["greaterThan", ">"],
  ["greaterThanOrEqual", ">="],
  ["lessThan", "<"],
  ["lessThanOrEqual", "<="],
]);

/** A comparison with something other than numbers, as a formula of the rule's first cell. */
function comparison(cell: string, operator: string, [a = "", b = ""]: readonly string[]): string {
  if (operator === "between") return `=AND(${cell}>=${a},${cell}<=${b})`;
  if (operator === "notBetween") return `=OR(${cell}<${a},${cell}>${b})`;
  return `=${cell}${comparing.get(operator) ?? "="}${a}`;
}

function gridCondition({ when, areas }: BookColourRule): object {
  if (when.kind === "formula") return { subType: "formula", value: when.formula };
  if (when.kind === "text") {
    const operator = textOperators.find(([ours]) => ours === when.operator)![1];
    return { subType: "text", operator, value: when.text };
  }
  if (!when.formulas.every(isNumber))
    return { subType: "formula", value: comparison(a1(areas[0]!), when.operator, when.formulas) };
  const numbers = when.formulas.map(Number);
  return { subType: "number", operator: when.operator, value: numbers.length > 1 ? numbers : numbers[0] };
}

/** Colours by content, as the grid's rule. */
export function gridColourRule(core: Core, rule: BookColourRule, cfId: string): ReturnType<typeof highlightRule> {
  const made = {
    cfId,
    ranges: rule.areas.map(rangeOf),
    stopIfTrue: rule.stop === true,
    rule: { type: "highlightCell", ...gridCondition(rule), style: gridStyleOf(core, rule.look) },
  };
  return made as ReturnType<typeof highlightRule>;
}

interface GridCondition {
  readonly type: string;
  readonly subType?: string;
  readonly operator?: string;
  readonly value?: unknown;
  readonly style?: GridStyle;
}

function whenOfGrid({ type, subType, operator = "", value }: GridCondition): BookColourRule["when"] | undefined {
  if (type !== "highlightCell") return undefined;
  if (subType === "formula" && typeof value === "string") return { kind: "formula", formula: value };
  if (subType === "text" && typeof value === "string") {
    const found = textOperators.find(([, theirs]) => theirs === operator)?.[0];
    return found && { kind: "text", operator: found, text: value };
  }
  if (subType !== "number") return undefined;
  const numbers = (Array.isArray(value) ? value : [value]).filter((one) => typeof one === "number");
  return numbers.length > 0 ? { kind: "number", operator, formulas: numbers.map(String) } : undefined;
}

/** A rule of the grid as a file has it; undefined for one that is not kept. */
export function colourOfGrid(
  { core }: GridRuntime,
  { ranges, rule, stopIfTrue }: GridColourRule,
): BookColourRule | undefined {
  const condition = rule as GridCondition;
  const when = whenOfGrid(condition);
  if (!when) return undefined;
  const { color, background, bold, italic, underline, strike } = lookOfGrid(core, condition.style ?? {});
  return {
    areas: ranges.map(areaOf),
    when,
    look: {
      ...(color !== undefined && { color }),
      ...(background !== undefined && { background }),
      ...(bold && { bold }),
      ...(italic && { italic }),
      ...(underline && { underline }),
      ...(strike && { strike }),
    },
    ...(stopIfTrue && { stop: true as const }),
  };
}
