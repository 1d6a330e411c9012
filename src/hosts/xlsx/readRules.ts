import { a1, withoutPrefix, type Area } from "../../cells/index.ts";
import { unquotedText } from "../../cells/index.ts";
import type { Validation } from "../../sheet/index.ts";
import type { BookColourRule, BookEntryRule } from "../workbook/workbook.ts";
import { readArea } from "./address.ts";
import type { NotUnderstood } from "./notUnderstood.ts";
import { refuseTooMany, type Limits } from "./refusal.ts";
import type { ReadStyles } from "./readStyles.ts";
import { all, child, isOn, type Element } from "./readXml.ts";
import { typedFormula } from "./storedFormula.ts";
import { bounds, longestList, numberRule, operators, signs } from "./validations.ts";

/** The areas of a rule. */
function readAreas(sqref: string): readonly Area[] {
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

const otherwise: ReadonlyMap<string, BookEntryRule["otherwise"]> = new Map([
  ["stop", "refused"],
  ["warning", "asked"],
  ["information", "told"],
]);

const areasOf = (rules: readonly { readonly areas: readonly Area[] }[]): number =>
  rules.reduce((sum, { areas }) => sum + areas.length, 0);

/** A sheet whose rules are read: its name, and how far it is filled. */
export interface RuledSheet {
  readonly name: string;
  readonly rows: number;
  readonly columns: number;
}

/** The areas of a rule that are kept, and whether they reach less far than the file says. */
interface Near {
  readonly areas: readonly Area[];
  readonly cut: boolean;
}

/** The areas as far as they lie on or near what is filled; of the first, to which formulas refer, at least a cell. */
function nearFilled(all: readonly Area[], { rows, columns }: RuledSheet, { rulesBeyond }: Limits): Near {
  let cut = false;
  const areas = all.flatMap((area, i) => {
    const least = i === 0 ? 1 : 0;
    const height = Math.max(least, Math.min(area.rows, rows + rulesBeyond - area.row));
    const width = Math.max(least, Math.min(area.columns, columns + rulesBeyond - area.column));
    cut ||= height < area.rows || width < area.columns;
    return height > 0 && width > 0 ? [{ ...area, rows: height, columns: width }] : [];
  });
  return { areas, cut };
}

function noteCut({ cut }: Near, { name }: RuledSheet, { rulesBeyond }: Limits, notUnderstood: NotUnderstood): void {
  if (!cut) return;
  notUnderstood.add(
    `rules for whole rows or columns, or far beyond what is filled: kept as far as ${rulesBeyond} cells beyond it`,
    `“${name}”`,
  );
}

/** What may be typed where. */
export function readEntries(
  sheet: Element,
  ruled: RuledSheet,
  notUnderstood: NotUnderstood,
  limits: Limits,
): readonly BookEntryRule[] {
  const entries = all(child(sheet, "dataValidations"), "dataValidation").flatMap((one): readonly BookEntryRule[] => {
    const {
      sqref = "",
      promptTitle = "",
      prompt = "",
      errorTitle,
      error,
      allowBlank,
      errorStyle = "stop",
    } = one.attributes;
    const near = nearFilled(readAreas(sqref), ruled, limits);
    const { areas } = near;
    const rule = areas[0] && readRule(one, a1(areas[0]));
    if (!rule) return [];
    if (rule.kind === "list" && rule.values.join(",").length > longestList) {
      notUnderstood.add(`lists of choices longer than ${longestList} characters: not kept`, `“${ruled.name}”`);
      return [];
    }
    noteCut(near, ruled, limits, notUnderstood);
    const shown = isOn(one.attributes["showInputMessage"]) && (promptTitle !== "" || prompt !== "");
    return [
      {
        areas,
        rule,
        allowBlank: isOn(allowBlank),
        otherwise: isOn(one.attributes["showErrorMessage"]) ? (otherwise.get(errorStyle) ?? "refused") : "taken",
        ...(errorTitle !== undefined && { title: errorTitle }),
        ...(error !== undefined && { message: error }),
        ...(shown && { prompt: { title: promptTitle, message: prompt } }),
      },
    ];
  });
  refuseTooMany(areasOf(entries), limits.entryRules, "areas with rules for what may be typed", ruled.name);
  return entries;
}

type TextOperator = Extract<BookColourRule["when"], { kind: "text" }>["operator"];
const textOperators: ReadonlyMap<string, TextOperator> = new Map([
  ["beginsWith", "beginsWith"],
  ["endsWith", "endsWith"],
  ["containsText", "contains"],
  ["notContainsText", "notContains"],
]);

function readWhen(rule: Element): BookColourRule["when"] | undefined {
  const { type = "", operator = "", text } = rule.attributes;
  const formulas = all(rule, "formula").map((one) => one.text);
  const first = formulas[0];
  const ofText = textOperators.get(type);
  if (ofText && text !== undefined && text !== "") return { kind: "text", operator: ofText, text };
  if (first === undefined) return undefined;
  if (type === "cellIs" && operator === "equal" && isConstantText(first))
    return { kind: "text", operator: "equal", text: unquotedText(first) };
  if (type === "cellIs") return { kind: "number", operator, formulas: formulas.map(typedFormula).map(withoutPrefix) };
  return type === "expression" ? { kind: "formula", formula: typedFormula(first) } : undefined;
}

const kinds: ReadonlyMap<string, string> = new Map([
  ["colorScale", "colour scales"],
  ["dataBar", "bars within cells"],
  ["iconSet", "icons by value"],
  ["top10", "colours of the highest and lowest values"],
  ["aboveAverage", "colours by the average"],
  ["duplicateValues", "colours of duplicates"],
  ["uniqueValues", "colours of unique values"],
  ["timePeriod", "colours by date"],
]);

/** The colours that cells take by what they hold, in the order in which they count. */
export function readColourRules(
  sheet: Element,
  { colours }: ReadStyles,
  ruled: RuledSheet,
  notUnderstood: NotUnderstood,
  limits: Limits,
): readonly BookColourRule[] {
  const found = all(sheet, "conditionalFormatting").flatMap((format) => {
    const near = nearFilled(readAreas(format.attributes["sqref"] ?? ""), ruled, limits);
    const { areas } = near;
    if (areas.length === 0) return [];
    return all(format, "cfRule").flatMap((rule) => {
      const { type = "", dxfId, priority, stopIfTrue } = rule.attributes;
      const when = readWhen(rule);
      if (!when) {
        notUnderstood.add(`${kinds.get(type) ?? `colours by the rule “${type}”`}: not kept`, `“${ruled.name}”`);
        return [];
      }
      noteCut(near, ruled, limits, notUnderstood);
      const look = colours[Number(dxfId)] ?? {};
      return [{ areas, when, look, ...(isOn(stopIfTrue) && { stop: true as const }), priority: Number(priority ?? 0) }];
    });
  });
  refuseTooMany(areasOf(found), limits.colourRules, "areas with rules for colours", ruled.name);
  const cells = found.reduce((sum, { areas }) => areas.reduce((of, a) => of + a.rows * a.columns, sum), 0);
  refuseTooMany(cells, limits.colourCells, "cells with rules for colours (counted once for each rule)", ruled.name);
  return found.sort((a, b) => a.priority - b.priority).map(({ priority: _, ...rule }) => rule);
}
