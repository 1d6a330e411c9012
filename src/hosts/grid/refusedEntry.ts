import type { DataValidatorRegistryService } from "@univerjs/preset-sheets-data-validation";
import type { GridWorkbook } from "./runtime.ts";

/** The grid's kinds of rules that built sheets have. */
const kinds = ["list", "decimal", "whole"];

/** A long text is not said whole. */
const longest = 60;

/**
 * The box that refuses an entry says what may be typed; here it also says what was typed. The grid has put that into
 * the cell while it looks whether it may stand there.
 */
export function nameRefused(registry: DataValidatorRegistryService, workbook: GridWorkbook): void {
  for (const kind of kinds) {
    const validator = registry.getValidatorItem(kind);
    if (!validator) throw new Error(`the grid has no rules of the kind “${kind}”`);
    const told = validator.getRuleFinalError.bind(validator);
    validator.getRuleFinalError = (rule, position) => {
      const { subUnitId, row, col } = position;
      const typed = workbook.getSheetBySheetId(subUnitId)?.getSheet().getCellRaw(row, col);
      const text = String(typed?.f ?? typed?.v ?? "");
      const said = told(rule, position);
      if (text === "") return said;
      return `“${text.length > longest ? `${text.slice(0, longest)} …` : text}” was not taken: ${said}`;
    };
  }
}
