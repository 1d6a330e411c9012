import {
  a1,
  allOf,
  anyOf,
  areaA1,
  binaryNode,
  callNode,
  nameNode,
  numberNode,
  parseFormula,
  readCells,
  textNode,
  UnreadableFormula,
  writeNode,
  type Address,
  type FormulaNode,
} from "../../cells/index.ts";
import { assumedWord, measuredWord, officeWord, proposedWord } from "../../sheet/index.ts";

/** An input's cell and the value that a word beside it is about; null: it was left empty. */
export interface Watched extends Address {
  readonly value: string | number | null;
}

/** A word in the column of marks and the cells it is about. */
export interface WatchingWord {
  readonly word: string;
  readonly cells: readonly Watched[];
}

/** The words of marks that nobody typed, the one that is shown first where several stand. */
export const wordsInOrder: readonly string[] = [proposedWord, assumedWord, measuredWord, officeWord];

/** Said as long as one value is still as it was, so that none is taken for confirmed; the others only while all are. */
const whileAny: ReadonlySet<string> = new Set([proposedWord, assumedWord]);
export const isWhileAny = (word: string): boolean => whileAny.has(word);

/** Programs count 15 digits of a number typed into a formula. */
const digits = 15;

const cell = (at: Address): FormulaNode => nameNode(a1(at));
const range = (at: Address, rows: number): FormulaNode => nameNode(areaA1({ ...at, rows, columns: 1 }));
const constant = (value: string | number): FormulaNode =>
  typeof value === "number" ? numberNode(value) : textNode(value);

/** Whether a cell still holds the value. */
function stillHolds({ value, ...at }: Watched): FormulaNode {
  if (value === null) return binaryNode("=", cell(at), textNode(""));
  if (typeof value === "number" && Number(value.toPrecision(digits)) !== value) {
    const away = callNode(
      "ABS",
      binaryNode("-", callNode("N", cell(at)), numberNode(Number(value.toPrecision(digits)))),
    );
    return binaryNode("<=", away, numberNode(Number((Math.abs(value) * 1e-14).toPrecision(1))));
  }
  return binaryNode("=", cell(at), constant(value));
}

/** Texts that COUNTIF would take for a condition. */
const isCondition = (value: string | number | null): boolean =>
  value === null ||
  (typeof value === "string" ? /^[<>=]|[*?~]/.test(value) : Number(value.toPrecision(digits)) !== value);

/** Cells below each other that hold the same. */
function runsOf(cells: readonly Watched[]): readonly (readonly Watched[])[] {
  const runs: Watched[][] = [];
  for (const one of cells) {
    const last = runs.at(-1)?.at(-1);
    const joins = last?.column === one.column && last.row + 1 === one.row && last.value === one.value;
    if (joins && !isCondition(one.value)) runs.at(-1)!.push(one);
    else runs.push([one]);
  }
  return runs;
}

/** Programs take 255 arguments. */
const most = 200;

function gathered(
  conditions: readonly FormulaNode[],
  of: (...all: readonly FormulaNode[]) => FormulaNode,
): FormulaNode {
  if (conditions.length <= most) return of(...conditions);
  const groups = Array.from({ length: Math.ceil(conditions.length / most) }, (_, i) =>
    of(...conditions.slice(i * most, (i + 1) * most)),
  );
  return of(...groups);
}

function conditionOf({ word, cells }: WatchingWord): FormulaNode {
  const any = whileAny.has(word);
  const conditions = runsOf(cells).map((run) => {
    const [first] = run as [Watched];
    if (run.length === 1) return stillHolds(first);
    const count = callNode("COUNTIF", range(first, run.length), constant(first.value!));
    return any ? binaryNode(">", count, numberNode(0)) : binaryNode("=", count, numberNode(run.length));
  });
  return gathered(conditions, any ? anyOf : allOf);
}

/**
 * A mark that follows the inputs it is about: it shows a word while they hold the values that nobody typed, and nothing
 * once another value stands there.
 */
