import { a1, withoutPrefix, type Area } from "../../cells/index.ts";
import { unquotedText } from "../../cells/index.ts";
import type { Validation } from "../../sheet/index.ts";
import type { BookColourRule, BookEntryRule } from "../workbook/workbook.ts";
import { readArea } from "./address.ts";
import type { NotUnderstood } from "./notUnderstood.ts";
import type { ReadStyles } from "./readStyles.ts";
import { all, child, isOn, type Element } from "./readXml.ts";
import { typedFormula } from "./storedFormula.ts";
import { bounds, numberRule, operators, signs } from "./validations.ts";

/** The areas of a rule. */
export function readAreas(sqref: string): readonly Area[] {
  return sqref.split(/\s+/).filter(Boolean).map(readArea);
}

const number = /^-?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;
const isConstantText = (text: string): boolean => /^"([^"]|"")*"$/.test(text);

/** What a formula says, whatever its blanks and letters. */
const bare = (formula: string): string => formula.replace(/\s/g, "").toUpperCase();

/** The bounds a condition on the cell itself writes, if it is one that a plan's rule gives; undefined for any other. */
function ownCondition(formula: string, cell: string): Validation["rule"] | undefined {
  const found = bounds.flatMap((bound) => {
    const at = formula.indexOf(`${cell}${signs[bound]}`);
    const rest = at < 0 ? "" : formula.slice(at + cell.length + signs[bound].length);
    const written = /^-?[\d.]+(?:[eE][+-]?\d+)?(?=[,)])/.exec(rest)?.[0];
    return written === undefined ? [] : [[bound, Number(written)] as const];
  });
  const rule = {
    kind: "number" as const,
    ...Object.fromEntries(found),
    ...(formula.includes("=INT(") && { whole: true as const }),
  };
  return bare(numberRule(rule, cell).formulas[0] ?? "") === bare(formula) ? rule : undefined;
}

function readRule(one: Element, cell: string): BookEntryRule["rule"] | undefined {
  const { type = "none", operator } = one.attributes;
  const first = child(one, "formula1")?.text ?? "";
  // Some programs write a second formula where none is needed.
  const needsTwo = operator === undefined || operator === "between" || operator === "notBetween";
  const second = needsTwo ? child(one, "formula2")?.text : undefined;
  if (type === "none") return undefined;
  const other: BookEntryRule["rule"] = {
    kind: "other",
    type,
    ...(operator !== undefined && { operator }),
    formulas: [first, ...(second === undefined || type === "list" || type === "custom" ? [] : [second])].map(
      typedFormula,
    ),
  };
  if (type === "list") return isConstantText(first) ? { kind: "list", values: unquotedText(first).split(",") } : other;
  if (type === "custom") return ownCondition(first, cell) ?? other;
  if (type !== "whole" && type !== "decimal") return other;
  const whole = type === "whole" ? { whole: true as const } : {};
  if (second !== undefined) {
    if (operator === "notBetween" || !number.test(first) || !number.test(second)) return other;
    return { kind: "number", min: Number(first), max: Number(second), ...whole };
  }
  const bound = bounds.find((b) => operators[b] === operator);
  return bound && number.test(first) ? { kind: "number", [bound]: Number(first), ...whole } : other;
}

const otherwise = { stop: "refused", warning: "asked", information: "told" } as const;

/** What may be typed where. */
export function readEntries(sheet: Element): readonly BookEntryRule[] {
  return all(child(sheet, "dataValidations"), "dataValidation").flatMap((one): readonly BookEntryRule[] => {
    const {
      sqref = "",
      promptTitle = "",
      prompt = "",
      errorTitle,
      error,
      allowBlank,
      errorStyle = "stop",
    } = one.attributes;
    const areas = readAreas(sqref);
    const rule = areas[0] && readRule(one, a1(areas[0]));
    if (!rule) return [];
    const shown = isOn(one.attributes["showInputMessage"]) && (promptTitle !== "" || prompt !== "");
    return [
      {
        areas,
        rule,
        allowBlank: isOn(allowBlank),
        otherwise: isOn(one.attributes["showErrorMessage"])
          ? (otherwise[errorStyle as keyof typeof otherwise] ?? "refused")
          : "taken",
        ...(errorTitle !== undefined && { title: errorTitle }),
        ...(error !== undefined && { message: error }),
        ...(shown && { prompt: { title: promptTitle, message: prompt } }),
      },
    ];
  });
}

const textOperators = {
  beginsWith: "beginsWith",
  endsWith: "endsWith",
  containsText: "contains",
  notContainsText: "notContains",
} as const;

function readWhen(rule: Element): BookColourRule["when"] | undefined {
  const { type = "", operator = "", text } = rule.attributes;
  const formulas = all(rule, "formula").map((one) => one.text);
  const first = formulas[0];
  const ofText = textOperators[type as keyof typeof textOperators];
  if (ofText && text !== undefined && text !== "") return { kind: "text", operator: ofText, text };
  if (first === undefined) return undefined;
  if (type === "cellIs" && operator === "equal" && isConstantText(first))
    return { kind: "text", operator: "equal", text: unquotedText(first) };
  if (type === "cellIs") return { kind: "number", operator, formulas: formulas.map(typedFormula).map(withoutPrefix) };
  return type === "expression" ? { kind: "formula", formula: typedFormula(first) } : undefined;
}

const kinds: Readonly<Record<string, string>> = {
  colorScale: "colour scales",
  dataBar: "bars within cells",
  iconSet: "icons by value",
  top10: "colours of the highest and lowest values",
  aboveAverage: "colours by the average",
  duplicateValues: "colours of duplicates",
  uniqueValues: "colours of unique values",
  timePeriod: "colours by date",
};

/** The colours that cells take by what they hold, in the order in which they count. */
export function readColourRules(
  sheet: Element,
  { colours }: ReadStyles,
  name: string,
  notUnderstood: NotUnderstood,
): readonly BookColourRule[] {
  const found = all(sheet, "conditionalFormatting").flatMap((format) => {
    const areas = readAreas(format.attributes["sqref"] ?? "");
    return all(format, "cfRule").flatMap((rule) => {
      const { type = "", dxfId, priority, stopIfTrue } = rule.attributes;
      const when = areas.length > 0 ? readWhen(rule) : undefined;
      if (!when) {
        notUnderstood.add(`${kinds[type] ?? `colours by the rule “${type}”`}: not kept`, `“${name}”`);
        return [];
      }
      const look = colours[Number(dxfId)] ?? {};
      return [{ areas, when, look, ...(isOn(stopIfTrue) && { stop: true as const }), priority: Number(priority ?? 0) }];
    });
  });
  return found.sort((a, b) => a.priority - b.priority).map(({ priority: _, ...rule }) => rule);
}
