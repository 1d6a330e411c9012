import {
  a1,
  areaA1,
  partsOf,
  templateFormula,
  textConstant,
  writeNode,
  type Address,
  type Area,
  type FormulaNode,
  type TemplateReference,
} from "../cells/index.ts";
import { columns, unconfirmedWords } from "./columns.ts";
import { firstOf, warningRows, type Layout } from "./layout.ts";
import { resolve, targetA1, type Context } from "./resolve.ts";
import { plainSymbol } from "./says.ts";
import type { Row, ShapeInput } from "./template.ts";

/** A formula as it stands in a cell, with the cells it reads. */
export interface Written {
  readonly formula: string;
  readonly reads: readonly Area[];
  readonly problems: readonly string[];
}

/**
 * Where counted words and errors stand: the verdict column from below the first page, which repeats what is said there,
 * to the row above, and among the workings.
 */
function verdictsAbove(row: number, { body, workings, rows: end }: Layout): readonly Area[] {
  const rows = Math.max(1, row - body);
  const above = { row: body, column: columns.verdict, rows, columns: 1 };
  return workings ? [above, { ...above, row: workings.first, rows: end - workings.first }] : [above];
}

/** Whether an area is counted by a row: it stands above, or among the workings. */
function isCounted(area: Area, row: number, { workings }: Layout): boolean {
  return area.row + area.rows <= row || (workings !== undefined && area.row >= workings.first);
}

/**
 * A warning's cell begins with a blank, so that it is never empty: programs without the functions show what was
 * computed last, but compute an empty text anew.
 */
export const beforeWarning = " ";
const anyWarning = "??*";

/** The cells of each list of warnings. */
export function warningAreas(layout: Layout): readonly Area[] {
  const { sheet } = layout;
  if (sheet.warned.length + sheet.watched.length === 0) return [];
  const lists = sheet.blocks.flatMap(({ items }) => items).filter((item) => item.kind === "warnings");
  if (lists.length === 0) return [];
  const rows = warningRows(sheet);
  return lists.map((item) => ({ row: layout.itemRows.get(item)!, column: columns.value, rows, columns: 1 }));
}

type WrittenPart = Omit<Written, "formula"> & { readonly text: string };
const singleCell = /^\$?[A-Z]+\$?\d+$/;

/** A part of a formula for several rows: as it is where it is the same in the first and the last, else the column of cells between them. */
export function spanned(parts: readonly WrittenPart[]): WrittenPart {
  const [first, last] = [parts[0]!, parts.at(-1)!];
  const reads = parts.flatMap((part) => part.reads);
  const problems = parts.flatMap((part) => part.problems);
  if (first.text === last.text) return { text: first.text, reads: first.reads, problems };
  if (singleCell.test(first.text) && singleCell.test(last.text))
    return { text: `${first.text}:${last.text}`, reads: [spanOf(first.reads[0]!, last.reads[0]!)], problems };
  const problem = "the warnings of several rows are asked for with single cells as arguments";
  return { text: first.text, reads, problems: [...problems, problem] };
}

const spanOf = (first: Area, last: Area): Area => ({ ...first, rows: last.row + last.rows - first.row });

/** The cell that keeps what a shape input was when the sheet was built. */
export function builtCell(row: number): Address {
  return { row, column: columns.from };
}

function shapeChanged(layout: Layout): { text: string; reads: Area[] } {
  const pairs = layout.sheet.template.shape.map(({ id }: ShapeInput) => {
    const row = layout.about.shape.get(id)!;
    return [{ row, column: columns.value }, builtCell(row)] as const;
  });
  const linked = layout.sheet.template.source !== undefined;
  const differ = (now: Address, built: Address): string => {
    const text = `${a1(now, true)}<>${a1(built, true)}`;
    // Where the source is gone its values are missing, and the sheet says that.
    return linked ? `IFERROR(${text},FALSE)` : text;
  };
  return {
    text: pairs.length === 0 ? "FALSE" : `OR(${pairs.map(([now, built]) => differ(now, built)).join(",")})`,
    reads: pairs.flat().map((cell) => ({ ...cell, rows: 1, columns: 1 })),
  };
}

