import { a1, type Address } from "../cells/index.ts";
import { columns } from "./columns.ts";
import type { ConflictCells } from "./plan.ts";
import type { Filling } from "./planCells.ts";
import { conflict, firstMessage, type Judgement } from "./relations.ts";
import type { Context } from "./resolve.ts";
import type { InputSpec } from "./template.ts";
import { write } from "./write.ts";

/** The conditions of an input's relations as the status cell of a row asks them. */
export function brokenTexts(
  { layout }: Filling,
  judged: readonly Judgement[],
  context: Context,
  at: Address,
): readonly string[] {
  return judged.map((one) => write(one.broken, context, at, layout).formula.slice(1));
}

/** The condition under which an input that may stay empty is needed, as the status cell asks it. */
export function neededText(
  { layout }: Filling,
  input: InputSpec,
  context: Context,
  at: Address,
): { readonly needed?: string } {
  return input.neededWhere === undefined
    ? {}
    : { needed: write(input.neededWhere, context, at, layout).formula.slice(1) };
}

/** "right end, tendon 2": which row of a table; empty for a row by itself. */
function whereIn(context: Context): string {
  return context.kind === "row"
    ? ""
    : context.group.over.map((d, i) => d.members[context.members[i]!]!.text).join(", ");
}

/** Notes an input cell that has to be filled in, at least where another says so. */
export function judgeInput(
  { cells }: Filling,
  id: string,
  input: InputSpec,
  context: Context,
  at: Address,
  statusRow: number,
): void {
  if (input.freeText || (input.mayBeEmpty && input.neededWhere === undefined)) return;
  cells.judged.push({
    id,
    index: context.kind === "row" ? 0 : context.row,
    where: whereIn(context),
    at: { row: at.row, column: at.column },
    status: { row: statusRow, column: columns.verdict },
    ...(input.choices && { words: true as const }),
    ...(input.mayBeEmpty && { sometimes: true as const }),
  });
}

/** Beside a status that says CONFLICT: why. `status` is the row of the verdict. */
export function conflictMessage(
  { cells, layout }: Filling,
  at: Address,
  statusRow: number,
  judged: readonly Judgement[],
  context: Context,
  otherwise: string,
  place: string,
  of: ConflictCells["of"],
): void {
  const status = { row: statusRow, column: columns.verdict };
  const last = judged.at(-1)!.message;
  // Apart from the status and the text, what is asked is the same in each row of a table, and read once.
  const message = write(firstMessage(judged.slice(0, -1), last), context, at, layout);
  const formula = `=IF(${a1(status, true)}="${conflict}",${message.formula.slice(1)},${otherwise})`;
  cells.formula(at.row, at.column, "equation", { ...message, formula }, `${place}, relations`);
  cells.conflicts.push({ of, where: whereIn(context), status, message: at });
}
