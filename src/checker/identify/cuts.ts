import {
  compileTree,
  parseFormula,
  partsOf,
  withPart,
  withPrefix,
  writeNode,
  type Book,
  type FormulaCell,
  type FormulaNode,
} from "../../cells/index.ts";
import { callsOurs } from "./ours.ts";
import { partKey, partReference, Program, readBy, valueAt } from "./program.ts";

/** One way to look at a formula: how far it is followed, and the cells that are then its inputs. */
export interface Cut {
  /** Numbers of the input cells, in the order they are met. */
  readonly inputs: readonly number[];
  /** The formula itself and those behind it that are computed. */
  readonly steps: readonly FormulaCell[];
  /** A part of the formula that is an input as a whole, as written, its value, and the formula around it. */
  readonly part?: { readonly text: string; readonly value: number; readonly around: FormulaNode };
}

const mostInputs = 12;
const mostCuts = 14;
const mostSteps = 60;

/** Whether a cell's formula is followed, or its value is taken as it is. */
function canFollow(book: Book, key: number): FormulaCell | undefined {
  const cell = book.formulas.cells.get(key);
  return cell && cell.unfollowable === undefined && !callsOurs(cell.formula) ? cell : undefined;
}

/** The cut in which some formulas are followed and all others are inputs; undefined where it has too many inputs. */
function cutWhere(book: Book, cell: FormulaCell, follow: (key: number, depth: number) => boolean): Cut | undefined {
  const inputs = new Set<number>();
  const steps = new Map<number, FormulaCell>();
  const walk = (at: FormulaCell, depth: number): boolean => {
    if (steps.has(at.key)) return true;
    steps.set(at.key, at);
    if (steps.size > mostSteps) return false;
    for (const key of readBy(book, at)) {
      const behind = canFollow(book, key);
      if (behind && follow(key, depth)) {
        if (!walk(behind, depth + 1)) return false;
      } else if (typeof valueAt(book, key) === "number") inputs.add(key);
      if (inputs.size > mostInputs + 4) return false;
    }
    return true;
  };
  if (!walk(cell, 1) || inputs.size > mostInputs || inputs.size === 0) return undefined;
  return { inputs: [...inputs], steps: [...steps.values()] };
}

/** A formula followed to the values typed in. */
export const wholeCut = (book: Book, cell: FormulaCell): Cut | undefined => cutWhere(book, cell, () => true);

/**
 * The ways to look at a formula: by itself, followed one step, two steps … to the typed values, and each of the steps in
 * between taken as an input or followed by itself.
 */
export function cutsOf(book: Book, cell: FormulaCell): readonly Cut[] {
  const cuts: Cut[] = [];
  const seen = new Set<string>();
  const add = (cut: Cut | undefined): void => {
    if (!cut || cuts.length >= mostCuts) return;
    const text = [...cut.inputs].sort((a, b) => a - b).join();
    if (seen.has(text)) return;
    seen.add(text);
    cuts.push(cut);
  };
  for (let depth = 1; depth <= 5; depth++) add(cutWhere(book, cell, (_key, at) => at < depth));
  add(wholeCut(book, cell));
  const direct = readBy(book, cell).filter((key) => canFollow(book, key));
  const within = new Set<number>(direct);
  for (const key of direct) {
    const behind = canFollow(book, key)!;
    for (const further of readBy(book, behind)) if (canFollow(book, further)) within.add(further);
  }
  // One of them followed, the others not; then one of them not followed, all others to the end.
  for (const one of direct) add(cutWhere(book, cell, (key) => key === one));
  for (const one of within) add(cutWhere(book, cell, (key) => key !== one));
  return cuts;
}

const mostParts = 8;

/** The parts of a formula that can be an input as a whole: more than one reference or a typed number, less than the formula. */
function partsIn(tree: FormulaNode): readonly FormulaNode[] {
  const out: FormulaNode[] = [];
  for (const part of partsOf(tree)) {
    if (part === tree || (part.type !== "BinaryExpression" && part.type !== "CallExpression")) continue;
    let references = 0;
    for (const within of partsOf(part)) if (within.type === "ReferenceIdentifier") references++;
    if (references > 0) out.push(part);
  }
  // From the inside out: what is around a smaller part is more of the formula.
  return out.reverse().slice(0, mostParts);
}

/** The same for a formula in which a part is an input as a whole, such as the mean strength in `22*((B5+8)/10)^0.3`. */
export function cutsWithPart(book: Book, cell: FormulaCell): readonly Cut[] {
  const tree = parseFormula(withPrefix(cell.formula));
  const { row, column, sheet, key } = cell;
  return partsIn(tree).flatMap((part) => {
    const rest = withPart(tree, part, partReference);
    const compiled = compileTree(rest, row, column, book.functions);
    const around: FormulaCell = { ...cell, compiled, ...book.formulas.reading(compiled, sheet, row, column) };
    const own = compileTree(part, row, column, book.functions);
    const alone: FormulaCell = { ...cell, compiled: own, ...book.formulas.reading(own, sheet, row, column) };
    const value = new Program(book, alone, [], [alone], part).run([]);
    if (!Number.isFinite(value)) return [];
    const inputs = readBy(book, around).filter((read) => read !== partKey && typeof valueAt(book, read) === "number");
    if (inputs.length + 1 > mostInputs || inputs.includes(key)) return [];
    return [{ inputs: [...inputs, partKey], steps: [around], part: { text: writeNode(part), value, around: rest } }];
  });
}
