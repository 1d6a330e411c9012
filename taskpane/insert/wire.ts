import { areaA1, quotedSheet } from "../../src/cells/index.ts";
import { allowedText, outside, type Label, type Parameter } from "../../src/core/index.ts";
import { type CellContent, type Selection } from "../../src/hosts/index.ts";

/** What stands for an argument: cells picked on a sheet, a number, reference or name typed, or one of its choices. */
export type Binding =
  | { readonly kind: "cells"; readonly at: Selection }
  | { readonly kind: "typed"; readonly text: string }
  | { readonly kind: "choice"; readonly value: Label };

const reference = /^(?:(?:'(?:[^']|'')+'|[\p{L}\p{N}_.]+)!)?\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?$/u;
const name = /^[\p{L}_\\][\p{L}\p{N}_.\\]*$/u;

/** The argument as the formula writes it; sheet-qualified where its cells are not on the formula's sheet. */
export function bindingText(binding: Binding, sheet: string, absolute: boolean): string {
  if (binding.kind === "typed") return binding.text.trim();
  if (binding.kind === "choice")
    return typeof binding.value === "number" ? String(binding.value) : `"${binding.value}"`;
  const { at } = binding;
  return `${at.sheet === sheet ? "" : `${quotedSheet(at.sheet)}!`}${areaA1(at, absolute)}`;
}

/**
 * Why what was typed cannot stand for an argument; undefined where it can. A formula of one's own belongs into a cell,
 * where a checker sees it.
 */
export function typedFault(text: string): string | undefined {
  const typed = text.trim();
  if (typed !== "" && (Number.isFinite(Number(typed)) || reference.test(typed) || name.test(typed))) return undefined;
  return "type a number, cells such as B4 or Data!B4:C9, or a name";
}

/** Why these cells cannot stand for the argument; undefined where they can. */
export function shapeFault(parameter: Parameter, at: Selection): string | undefined {
  if (parameter.kind !== "table")
    return at.rows * at.columns > 1
      ? `${parameter.text} takes one cell; ${at.rows} × ${at.columns} are selected`
      : undefined;
  if (parameter.kinds) {
    const counts = Object.values(parameter.kinds.tables).map((kind) => Object.keys(kind.columns).length);
    return counts.includes(at.columns)
      ? undefined
      : `this range has ${[...new Set(counts)].join(" or ")} columns; ${at.columns} ${at.columns === 1 ? "is" : "are"} selected`;
  }
  const columns = Object.values(parameter.columns);
  return at.columns === columns.length
    ? undefined
    : `this range has ${columns.length} column${columns.length === 1 ? "" : "s"} (${columns.map((c) => c.text).join("; ")}); ` +
        `${at.columns} ${at.columns === 1 ? "is" : "are"} selected`;
}

/**
 * What should be known about a cell that will stand for the argument; empty where there is nothing. Nothing here stops
 * anyone: the cell may be filled later.
 */
export function cellNotice(parameter: Parameter, { value, error }: CellContent): string {
  if (error) return `it holds the error ${error.code}`;
  if (value === null || value === "") return "it is empty now";
  if (parameter.kind === "number") {
    if (typeof value !== "number")
      return `it holds ${typeof value === "boolean" ? "TRUE or FALSE" : "text"}, where a number is needed`;
    const side = outside(parameter, value);
    return side ? `${value} is ${side} what is allowed: ${allowedText(parameter)}` : "";
  }
  if (parameter.kind === "choice" && !parameter.values.some((v) => String(v.value) === String(value)))
    return `it is none of ${parameter.values.map((v) => v.value).join(", ")}`;
  return "";
}
