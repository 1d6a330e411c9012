import { a1, type Area } from "../cells/index.ts";
import { columns, headings, widthOver } from "./columns.ts";
import type { Layout } from "./layout.ts";
import { own, type Filling } from "./planCells.ts";
import { markedTitle } from "./tableCells.ts";
import { linesIn } from "./textWidth.ts";

/** The headings of a block's rows. */
export function fillHeadings({ cells }: Filling, row: number): void {
  headings.forEach((heading, column) =>
    cells.put(row, column, column === columns.unit ? "headingIn" : "heading", heading),
  );
}

/** Where the workings begin and what they are; the titles of their blocks, and the headings of their rows. */
export function fillWorkings(filling: Filling): void {
  const { cells, layout } = filling;
  const { workings } = layout;
  if (!workings) return;
  cells.put(workings.title, columns.item, "block", "Workings");
  cells.carry(workings.title, "block", columns.item + 1, columns.mark);
  fillWorkingsNote(filling, workings.note);
  for (const [block, { title, headings: heads }] of workings.blocks) {
    cells.put(title, columns.item, "block", String(block.number));
    markedTitle(filling, title, "block", `${block.block.title}: workings`);
    if (heads !== undefined) fillHeadings(filling, heads);
  }
}

/** Where the workings stand and how they are printed; a formula, since rows may be inserted above. */
export function fillWorkingsNote({ cells, layout }: Filling, row: number): void {
  const { first, end } = workingRows(layout)!;
  const [before, behind] = [
    "The workings behind the results are in rows ",
    ", outside the print area: to print them, select these rows and print the selection.",
  ];
  const number = (of: number): string => `ROW(${a1({ row: of, column: columns.item }, true)})`;
  const at = (of: number): Area => ({ row: of, column: columns.item, rows: 1, columns: 1 });
  const formula = `="${before}"&${number(first)}&" to "&${number(end)}&"${behind}"`;
  cells.formula(row, columns.description, "note", own(formula, [at(first), at(end)]), "workings");
  cells.join(row, columns.description, columns.mark);
  const longest = `${before}0000 to 0000${behind}`;
  cells.raise(row, linesIn(longest, widthOver(columns.description, columns.mark)));
}

function workingRows({ workings, rows }: Layout): { readonly first: number; readonly end: number } | undefined {
  return workings && { first: workings.first, end: rows - 1 };
}