export function wordFormula(words: readonly WatchingWord[]): string {
  const ordered = wordsInOrder.flatMap((word) => words.filter((one) => one.word === word && one.cells.length > 0));
  const tree = ordered.reduceRight<FormulaNode>(
    (otherwise, one) => callNode("IF", conditionOf(one), textNode(one.word), otherwise),
    textNode(""),
  );
  return `=${writeNode(tree)}`;
}

function constantOf(node: FormulaNode | null | undefined): string | number | undefined {
  if (node?.type === "Literal" && typeof node.value !== "boolean") return node.value;
  if (node?.type !== "UnaryExpression" || node.operator !== "-") return undefined;
  const value = constantOf(node.arguments[0]);
  return typeof value === "number" ? -value : undefined;
}

const called = (node: FormulaNode | null | undefined, name: string): readonly (FormulaNode | null)[] | undefined =>
  node?.type === "CallExpression" && node.callee.name?.toUpperCase() === name ? node.arguments : undefined;

/** The cells of a reference to this sheet, from the top down. */
function cellsIn(node: FormulaNode | null | undefined): readonly Address[] {
  if (node?.type !== "ReferenceIdentifier") return [];
  const read = readCells(node.value);
  if (!read || read.sheet !== undefined || read.book !== undefined) return [];
  const { top, left, bottom, right } = read;
  if (top === null || left === null || bottom === null || right !== left) return [];
  return Array.from({ length: bottom - top + 1 }, (_, i) => ({ row: top + i, column: left }));
}

/** The cells that a condition looks at and the value it looks for, where it is one that stands for the word. */
function watchedBy(node: FormulaNode | null | undefined, any: boolean): readonly Watched[] | undefined {
  const gathers = called(node, any ? "OR" : "AND");
  if (gathers) {
    const parts = gathers.map((part) => watchedBy(part, any));
    return parts.every((part) => part !== undefined) ? parts.flat() : undefined;
  }
  if (node?.type !== "BinaryExpression") return undefined;
  const { operator } = node;
  const [left, right] = node.arguments;
  const watched = (of: FormulaNode | null | undefined, value: string | number | undefined) => {
    const cells = cellsIn(of);
    if (cells.length === 0 || value === undefined) return undefined;
    return cells.map((at): Watched => ({ ...at, value: value === "" ? null : value }));
  };
  const counted = called(left, "COUNTIF");
  if (counted) {
    const cells = watched(counted[0], constantOf(counted[1]));
    // Rows may have been inserted between them since.
    const count = Number(constantOf(right));
    const asked = any
      ? operator === ">" && count === 0
      : operator === "=" && count > 0 && count <= (cells?.length ?? 0);
    return asked ? cells : undefined;
  }
  const away = called(left, "ABS")?.[0];
  if (away) {
    if (away.type !== "BinaryExpression" || away.operator !== "-" || operator !== "<=") return undefined;
    return watched(called(away.arguments[0], "N")?.[0], constantOf(away.arguments[1]));
  }
  return operator === "=" && cellsIn(left).length === 1 ? watched(left, constantOf(right)) : undefined;
}

/** What a mark's formula says of which cells; undefined for a formula that is no such mark. */
export function readWordFormula(formula: string): readonly WatchingWord[] | undefined {
  let node: FormulaNode | null | undefined;
  try {
    node = parseFormula(formula);
  } catch (error) {
    if (!(error instanceof UnreadableFormula)) throw error;
    return undefined;
  }
  const words: WatchingWord[] = [];
  for (let branch = called(node, "IF"); branch; branch = called(node, "IF")) {
    const [condition, said, otherwise] = branch;
    const word = constantOf(said);
    if (typeof word !== "string" || !wordsInOrder.includes(word)) return undefined;
    const cells = watchedBy(condition, whileAny.has(word));
    if (!cells) return undefined;
    words.push({ word, cells });
    node = otherwise;
  }
  return words.length > 0 && constantOf(node) === "" ? words : undefined;
}
