import type { FUniver } from "@univerjs/core/facade";
import type * as Core from "@univerjs/core";
import type * as Formula from "@univerjs/engine-formula";
import type * as Sheets from "@univerjs/preset-sheets-node-core";
// Brings the types of what the presets add to the program's facade.
import type {} from "@univerjs/preset-sheets-core";
import type {} from "@univerjs/sheets-conditional-formatting/facade";

/**
 * The grid's program as each platform loads it. Node has to `require` it and the browser to import it, so nothing here imports it directly:
 * what needs its classes is handed them.
 */
export interface GridRuntime {
  readonly core: typeof Core;
  readonly formula: typeof Formula;
  readonly univer: Core.Univer;
  readonly api: FUniver;
  /** Drawn on a screen: scrolling exists only there. */
  readonly onScreen: boolean;
  /** Keeps clicks and keys from the grid until the returned function is called. Only on a screen. */
  readonly hold?: () => () => void;
}

export type GridWorkbook = ReturnType<FUniver["createWorkbook"]>;
export type GridSheet = ReturnType<GridWorkbook["getActiveSheet"]>;

type Plugins = ReturnType<typeof Sheets.UniverSheetsNodeCorePreset>["plugins"];

/** Registers each plugin once: presets share some. A later mention carries the fuller configuration. */
export function registerPlugins(univer: Core.Univer, lists: readonly Plugins[]): void {
  const byName = new Map<string, Plugins[number]>();
  for (const plugin of lists.flat()) byName.set((Array.isArray(plugin) ? plugin[0] : plugin).pluginName, plugin);
  for (const plugin of byName.values()) {
    if (Array.isArray(plugin)) univer.registerPlugin(...plugin);
    else univer.registerPlugin(plugin);
  }
}

export const workbookId = "kernbook";
const firstSheetId = "first";
/**
 * The workbook a grid starts with: one empty sheet to try functions on. A new one each time, since the grid keeps and
 * changes what it is given.
 */
export const emptyWorkbook = () => ({
  id: workbookId,
  name: "Kernbook",
  sheetOrder: [firstSheetId],
  sheets: { [firstSheetId]: { id: firstSheetId, name: "Sheet1", rowCount: 200, columnCount: 20 } },
});
