import { a1, areaA1, type Area } from "../../cells/index.ts";
import { blocks } from "../host/blocks.ts";
import type { InsertedCell } from "../host/host.ts";
import { calculated } from "./calculated.ts";
import { workbookId, type GridRuntime, type GridSheet } from "./runtime.ts";
import { cellData, rangeOf } from "./sheetData.ts";

/** Takes back the step begun. Without the workbook in focus the grid would undo nothing and not say so. */
function takeBack({ core, univer }: GridRuntime, name: string): void {
  const injector = univer.__getInjector();
  injector.get(core.IUniverInstanceService).focusUnit(workbookId);
  if (!injector.get(core.ICommandService).syncExecuteCommand(core.UndoCommand.id))
    throw new Error(`writing into “${name}” was refused halfway and could not be taken back: look at what was written`);
}

/** The cells of a block. */
function within(all: ReturnType<typeof cellData>, { row, column, rows, columns }: Area): ReturnType<typeof cellData> {
  const out: ReturnType<typeof cellData> = {};
  for (let r = row; r < row + rows; r++) {
    const line: (typeof out)[number] = (out[r] = {});
    for (let c = column; c < column + columns; c++) line[c] = all[r]![c]!;
  }
  return out;
}

/** Writes into cells that may be typed in, over what they hold, as one step to undo: all or nothing. */
export async function enterCells(
  grid: GridRuntime,
  sheet: GridSheet,
  cells: readonly Pick<InsertedCell, "row" | "column" | "value" | "formula">[],
): Promise<void> {
  if (cells.length === 0) return;
  const name = sheet.getSheetName();
  const beyond = cells.find(({ row, column }) => row >= sheet.getMaxRows() || column >= sheet.getMaxColumns());
  if (beyond) throw new Error(`“${name}” ends before ${a1(beyond)}; nothing was written`);
  const locked = cells.find(({ row, column }) => !sheet.getWorksheetPermission().canEditCell(row, column));
  if (locked) throw new Error(`the cell ${a1(locked)} of “${name}” is protected; nothing was written`);
  const value = cellData(grid.core, cells);
  // What stood there goes with its formula; the look stays.
  for (const row of Object.values(value))
    for (const [column, cell] of Object.entries(row))
      row[Number(column)] = { v: null, f: null, si: null, p: null, t: null, ...cell };
  const injector = grid.univer.__getInjector();
  const commands = injector.get(grid.core.ICommandService);
  const undos = injector.get(grid.core.IUndoRedoService);
  // In blocks without gaps, since the grid asks leave for all that lies between; one step to undo all the same.
  const written = blocks(cells.map(({ row, column }) => ({ row, column, rows: 1, columns: 1 })));
  const step = undos.__tempBatchingUndoRedo(workbookId);
  let refused: Area | undefined;
  try {
    refused = written.find(
      (area) =>
        !commands.syncExecuteCommand("sheet.command.set-range-values", {
          unitId: workbookId,
          subUnitId: sheet.getSheetId(),
          range: rangeOf(area),
          value: within(value, area),
        }),
    );
  } finally {
    step.dispose();
  }
  if (refused) {
    if (refused !== written[0]) takeBack(grid, name);
    throw new Error(`the grid refused to write into ${areaA1(refused, false)} of “${name}”; nothing was written`);
  }
  await calculated(grid);
}
