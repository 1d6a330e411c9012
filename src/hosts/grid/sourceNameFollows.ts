import type { ICommandInfo } from "@univerjs/core";
import { nameOf, sourceSheetId } from "../../sheet/index.ts";
import { workbookId, type GridRuntime, type GridWorkbook } from "./runtime.ts";
import type { SheetNames } from "./sheetNames.ts";

const renamed = "sheet.mutation.set-worksheet-name";

interface Params {
  readonly subUnitId?: string;
  readonly name?: string;
}

const same = (name: string): string => name.trim().toLowerCase();

/**
 * A linked sheet says on its first page which sheet it is linked to. Its formulas follow when that is renamed, and so
 * do these words, also when the renaming is taken back or done again; they are no step of their own.
 */
export function sourceNameFollows({ core, univer }: GridRuntime, workbook: GridWorkbook, names: SheetNames): void {
  const commands = univer.__getInjector().get(core.ICommandService);
  const before = new Map<string, string>();

  /** Writes the new name where a linked sheet says the one before. */
  const write = (from: string, to: string): void => {
    for (const sheet of workbook.getSheets()) {
      const subUnitId = sheet.getSheetId();
      const area = names.on(subUnitId).find(({ name }) => same(name) === same(nameOf(sourceSheetId)))?.area;
      const said = area && sheet.getRange(area.row, area.column, 1, 1).getCellData();
      if (!area || typeof said?.v !== "string" || (said.f ?? "") !== "" || same(said.v) !== same(from)) continue;
      commands.syncExecuteCommand("sheet.mutation.set-range-values", {
        unitId: workbookId,
        subUnitId,
        cellValue: { [area.row]: { [area.column]: { v: to } } },
      });
    }
  };

  commands.beforeCommandExecuted(({ id, params }: Readonly<ICommandInfo>) => {
    const { subUnitId }: Params = params ?? {};
    const name = id === renamed && subUnitId !== undefined && workbook.getSheetBySheetId(subUnitId)?.getSheetName();
    if (subUnitId !== undefined && typeof name === "string") before.set(subUnitId, name);
  });
  commands.onCommandExecuted(({ id, params }: Readonly<ICommandInfo>) => {
    const { subUnitId = "", name }: Params = params ?? {};
    const from = before.get(subUnitId);
    if (id !== renamed || from === undefined || name === undefined) return;
    before.delete(subUnitId);
    // After what else the grid does in this step.
    queueMicrotask(() => write(from, name));
  });
}
