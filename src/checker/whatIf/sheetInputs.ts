import { type Address, cellAt } from "../../cells/index.ts";
import { allowedWords, plainSymbol, type InputCell, type InputSpec, type Says } from "../../sheet/index.ts";
import type { CellValue } from "../../hosts/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { members } from "../recognise/members.ts";
import { standing } from "../recognise/standing.ts";

/** A cell of an input where it stands now. */
export interface InputNow {
  readonly at: Address;
  readonly value: CellValue;
  /** "tendon 2, point 3"; empty for an input that is one cell. */
  readonly label: string;
  readonly cell: InputCell;
}

/** An input of a recognised sheet: one cell, or the cells of a table's column. */
export interface SheetInput {
  readonly id: string;
  /** "3.4" */
  readonly item: string;
  readonly description: string;
  readonly symbol: string;
  readonly unit: string;
  /** A number, or one of a few choices. */
  readonly kind: "number" | "choice";
  readonly allowed: string;
  readonly spec: InputSpec;
  readonly says: Says;
  readonly cells: readonly InputNow[];
}

/**
 * The numeric inputs and choices of a sheet, in its order; those whose cell is gone are left out, as are free texts
 * and what shapes the sheet.
 */
export function sheetInputs(recognised: Recognised): readonly SheetInput[] {
  const { plan, snapshot, inputCells } = recognised;
  const memberOf = members(recognised);
  const byId = new Map<string, InputNow[]>();
  for (const cell of inputCells) {
    if (cell.spec.freeText) continue;
    const at = standing(recognised, cell.at);
    if (!at) continue;
    const now: InputNow = { at, value: cellAt(snapshot, at.row, at.column).value, label: memberOf(cell.at), cell };
    byId.set(cell.id, [...(byId.get(cell.id) ?? []), now]);
  }
  return [...byId].map(([id, cells]): SheetInput => {
    const { spec, says } = cells[0]!.cell;
    const item = plan.meanings.find((m) => m.id === id)?.item ?? "";
    return {
      id,
      item,
      description: says.text,
      symbol: plainSymbol(says.symbol),
      unit: says.unit,
      kind: spec.choices ? "choice" : "number",
      allowed: allowedWords(spec, says),
      spec,
      says,
      cells,
    };
  });
}

/** "input μ (friction coefficient), tendon 2": how messages name a cell of an input. */
export function inputName(
  { symbol, description }: Pick<SheetInput, "symbol" | "description">,
  { label }: Pick<InputNow, "label">,
): string {
  return `input ${symbol === "–" ? description : `${symbol} (${description})`}${label && `, ${label}`}`;
}
