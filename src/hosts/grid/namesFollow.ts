import type { ICommandInfo } from "@univerjs/core";
import type { PlannedName } from "../../sheet/index.ts";
import type { GridRuntime } from "./runtime.ts";
import type { SheetNames } from "./sheetNames.ts";

interface Params {
  readonly subUnitId?: string;
  readonly sheet?: { readonly id?: string; readonly name?: string };
}

/**
 * Names go with their sheet, as spreadsheet programs have it: a copy gets copies of them; they go with the sheet, and
 * come back when that is undone.
 */
export function followSheets({ api, core, univer }: GridRuntime, names: SheetNames): void {
  const commands = univer.__getInjector().get(core.ICommandService);
  /** What gone sheets had. */
  const gone = new Map<string, readonly PlannedName[]>();
  let copied: string | undefined;
  let made: Params["sheet"];
  const planned = (sheetId: string): readonly PlannedName[] =>
    names
      .on(sheetId)
      .flatMap(({ name, area }) =>
        area ? [{ name, row: area.row, column: area.column, rows: area.rows, columns: area.columns }] : [],
      );
  const paramsOf = ({ params }: Readonly<ICommandInfo>): Params => params ?? {};

  commands.beforeCommandExecuted((command) => {
    if (command.id === "sheet.command.copy-sheet")
      copied = paramsOf(command).subUnitId ?? api.getActiveWorkbook()?.getActiveSheet().getSheetId();
  });
  commands.onCommandExecuted((command) => {
    const { sheet, subUnitId } = paramsOf(command);
    switch (command.id) {
      case "sheet.mutation.insert-sheet": {
        made = sheet;
        const back = sheet?.id === undefined ? undefined : gone.get(sheet.id);
        if (!back) return;
        gone.delete(sheet!.id!);
        // After what else the grid does in this step, here and below.
        queueMicrotask(() => names.add(sheet!.id!, sheet!.name ?? "", back));
        return;
      }
      case "sheet.command.copy-sheet": {
        const own = copied === undefined ? [] : planned(copied);
        if (own.length > 0 && made?.id !== undefined && made.name !== undefined) names.add(made.id, made.name, own);
        return;
      }
      case "sheet.mutation.remove-sheet": {
        if (subUnitId === undefined) return;
        // Now they still know their cells.
        const own = planned(subUnitId);
        if (own.length === 0) return;
        gone.set(subUnitId, own);
        queueMicrotask(() => names.remove(subUnitId));
      }
    }
  });
}
