import type { CellAlertManagerService } from "@univerjs/preset-sheets-core";
import type { GridRuntime, GridWorkbook } from "./runtime.ts";

const show = "sheet.operation.show-data-validation-dropdown";
const hide = "sheet.operation.hide-data-validation-dropdown";
const entering = "sheet.mutation.set-range-values";
/** The grid's own key of the box that tells what is invalid in the cell under the pointer. */
const alertKey = "SHEET_DATA_VALIDATION_ALERT";

interface Params {
  readonly subUnitId?: string;
  readonly row?: number;
  readonly column?: number;
  /** What is entered, by row and column. */
  readonly cellValue?: Readonly<Record<number, Readonly<Record<number, unknown>>>>;
}

/**
 * A list of choices that was opened by a click closes with Escape, and when another cell is selected: the grid leaves
 * it open beside the cell that was filled, and a click in it would change that one.
 */
export function closeLists({ core, univer }: GridRuntime, workbook: GridWorkbook): void {
  const commands = univer.__getInjector().get(core.ICommandService);
  let open: Params | undefined;
  const close = (): void => {
    if (!open) return;
    open = undefined;
    void commands.executeCommand(hide);
  };
  commands.onCommandExecuted(({ id, params }) => {
    if (id === show) open = params ?? {};
    if (id === hide) open = undefined;
  });
  workbook.onSelectionChange((ranges) => {
    const isThere = ranges.some(({ startRow, startColumn }) => startRow === open?.row && startColumn === open?.column);
    if (!isThere || workbook.getActiveSheet().getSheetId() !== open?.subUnitId) close();
  });
  window.addEventListener("keydown", ({ key }) => key === "Escape" && close(), { capture: true });
}

/** What is said of an invalid entry goes with the entry: the grid leaves it until the pointer moves to another cell. */
export function withdrawAlerts({ core, univer }: GridRuntime, alerts: CellAlertManagerService): void {
  univer
    .__getInjector()
    .get(core.ICommandService)
    .onCommandExecuted(({ id, params }) => {
      if (id !== entering) return;
      const { subUnitId, cellValue }: Params = params ?? {};
      const at = alerts.currentAlert.get(alertKey)?.alert.location;
      if (at && at.subUnitId === subUnitId && cellValue?.[at.row]?.[at.col] !== undefined) alerts.removeAlert(alertKey);
    });
}
