import type { Book } from "./book.ts";
import { keyOf, placeOfKey } from "./formulas.ts";

/** Every cell that has its value from a formula, its own or that of the block it lies in. */
export function allThatFollow({ formulas, blocks }: Book): ReadonlySet<number> {
  return blocks.first.size === 0 ? formulas.keys : new Set([...formulas.keys, ...blocks.first.keys()]);
}

/** The cells whose values can change with some cells: what reads them, and what reads those in turn; with what may read anything. */
export function following({ formulas, blocks }: Book, changed: readonly number[]): Set<number> {
  const dirty = new Set<number>();
  if (changed.length === 0) return dirty;
  const followed = new Set<number>();
  const next = [...changed, ...formulas.unfollowable.map(({ key }) => key)];
  for (const { key } of formulas.unfollowable) dirty.add(key);
  for (let key = next.pop(); key !== undefined; key = next.pop()) {
    for (const reader of formulas.readersOf(key, followed)) {
      if (dirty.has(reader)) continue;
      dirty.add(reader);
      next.push(reader);
    }
    const size = dirty.has(key) ? blocks.sizes.get(key) : undefined;
    if (!size) continue;
    const { sheet, row, column } = placeOfKey(key);
    for (let r = 0; r < size.rows; r++) {
      for (let c = 0; c < size.columns; c++) {
        const other = keyOf(sheet, row + r, column + c);
        if (dirty.has(other)) continue;
        dirty.add(other);
        next.push(other);
      }
    }
  }
  return dirty;
}
