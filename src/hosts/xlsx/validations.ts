import { a1, areaA1 } from "../../cells/index.ts";
import type { Validation } from "../../sheet/index.ts";
import { all, child, type Element } from "./readXml.ts";
import { readAddress, readArea } from "./address.ts";
import { element, escaped } from "./xml.ts";

type NumberRule = Extract<Validation["rule"], { kind: "number" }>;
type Bound = "min" | "above" | "max" | "below";

const signs = { min: ">=", above: ">", max: "<=", below: "<" } as const;
const operators = {
  min: "greaterThanOrEqual",
  above: "greaterThan",
  max: "lessThanOrEqual",
  below: "lessThan",
} as const;
const bounds = Object.keys(signs) as Bound[];
const longestList = 255;

interface Rule {
  readonly type: string;
  readonly operator?: string;
  readonly formulas: readonly string[];
}

/** The program's own rules have one bound or a closed range; anything else is a condition on the cell itself. */
function numberRule(rule: NumberRule, cell: string): Rule {
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

export function validationXml(validation: Validation): string {
  const { rule, title, message, allowBlank } = validation;
  const cell = a1(validation);
  const { type, operator, formulas } = rule.kind === "list" ? listRule(rule.values, cell) : numberRule(rule, cell);
  return element(
    "dataValidation",
    {
      type,
      operator,
      allowBlank: allowBlank ? 1 : undefined,
      showInputMessage: 1,
      showErrorMessage: 1,
      errorTitle: title,
      error: message,
      promptTitle: title,
      prompt: message,
      sqref: areaA1(validation, false),
    },
    ...formulas.map((text, i) => element(`formula${i + 1}`, {}, escaped(text))),
  );
}

function readRule(one: Element): Validation["rule"] {
  const { type, operator } = one.attributes;
  const first = child(one, "formula1")?.text ?? "";
  const second = child(one, "formula2")?.text;
  const whole = type === "whole" ? { whole: true as const } : {};
  if (type === "list") return { kind: "list", values: first.slice(1, -1).replaceAll('""', '"').split(",") };
  if (type === "custom") {
    const found = bounds.flatMap((bound) => {
      const m = new RegExp(`[A-Z]\\d+${signs[bound]}(-?[\\d.][\\d.eE+-]*)[,)]`).exec(first);
      return m ? [[bound, Number(m[1])] as const] : [];
    });
    return { kind: "number", ...Object.fromEntries(found), ...(first.includes("=INT(") && { whole: true }) };
  }
  if (second !== undefined) return { kind: "number", min: Number(first), max: Number(second), ...whole };
  const bound = bounds.find((b) => operators[b] === operator);
  if (!bound) throw new Error(`the rule of ${one.attributes["sqref"]} is of an unknown kind: ${type} ${operator}`);
  return { kind: "number", [bound]: Number(first), ...whole };
}

/** The rules of a sheet, one for each area. */
export function readValidations(sheet: Element): readonly Validation[] {
  return all(child(sheet, "dataValidations"), "dataValidation").map((one) => {
    const { sqref = "", promptTitle = "", prompt = "", errorTitle, error, allowBlank } = one.attributes;
    if (errorTitle !== promptTitle || error !== prompt)
      throw new Error(
        `the rule of ${sqref} says one thing when the cell is selected and another when an entry is refused`,
      );
    return {
      ...(sqref.includes(":") ? readArea(sqref) : { ...readAddress(sqref), rows: 1, columns: 1 }),
      rule: readRule(one),
      title: promptTitle,
      message: prompt,
      ...(allowBlank === "1" && { allowBlank: true as const }),
    };
  });
}
