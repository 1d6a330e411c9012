import { a1, shortened } from "../../cells/index.ts";
import type { Highlight, Validation } from "../../sheet/index.ts";
import { tones } from "../look/styles.ts";
import { rangeOf } from "./areas.ts";

type NumberRule = Extract<Validation["rule"], { kind: "number" }>;

const signs = { min: ">=", above: ">", max: "<=", below: "<" } as const;
const operators = {
  min: "GreaterThanOrEqualTo",
  above: "GreaterThan",
  max: "LessThanOrEqualTo",
  below: "LessThan",
} as const;
const bounds = Object.keys(signs) as (keyof typeof signs)[];
/** The program's own limits of what a message may hold. */
const longest = { title: 32, message: 255 } as const;

/** The program's own rules have one bound or a closed range; anything else is a condition on the cell itself. */
function numberRule(rule: NumberRule, cell: string): Excel.DataValidationRule {
  const given = bounds.filter((bound) => rule[bound] !== undefined);
  const kind = rule.whole ? "wholeNumber" : "decimal";
  if (given.length === 1) return { [kind]: { formula1: rule[given[0]!]!, operator: operators[given[0]!] } };
  if (given.length === 2 && rule.min !== undefined && rule.max !== undefined)
    return { [kind]: { formula1: rule.min, formula2: rule.max, operator: "Between" } };
  const conditions = [
    `ISNUMBER(${cell})`,
    ...given.map((bound) => `${cell}${signs[bound]}${rule[bound]}`),
    ...(rule.whole ? [`${cell}=INT(${cell})`] : []),
  ];
  return { custom: { formula: `=AND(${conditions.join(",")})` } };
}

function listRule(values: readonly string[], cell: string): Excel.DataValidationRule {
  const source = values.join(",");
  if (values.some((value) => value.includes(",")) || source.length > longest.message)
    throw new Error(
      `the choices of ${cell} (${source}) cannot be a list of the program: no commas within, at most ` +
        `${longest.message} characters together`,
    );
  return { list: { inCellDropDown: true, source } };
}

/** What may be typed, with a message while the cell is selected and one when an entry is refused. */
export function addValidation(sheet: Excel.Worksheet, validation: Validation): void {
  const { rule } = validation;
  const cell = a1(validation);
  const { dataValidation } = rangeOf(sheet, validation);
  const title = shortened(validation.title, longest.title);
  const message = shortened(validation.message, longest.message);
  dataValidation.rule = rule.kind === "list" ? listRule(rule.values, cell) : numberRule(rule, cell);
  // After the rule: a new rule takes blanks.
  dataValidation.ignoreBlanks = validation.allowBlank === true;
  dataValidation.prompt = { showPrompt: true, title, message };
  dataValidation.errorAlert = { showAlert: true, style: "Stop", title, message };
}

/**
 * Colours a cell by its text, or by how that begins. The condition is a comparison with a text, so no worksheet
 * function of ours stands in it.
 */
export function addHighlight(sheet: Excel.Worksheet, highlight: Highlight): void {
  const { color, background } = tones[highlight.tone];
  const { conditionalFormats } = rangeOf(sheet, highlight);
  if (highlight.begins) {
    const { textComparison } = conditionalFormats.add("ContainsText");
    textComparison.format.font.color = color;
    textComparison.format.fill.color = background;
    textComparison.rule = { operator: "BeginsWith", text: highlight.text };
    return;
  }
  const { cellValue } = conditionalFormats.add("CellValue");
  cellValue.format.font.color = color;
  cellValue.format.fill.color = background;
  cellValue.rule = { formula1: `="${highlight.text.replaceAll('"', '""')}"`, operator: "EqualTo" };
}
