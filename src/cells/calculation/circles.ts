import type { Book } from "./book.ts";
import { keyOf } from "./formulas.ts";

/**
 * Whether formulas can refer to one another in a circle, whichever way their conditions go. Kept without depth: a cell
 * is left once all it can read is left, and one met again before that closes a circle.
 */
export function mayCircle(book: Book): boolean {
  const { formulas, blocks } = book;
  const giver = (key: number): number => blocks.first.get(key) ?? key;
  /** The formula cells of each range, the same for all that read it. */
  const ofRange = formulas.ranges.map(({ sheet, row, column, rows, columns }) => {
    const keys = new Set<number>();
    for (let r = row; r < row + rows; r++) {
      for (let c = column; c < column + columns; c++) {
        const key = giver(keyOf(sheet, r, c));
        if (formulas.cells.has(key)) keys.add(key);
      }
    }
    return [...keys];
  });
  // A range is a step of its own (−1, −2, …), so that a long one read by many cells is gone through once.
  const next = (node: number): readonly number[] => {
    if (node < 0) return ofRange[-1 - node]!;
    const cell = formulas.cells.get(node);
    return cell ? [...cell.reads.map(giver), ...cell.ranges.map((range) => -1 - range)] : [];
  };
  const left = new Set<number>();
  const within = new Set<number>();
  for (const from of formulas.cells.keys()) {
    const open: { readonly node: number; readonly rest: number[] }[] = [];
    const enter = (node: number): void => {
      within.add(node);
      open.push({ node, rest: [...next(node)] });
    };
    if (!left.has(from)) enter(from);
    for (let top = open.at(-1); top; top = open.at(-1)) {
      const node = top.rest.pop();
      if (node === undefined) {
        within.delete(top.node);
        left.add(top.node);
        open.pop();
      } else if (within.has(node)) return true;
      else if (!left.has(node)) enter(node);
    }
  }
  return false;
}
