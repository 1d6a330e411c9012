import { areaA1, templateFormula, type Area } from "../cells/index.ts";
import { columns } from "./columns.ts";
import { firstOf, warnedRows } from "./layout.ts";
import type { Filling } from "./planCells.ts";
import { doubtsOf, judgement, type Doubt } from "./relations.ts";
import { contexts, type Context } from "./resolve.ts";
import { rowContext } from "./rowCells.ts";
import type { ShapedColumn, ShapedRow, ShapedTable } from "./shape.ts";
import { inputWarningsCall } from "./status.ts";
import { markedSymbol } from "./subscripts.ts";
import { typedInstead } from "./typedInstead.ts";
import { beforeWarning, spanned, write, writePart } from "./write.ts";

type Watched = ShapedRow | { readonly table: ShapedTable; readonly column: ShapedColumn };

/** The list of warnings: a line for every input with an everyday range and for every function that may warn. */
export function fillWarnings(filling: Filling, first: number): void {
  const { sheet, cells } = filling;
  let row = first;
  for (const watched of sheet.watched) fillWatched(filling, watched, row++);
  for (const warned of sheet.warned) row += fillWarned(filling, warned, row);
  for (const doubt of doubtsOf(sheet)) fillDoubt(filling, doubt, row++);
  if (row === first)
    cells.sentence(row, "note", "No function on this sheet lists warnings.", columns.description, columns.mark);
}

function warning(
  { cells }: Filling,
  row: number,
  text: string,
  reads: readonly Area[],
  problems: readonly string[],
  place: string,
): void {
  const formula = `="${beforeWarning}"&${text}`;
  cells.formula(row, columns.value, "warning", { formula, reads, problems }, `${place}, warnings`);
}

function fillWatched(filling: Filling, it: Watched, row: number): void {
  const { layout, cells } = filling;
  const { item, says, place } = "kind" in it ? it : { ...it.column, item: it.table.item };
  const area: Area =
    "kind" in it
      ? { ...layout.values.get(it)!, rows: 1, columns: 1 }
      : {
          row: firstOf(layout, it.table, it.column),
          column: it.column.at,
          rows: it.table.groups[0]!.rows,
          columns: 1,
        };
  cells.put(row, columns.description, "description", `input ${item}: ${markedSymbol(says.symbol)}, ${says.text}`);
  const range = areaA1(area, true);
  const call = inputWarningsCall(says.quantity!.key, range);
  const { input } = "kind" in it ? it.row : it.column.column;
  // An empty cell reaches functions as 0 in some programs, and 0 may be unusual.
  warning(filling, row, input?.mayBeEmpty ? `IF(COUNT(${range})=0,"",${call})` : call, [area], [], place);
}

/** Inputs that are allowed together, but seldom meant. */
function fillDoubt(filling: Filling, { input, relation }: Doubt, row: number): void {
  const { cells, layout, sheet } = filling;
  const { item, says, place } = input;
  cells.put(row, columns.description, "description", `input ${item}: ${markedSymbol(says.symbol)}, ${says.text}`);
  const { broken, message } = judgement(relation, sheet);
  const at = { row, column: columns.value };
  const { formula, reads, problems } = write(`IF(${broken},${message},"")`, rowContext, at, layout);
  warning(filling, row, formula.slice(1), reads, problems, place);
}

/** Gives how many lines it took. */
function fillWarned(filling: Filling, it: Watched, first: number): number {
  const { layout } = filling;
  if ("kind" in it) {
    const own: Area = { ...layout.values.get(it)!, rows: 1, columns: 1 };
    const description = `row ${it.item}: ${markedSymbol(it.says.symbol)}, ${it.says.text}`;
    line(filling, first, description, [rowContext], it.row.formula!, it.place, own);
    return 1;
  }
  const { table, column } = it;
  const all = contexts(table);
  const lines = warnedRows(table, column.column.warnAt!);
  lines.forEach((rows, i) => {
    const [from, to] = [rows[0]!, rows.at(-1)!];
    const { group, members } = all[from]!;
    // Of several rows the innermost member is left out.
    const named = from === to ? group.over : group.over.slice(0, -1);
    const where = named.map((d, k) => `, ${d.members[members[k]!]!.text}`).join("");
    line(
      filling,
      first + i,
      `row ${table.item}: ${markedSymbol(column.says.symbol)}, ${column.says.text}${where}`,
      from === to ? [all[from]!] : [all[from]!, all[to]!],
      column.column.formula ?? "",
      column.place,
      { row: firstOf(layout, table, column) + from, column: column.at, rows: to - from + 1, columns: 1 },
    );
  });
  return lines.length;
}

/** `asked`: the row asked about, or the first and last of several. */
function line(
  filling: Filling,
  row: number,
  description: string,
  asked: readonly Context[],
  formula: string,
  place: string,
  cell: Area,
): void {
  const { cells, layout } = filling;
  const { calls, tree } = templateFormula(formula);
  const [call] = calls;
  cells.put(row, columns.description, "description", description);
  if (!call) return;
  const at = { row, column: columns.value };
  const args = call.arguments.map((argument) =>
    spanned(asked.map((context) => writePart(argument, context, at, layout))),
  );
  const typed = typedInstead(tree);
  const text = [`"${call.id}"`, ...args.map((arg) => arg.text)].join(",");
  const reads = args.flatMap((arg) => arg.reads);
  const problems = args.flatMap((arg) => arg.problems);
  const asks = `KERN.WARNINGS(${text})`;
  // Where a value was typed in its place, the function has not been asked.
  if (typed) {
    const input = write(`ISNUMBER({${typed.id}})`, asked[0]!, at, layout);
    const unlessTyped = `IF(OR(${input.formula.slice(1)},ISTEXT(${areaA1(cell, true)})),"",${asks})`;
    return warning(
      filling,
      row,
      unlessTyped,
      [...reads, ...input.reads, cell],
      [...problems, ...input.problems],
      place,
    );
  }
  // A row that says in words why it computed nothing has asked no function.
  if (cell.rows > 1 || /^=?KERN\.[A-Z0-9_]+\([^()]*\)$/.test(formula))
    return warning(filling, row, asks, reads, problems, place);
  warning(filling, row, `IF(ISTEXT(${areaA1(cell, true)}),"",${asks})`, [...reads, cell], problems, place);
}
