import type { ISheetDataValidationRule } from "@univerjs/core";
import type { Highlight, Validation } from "../../sheet/index.ts";
import { tones } from "../look/styles.ts";
import type { GridRuntime } from "./runtime.ts";
import { rangeOf } from "./sheetData.ts";

/** The next number up or down: exclusive bounds become inclusive ones without a tolerance. */
export function neighbour(value: number, up: boolean): number {
  if (value === 0) return up ? Number.MIN_VALUE : -Number.MIN_VALUE;
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  view.setBigInt64(0, view.getBigInt64(0) + (value > 0 === up ? 1n : -1n));
  return view.getFloat64(0);
}

/** What may be typed into a cell, as the grid's rule; anything else is refused with the plan's message. */
export function validationRule(
  core: GridRuntime["core"],
  validation: Validation,
  uid: string,
): ISheetDataValidationRule {
  const { DataValidationErrorStyle, DataValidationOperator, DataValidationType } = core;
  const { rule, title, message, allowBlank } = validation;
  const common = {
    uid,
    ranges: [rangeOf(validation)],
    allowBlank: allowBlank === true,
    errorStyle: DataValidationErrorStyle.STOP,
    showErrorMessage: true,
    errorTitle: title,
    error: message,
    // The grid shows no prompt; a file saved from it has one.
    showInputMessage: true,
    promptTitle: title,
    prompt: message,
  };
  if (rule.kind === "list")
    return { ...common, type: DataValidationType.LIST, formula1: rule.values.join(","), showDropDown: true };
  const low = rule.min ?? (rule.above === undefined ? -Number.MAX_VALUE : neighbour(rule.above, true));
  const high = rule.max ?? (rule.below === undefined ? Number.MAX_VALUE : neighbour(rule.below, false));
  return {
    ...common,
    type: rule.whole ? DataValidationType.WHOLE : DataValidationType.DECIMAL,
    operator: DataValidationOperator.BETWEEN,
    formula1: String(low),
    formula2: String(high),
  };
}

/** Colours a cell by its text, as the grid's rule. */
export function highlightRule(highlight: Highlight, cfId: string) {
  const { color, background } = tones[highlight.tone];
  return {
    cfId,
    ranges: [rangeOf(highlight)],
    stopIfTrue: false,
    rule: {
      type: "highlightCell",
      subType: "text",
      operator: highlight.begins ? "beginsWith" : "equal",
      value: highlight.text,
      style: { cl: { rgb: color }, bg: { rgb: background } },
    },
  };
}