/** Whether a row names what says FAIL. */
export function namesFailing({ formula }: Row): boolean {
  return formula?.includes("{failing}") === true;
}

/** A text up to the remark behind it. */
const named = (text: string): string => text.split(";")[0]!;

/** Rows and tables above a row that have verdicts: the cells, and how the sheet names them. */
function verdictAreas(layout: Layout, above: number): readonly { readonly area: Area; readonly name: string }[] {
  const at = (row: number, rows: number): Area => ({ row, column: columns.verdict, rows, columns: 1 });
  return layout.sheet.blocks
    .flatMap(({ items }) => items)
    .flatMap((item) => {
      if (item.kind === "row" && item.row.verdict !== undefined)
        return [{ area: at(layout.itemRows.get(item)!, 1), name: `${item.item} ${named(item.says.text)}` }];
      const verdict = item.kind === "table" ? item.columns.find(({ column }) => column.verdict) : undefined;
      if (item.kind !== "table" || !verdict) return [];
      return [{ area: at(firstOf(layout, item, verdict), item.rows), name: `${item.item} ${named(item.table.title)}` }];
    })
    .filter(({ area }) => isCounted(area, above, layout));
}

const between = "; ";

/** What says FAIL above, one name behind the other. The sign stands before each and is taken off the first: none trails. */
function failing(layout: Layout, above: number): { text: string; reads: Area[] } {
  const all = verdictAreas(layout, above);
  const one = ({ area, name }: (typeof all)[number]): string =>
    `IF(COUNTIF(${areaA1(area)},"FAIL")>0,${textConstant(between + name)},"")`;
  const letters = all.reduce((sum, { name }) => sum + between.length + name.length, 0);
  const text = all.length === 0 ? '""' : `MID(${all.map(one).join("&")},${between.length + 1},${letters})`;
  return { text, reads: all.map(({ area }) => area) };
}

/** Numbers and symbols of the inputs above whose status is a word, one behind the other. */
function inputsThatSay(word: string, above: number, layout: Layout): { text: string; reads: Area[] } {
  const at = (row: number, rows: number): Area => ({ row, column: columns.verdict, rows, columns: 1 });
  const all = layout.sheet.blocks
    .filter(({ block }) => !block.front)
    .flatMap(({ items }) => items)
    .flatMap((item) => {
      const asked = item.kind === "row" && (item.row.taken ?? (item.row.input && !item.row.input.freeText));
      if (item.kind === "row" && asked) {
        const { symbol, text } = item.says;
        return [
          {
            area: at(layout.itemRows.get(item)!, 1),
            name: `${item.item} ${symbol === "–" ? text : plainSymbol(symbol)}`,
          },
        ];
      }
      const first =
        item.kind === "table" ? item.columns.findLast(({ column }) => column.input ?? column.taken) : undefined;
      if (item.kind !== "table" || !first) return [];
      return [{ area: at(firstOf(layout, item, first), item.rows), name: `${item.item} ${item.table.title}` }];
    })
    .filter(({ area }) => isCounted(area, above, layout));
  const one = ({ area, name }: (typeof all)[number]): string => {
    const says = area.rows === 1 ? `${areaA1(area)}="${word}"` : `COUNTIF(${areaA1(area)},"${word}")>0`;
    // One comma each, by which they are counted.
    return `IF(${says},${textConstant(`${name.replaceAll(",", ";")}, `)},"")`;
  };
  return { text: all.length === 0 ? '""' : `(${all.map(one).join("&")})`, reads: all.map(({ area }) => area) };
}

/** A reference with addresses in place of its id. */
interface WrittenReference {
  readonly text: string;
  readonly reads: readonly Area[];
  readonly problem?: string;
}

