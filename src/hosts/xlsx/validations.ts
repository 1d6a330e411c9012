import { a1, areaA1 } from "../../cells/index.ts";
import type { Validation } from "../../sheet/index.ts";
import type { BookEntryRule } from "../workbook/workbook.ts";
import { storedFormula } from "./storedFormula.ts";
import { element, escaped } from "./xml.ts";

type NumberRule = Extract<Validation["rule"], { kind: "number" }>;
type Bound = "min" | "above" | "max" | "below";

export const signs = { min: ">=", above: ">", max: "<=", below: "<" } as const;
export const operators = {
  min: "greaterThanOrEqual",
  above: "greaterThan",
  max: "lessThanOrEqual",
  below: "lessThan",
} as const;
export const bounds = Object.keys(signs) as Bound[];
/** Characters of a list of choices together, as far as programs take it. */
export const longestList = 255;

interface Rule {
  readonly type: string;
  readonly operator?: string;
  readonly formulas: readonly string[];
}

/** The program's own rules have one bound or a closed range; anything else is a condition on the cell itself. */
export function numberRule(rule: NumberRule, cell: string): Rule {
  const given = bounds.filter((bound) => rule[bound] !== undefined);
  const type = rule.whole ? "whole" : "decimal";
  if (given.length === 1) return { type, operator: operators[given[0]!], formulas: [String(rule[given[0]!])] };
  if (given.length === 2 && rule.min !== undefined && rule.max !== undefined)
    return { type, formulas: [String(rule.min), String(rule.max)] };
  const conditions = [
    `ISNUMBER(${cell})`,
    ...given.map((bound) => `${cell}${signs[bound]}${rule[bound]}`),
    ...(rule.whole ? [`${cell}=INT(${cell})`] : []),
  ];
  return { type: "custom", formulas: [`AND(${conditions.join(",")})`] };
}

function listRule(values: readonly string[], cell: string): Rule {
  const list = values.join(",");
  if (values.some((value) => value.includes(",")) || list.length > longestList)
    throw new Error(
      `the choices of ${cell} (${list}) cannot be a list of the file: no commas within, at most ${longestList} characters together`,
    );
  return { type: "list", formulas: [`"${list.replaceAll('"', '""')}"`] };
}

const styles = { refused: undefined, asked: "warning", told: "information", taken: undefined } as const;

function ruleOf({ rule, areas }: BookEntryRule): Rule {
  const cell = a1(areas[0]!);
  if (rule.kind === "list") return listRule(rule.values, cell);
  if (rule.kind === "number") return numberRule(rule, cell);
  const { type, operator, formulas } = rule;
  return { type, ...(operator !== undefined && { operator }), formulas: formulas.map(storedFormula) };
}

export function entryXml(entry: BookEntryRule): string {
  const { areas, allowBlank, otherwise, title, message, prompt } = entry;
  const { type, operator, formulas } = ruleOf(entry);
  return element(
    "dataValidation",
    {
      type,
      errorStyle: styles[otherwise],
      operator,
      allowBlank: allowBlank ? 1 : undefined,
      showInputMessage: prompt ? 1 : undefined,
      showErrorMessage: otherwise === "taken" ? undefined : 1,
      errorTitle: title,
      error: message,
      promptTitle: prompt?.title,
      prompt: prompt?.message,
      sqref: areas.map((area) => areaA1(area, false)).join(" "),
    },
    ...formulas.map((text, i) => element(`formula${i + 1}`, {}, escaped(text))),
  );
}
