import type { ICellData, ICommandInfo, Nullable } from "@univerjs/core";
import { a1, cut } from "../../cells/index.ts";
import { countText, faultOfFormula, limits } from "../xlsx/refusal.ts";
import type { GridRuntime, GridWorkbook } from "./runtime.ts";

interface Params {
  readonly subUnitId?: string;
  readonly cellValue?: Record<number, Nullable<Record<number, Nullable<ICellData>>>>;
}

const entering = "sheet.mutation.set-range-values";

/** A text of a cell, with looks of its own within it or without. */
function textIn({ v, p }: ICellData): string | undefined {
  const rich = p?.body?.dataStream.replace(/\r\n$/, "").replaceAll("\r", "\n");
  return rich ?? (typeof v === "string" ? v : undefined);
}

/**
 * No entry is longer than a cell of a workbook file may be, whether it is typed, pasted or written by a tool: a text is
 * cut, a formula becomes a text, and whoever entered it is told.
 */
export function limitEntries(
  { core, univer }: GridRuntime,
  workbook: GridWorkbook,
  told: (text: string) => void,
): void {
  const limit = ({ subUnitId, cellValue = {} }: Params): void => {
    const said: string[] = [];
    for (const [row, columns] of Object.entries(cellValue))
      for (const [column, cell] of Object.entries(columns ?? {})) {
        if (!cell) continue;
        const fault = cell.f ? faultOfFormula(cell.f) : undefined;
        const text = cell.f ? undefined : textIn(cell);
        const where = a1({ row: Number(row), column: Number(column) });
        if (fault !== undefined) {
          columns![Number(column)] = {
            ...cell,
            v: cut(cell.f!, limits.text),
            f: null,
            si: null,
            p: null,
            t: core.CellValueType.STRING,
          };
          said.push(`${where} was given ${fault} are allowed. It stands there as a text.`);
        } else if (text !== undefined && text.length > limits.text) {
          columns![Number(column)] = { ...cell, v: cut(text, limits.text), p: null, t: core.CellValueType.STRING };
          said.push(
            `${where} was given a text of ${countText(text.length)} characters; up to ${countText(limits.text)} are ` +
              "allowed. The rest was cut off.",
          );
        }
      }
    if (said.length === 0) return;
    const sheet = subUnitId === undefined ? undefined : workbook.getSheetBySheetId(subUnitId)?.getSheetName();
    const more = said.length > 1 ? ` The same holds for ${said.length - 1} more.` : "";
    told(`${sheet === undefined ? "" : `“${sheet}”: `}${said[0]}${more}`);
  };
  univer
    .__getInjector()
    .get(core.ICommandService)
    .beforeCommandExecuted(({ id, params }: Readonly<ICommandInfo>, options) => {
      // What formulas give is their own affair.
      if (id === entering && options?.fromFormula !== true) limit(params ?? {});
    });
}