function counted(word: string, row: number, layout: Layout): WrittenReference {
  const reads = word === "warnings" ? warningAreas(layout) : verdictsAbove(row, layout);
  const one = (area: Area): string => {
    if (word === "warnings") return `COUNTIF(${areaA1(area)},"${anyWarning}")`;
    return word === "error" ? `SUMPRODUCT(ISERROR(${areaA1(area)})*1)` : `COUNTIF(${areaA1(area)},"${word}")`;
  };
  return { text: reads.length === 0 ? "0" : `(${reads.map(one).join("+")})`, reads };
}

/** Of the lines of the lists of warnings, from what each is of to its text. */
function warningsCode(layout: Layout): WrittenReference {
  const reads = warningAreas(layout).map((area): Area => ({
    ...area,
    column: columns.description,
    columns: columns.value - columns.description + 1,
  }));
  return {
    text: reads.length === 0 ? '"none"' : `KERN.WARNINGS_CODE(${reads.map((area) => areaA1(area)).join(",")})`,
    reads,
  };
}

/** How many marks of an area say that nobody has confirmed a value. */
export function unconfirmedCount(area: Area): string {
  return unconfirmedWords.map((word) => `COUNTIF(${areaA1(area, true)},${textConstant(word)})`).join("+");
}

/** The same in the blocks of the sheet but for the row's own, whose marks may read it in turn. */
function assumptions(row: number, { body, blockRows, about }: Layout): WrittenReference {
  const titles = [...blockRows.values()].map(({ title }) => title).filter((title) => title < about.marks);
  const own = Math.max(...titles.filter((title) => title <= row));
  const next = Math.min(about.marks, ...titles.filter((title) => title > row));
  const down = (from: number, to: number): Area => ({ row: from, column: columns.mark, rows: to - from, columns: 1 });
  const reads = [down(body, own), down(next, about.marks)].filter(({ rows }) => rows > 0);
  return { text: reads.length === 0 ? "0" : `(${reads.map(unconfirmedCount).join("+")})`, reads };
}

/** `at` is the cell the formula stands in; `fixed`: nothing moves where the formula is filled elsewhere. */
function written(
  reference: TemplateReference,
  context: Context,
  at: Address,
  layout: Layout,
  fixed: boolean,
): WrittenReference {
  if (reference.kind === "shapeChanged") return shapeChanged(layout);
  if (reference.kind === "failing") return failing(layout, at.row);
  if (reference.kind === "warningsCode") return warningsCode(layout);
  if (reference.kind === "assumptions") return assumptions(at.row, layout);
  if (reference.kind === "inputs") return inputsThatSay(reference.word, at.row, layout);
  if (reference.kind === "count") return counted(reference.word, at.row, layout);
  const target = resolve(reference, context, layout);
  if (typeof target === "string") return { text: "0", reads: [], problem: target };
  return { text: targetA1(target, fixed || context.kind === "row"), reads: [target.area] };
}

/** A template's formula, as it is written there, with addresses in place of references. */
export function write(formula: string, context: Context, at: Address, layout: Layout): Written {
  let text = "=";
  const reads: Area[] = [];
  const problems: string[] = [];
  for (const piece of templateFormula(formula).pieces) {
    if (piece.kind !== "template") {
      text += piece.text;
      continue;
    }
    const reference = written(piece.reference, context, at, layout, false);
    text += reference.text;
    reads.push(...reference.reads);
    if (reference.problem !== undefined) problems.push(reference.problem);
  }
  return { formula: text, reads, problems };
}

/** A part of a template's formula, to stand in another formula; its addresses stand still. */
export function writePart(
  part: FormulaNode | null,
  context: Context,
  at: Address,
  layout: Layout,
): Omit<Written, "formula"> & { readonly text: string } {
  const references = new Map<FormulaNode, WrittenReference>();
  for (const node of part ? partsOf(part) : [])
    if (node.type === "TemplateReference") references.set(node, written(node.reference, context, at, layout, true));
  const all = [...references.values()];
  return {
    text: writeNode(part, (node) => references.get(node)?.text),
    reads: all.flatMap(({ reads }) => reads),
    problems: all.flatMap(({ problem }) => problem ?? []),
  };
}
