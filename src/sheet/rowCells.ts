import { a1, textConstant } from "../cells/index.ts";
import { columns } from "./columns.ts";
import { brokenTexts, conflictMessage, judgeInput, neededText } from "./conflictCells.ts";
import { fitsAsDescription } from "./layout.ts";
import { areaAt, everydayOf, inputRole, own, type Filling } from "./planCells.ts";
import { judgements } from "./relations.ts";
import { putLink, statusOfLinks } from "./links.ts";
import type { Context } from "./resolve.ts";
import type { Role } from "./plan.ts";
import { belowColumns, lastOfChoice, rowTexts } from "./rowTexts.ts";
import { boundFormat, boundsOf, checkName, formatOf } from "./says.ts";
import type { ShapedRow } from "./shape.ts";
import { statusFormula } from "./status.ts";
import { markedSymbol, withoutMarks } from "./subscripts.ts";
import { withheldWhileMissing } from "./pass.ts";
import { namesFailing, write } from "./write.ts";

export const rowContext: Context = { kind: "row" };

/** One row: what it is, its value, how it comes about, its verdict and room for a mark. */
export function fillRow(filling: Filling, shaped: ShapedRow): void {
  const { cells, layout } = filling;
  const { row: spec, says, item } = shaped;
  const row = layout.itemRows.get(shaped)!;
  const area = areaAt(layout.values.get(shaped)!);
  cells.put(row, columns.item, "item", item);
  const worded = spec.input?.freeText === true || spec.words === true;
  const symbol = worded || says.symbol === "–" ? undefined : markedSymbol(says.symbol);
  const lastOfText = symbol === undefined ? columns.symbol : columns.symbol - 1;
  if (fitsAsDescription(says.text, lastOfText)) cells.put(row, columns.description, "description", says.text);
  else cells.sentence(row, "description", says.text, columns.description, lastOfText);
  if (symbol !== undefined) cells.put(row, columns.symbol, "symbol", symbol);
  // The overall verdict is larger than other words.
  const last = spec.overall ? columns.unit : lastOfChoice(spec.input);
  if (last > columns.value) cells.join(row, columns.value, last);
  else if (!worded) cells.put(row, columns.unit, "unit", says.unit);
  if (spec.taken !== undefined) fillLinked(filling, shaped, spec.taken);
  else if (spec.input) fillInput(filling, shaped);
  else fillComputed(filling, shaped);
  cells.mark(row);
  if (spec.overall) cells.overall = layout.values.get(shaped)!;
  if (spec.summary)
    cells.checks.push({
      id: says.id,
      description: checkName(shaped),
      utilisation: { row, column: columns.value },
      where: whereCell(filling, shaped),
      verdict: { row, column: columns.verdict },
      ...(spec.summary.aside && { aside: true as const }),
    });
  cells.name(says.id, area);
  cells.mean(says, item, area, { ...rowTexts(shaped, filling.sheet), namesRows: namesFailing(shaped.row) });
}

/** The cell that says where a check governs. */
export function whereCell({ layout }: Filling, shaped: ShapedRow): { readonly row: number; readonly column: number } {
  const row = layout.itemRows.get(shaped)!;
  return layout.texts.get(shaped)!.below > 0
    ? { row: row + 1, column: belowColumns.source }
    : { row, column: columns.source };
}

function fillInput(filling: Filling, shaped: ShapedRow): void {
  const { cells, layout } = filling;
  const { says, place } = shaped;
  const input = shaped.row.input!;
  const row = layout.itemRows.get(shaped)!;
  const area = areaAt(layout.values.get(shaped)!);
  const bounds = boundsOf(input, says.quantity);
  cells.put(row, columns.value, inputRole(input), filling.values.get(says.id)?.[0], says.format);
  cells.unlocked.push(area);
  if (input.freeText) {
    cells.join(row, columns.value, columns.source - 1);
    return;
  }
  const judged = judgements(filling.sheet, says.id);
  cells.texts(row, layout.texts.get(shaped)!.texts);
  if (judged.length > 0) {
    const { words, from, below } = layout.texts.get(shaped)!;
    const at = { row: row + below, column: from };
    conflictMessage(filling, at, row, judged, rowContext, textConstant(withoutMarks(words)), place, [
      { id: says.id, index: 0 },
    ]);
  }
  if (!input.choices) {
    cells.put(row, columns.from, "bound", bounds.min ?? bounds.above, boundFormat(bounds.min, bounds.above, "from"));
    cells.put(row, columns.to, "bound", bounds.max ?? bounds.below, boundFormat(bounds.max, bounds.below, "to"));
  }
  const cell = (column: number): string => a1({ row, column }, true);
  const status = statusFormula([
    {
      cell: cell(columns.value),
      input,
      bounds,
      from: cell(columns.from),
      to: cell(columns.to),
      ...everydayOf(says),
      broken: brokenTexts(filling, judged, rowContext, area),
      ...neededText(filling, input, rowContext, area),
    },
  ]);
  if (status) cells.formula(row, columns.verdict, "verdict", own(status, [area]), place);
  judgeInput(filling, says.id, input, rowContext, area, row);
  cells.validate(area, input, says);
}

/** The source's value, and whether it is there. */
function fillLinked(filling: Filling, shaped: ShapedRow, id: string): void {
  const at = filling.layout.values.get(shaped)!;
  filling.cells.texts(at.row, filling.layout.texts.get(shaped)!.texts);
  putLink(filling, at, id, 0, 1, shaped.place, formatOf(shaped.says));
  statusOfLinks(filling, at.row, [{ id, at }], shaped.place);
}

function roleOfValue({ row }: ShapedRow): Role {
  if (row.overall) return "overall";
  return row.words ? "description" : "value";
}

const failingLines = 2;

function fillComputed(filling: Filling, shaped: ShapedRow): void {
  const { cells, layout } = filling;
  const { row: spec, says, place } = shaped;
  const row = layout.itemRows.get(shaped)!;
  const at = { row, column: columns.value };
  const role = roleOfValue(shaped);
  cells.formula(row, columns.value, role, write(spec.formula!, rowContext, at, layout), place, formatOf(says));
  if (spec.words) cells.join(row, columns.value, columns.verdict - 1);
  // While a sheet is built hardly anything fails; what does later needs its room all the same.
  if (namesFailing(spec)) cells.raise(row, failingLines);
  cells.texts(row, layout.texts.get(shaped)!.texts);
  if (spec.summary?.where !== undefined) {
    const where = whereCell(filling, shaped);
    cells.formula(
      where.row,
      where.column,
      "source",
      write(spec.summary.where, rowContext, where, layout),
      `${place}, where`,
    );
  }
  if (spec.verdict === undefined) return;
  const verdict = { row, column: columns.verdict };
  const judged = withheldWhileMissing(spec.verdict, filling.sheet);
  cells.formula(row, columns.verdict, "verdict", write(judged, rowContext, verdict, layout), `${place}, verdict`);
}
