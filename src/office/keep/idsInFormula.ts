import {
  areaOf,
  namespace,
  normalNow,
  ourFunction,
  piecesOf,
  readCells,
  splitSheet,
  templateFormula,
  type Address,
  type Area,
} from "../../cells/index.ts";
import type { Anatomy } from "../../sheet/index.ts";

type Context = Parameters<Anatomy["referencesTo"]>[1];

/** A formula of the sheet, with the context it stands in and the cell it stood in as planned. */
export interface FoundFormula {
  readonly formula: string;
  /** Where it stands now. */
  readonly at: Address;
  readonly context?: Context;
}

/** How the sheet stands to its plan. */
export interface Standing {
  readonly sheet: string;
  readonly anatomy: Anatomy;
  /** The planned row or column that stands there now; undefined for an inserted one. */
  readonly rowPlanned: (now: number) => number | undefined;
  readonly columnPlanned: (now: number) => number | undefined;
  /** The id of a row added by hand whose value stands there. */
  readonly addedAt: (now: Address) => string | undefined;
  /** The cells of a name of the sheet, by its name in small letters. */
  readonly named: (name: string) => (Area & { readonly sheet: string }) | undefined;
}

/** A formula with ids in place of addresses, or why it cannot be one. */
export type WithIds = { readonly text: string } | { readonly fault: string; readonly at: Address };

/** What stands for something other than cells in the file, with its written form as formulas are compared, without `=`. */
export interface Special {
  readonly text: string;
  readonly written: string;
}

interface Read {
  /** What is the same in every row of a column, with a mark in place of every reference. */
  readonly pattern: string;
  /** The pieces between the references; one more than there are references. */
  readonly between: readonly string[];
  /** For every reference, the ids it may be. */
  readonly references: readonly (readonly string[])[];
}

/**
 * Turns the formulas of one row, or those that stand below each other in a column, into the one formula that the
 * template's file holds for them. `before`: the formula it had; of several ways to refer to the same cells, the one
 * used there is taken.
 */
export function idsInFormulas(
  found: readonly FoundFormula[],
  standing: Standing,
  specials: readonly Special[] = [],
  before = "",
): WithIds {
  let common: Read | undefined;
  for (const one of found) {
    const read = readOne(one, standing, specials);
    if ("fault" in read) return { fault: read.fault, at: one.at };
    if (!common) {
      common = read;
      continue;
    }
    if (read.pattern !== common.pattern)
      return { fault: "the rows of this column do not have one formula: change all of them alike", at: one.at };
    const references = common.references.map((texts, i) => texts.filter((text) => read.references[i]!.includes(text)));
    if (references.some((texts) => texts.length === 0))
      return {
        fault: "the rows of this column refer to cells in different ways: change all of them alike",
        at: one.at,
      };
    common = { ...common, references };
  }
  if (!common) return { text: before };
  const used = new Set(
    templateFormula(before).pieces.flatMap((piece) => (piece.kind === "template" ? [piece.text] : [])),
  );
  const { between, references } = common;
  return {
    text: between
      .map((text, i) => {
        const ways = references[i] ?? [];
        return text + (ways.find((way) => used.has(way)) ?? ways[0] ?? "");
      })
      .join(""),
  };
}

/** Stands for a special reference while a formula is read: no program writes such a name. */
const markOf = (i: number): string => `KB_SPECIAL_${i}_`;

function readOne(
  { formula, context }: FoundFormula,
  standing: Standing,
  specials: readonly Special[],
): Read | { readonly fault: string } {
  const between: string[] = [""];
  const references: (readonly string[])[] = [];
  const refer = (ways: readonly string[]): void => {
    references.push(ways);
    between.push("");
  };
  let text = normalNow(formula, standing.sheet);
  specials.forEach(({ written }, i) => {
    if (written !== "") text = text.split(written).join(markOf(i));
  });
  for (const { kind, text: piece } of piecesOf(text)) {
    const add = (what: string): void => {
      between[between.length - 1] += what;
    };
    if (kind === "blank" || kind === "prefix" || piece === "@") continue;
    if (kind === "error") {
      if (piece.endsWith("#REF!")) return { fault: "it has lost a cell that it referred to (#REF!)" };
      return { fault: `it holds the error ${piece}` };
    }
    if (kind === "cells") {
      const ways = waysTo(piece, context, standing);
      if (typeof ways === "string") return { fault: ways };
      refer(ways);
    } else if (kind === "name") {
      const special = specials.findIndex((_, i) => markOf(i) === piece);
      const ways = special >= 0 ? [specials[special]!.text] : waysByName(piece, context, standing);
      if (typeof ways === "string") return { fault: ways };
      refer(ways);
    } else if (kind === "function") {
      const ours = ourFunction(piece);
      add(ours === undefined ? piece.toUpperCase() : namespace + ours);
    } else add(piece);
  }
  return { pattern: between.join("\u0001"), between, references };
}

function waysTo(text: string, context: Context, standing: Standing): readonly string[] | string {
  const { sheet, rest } = splitSheet(text);
  if (sheet !== undefined && sheet.toLowerCase() !== standing.sheet.toLowerCase())
    return `it refers to ${text}, a cell of another sheet`;
  const read = readCells(rest);
  const area = read && areaOf(read);
  if (!area) return `${text} is no area of cells that can be told by ids`;
  return waysToArea(text, area, context, standing);
}

function waysToArea(text: string, now: Area, context: Context, standing: Standing): readonly string[] | string {
  if (now.rows === 1 && now.columns === 1) {
    const added = standing.addedAt(now);
    if (added !== undefined) return [`{${added}}`];
  }
  const row = standing.rowPlanned(now.row);
  const last = standing.rowPlanned(now.row + now.rows - 1);
  const column = standing.columnPlanned(now.column);
  const right = standing.columnPlanned(now.column + now.columns - 1);
  if (row === undefined || last === undefined || column === undefined || right === undefined)
    return `it refers to ${text}, which the template does not know: give that row a description and a value`;
  const area = { row, column, rows: last - row + 1, columns: right - column + 1 };
  const ways = standing.anatomy.referencesTo(area, context);
  return ways.length > 0
    ? ways
    : `it refers to ${text}, which is neither the value of a row nor cells of a column that an id stands for`;
}

function waysByName(text: string, context: Context, standing: Standing): readonly string[] | string {
  const { rest } = splitSheet(text);
  const area = standing.named(rest.toLowerCase());
  if (!area || area.sheet.toLowerCase() !== standing.sheet.toLowerCase())
    return `it refers to the name ${text}, which is none of this sheet's`;
  return waysToArea(text, area, context, standing);
}
