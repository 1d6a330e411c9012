import type { Area } from "../../cells/index.ts";
import type { GridSheet } from "./runtime.ts";

/**
 * By row and column of an area: whether the cell refuses whatever is typed. The first rule that covers a cell decides,
 * so that the grid, which goes through all of them for each cell, is asked once for each rule.
 */
export async function lockedCells(sheet: GridSheet, area: Area): Promise<readonly (readonly boolean[])[]> {
  const permission = sheet.getWorksheetPermission();
  const rules = await permission.listRangeProtectionRules();
  const deciding = Array.from({ length: area.rows }, () => Array.from({ length: area.columns }, () => -1));
  for (let i = rules.length - 1; i >= 0; i--)
    for (const range of rules[i]!.ranges) {
      const [top, left] = [range.getRow() - area.row, range.getColumn() - area.column];
      const right = Math.min(area.columns, left + range.getWidth());
      for (let r = Math.max(0, top); r < Math.min(area.rows, top + range.getHeight()); r++)
        deciding[r]!.fill(i, Math.max(0, left), Math.max(0, right));
    }
  const locked = new Map<number, boolean>();
  return deciding.map((line, r) =>
    line.map((rule, c) => {
      const known = locked.get(rule) ?? !permission.canEditCell(area.row + r, area.column + c);
      locked.set(rule, known);
      return known;
    }),
  );
}
