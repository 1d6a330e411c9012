import type { ICommandInfo } from "@univerjs/core";
import { cut } from "../../cells/index.ts";
import { faultOfSheetName, freeSheetName, longestSheetName } from "../../sheet/index.ts";
import type { GridRuntime, GridWorkbook } from "./runtime.ts";

interface Params {
  readonly subUnitId?: string;
  name?: string;
  readonly sheet?: { name?: string };
}

/** The name of a copy with room for what the grid puts behind it. */
function shorter(name: string): string {
  const end = / \([^()]*\)$/.exec(name)?.[0] ?? "";
  return cut(name.slice(0, name.length - end.length), longestSheetName - end.length).trimEnd() + end;
}

/**
 * No sheet gets a name that spreadsheet programs do not take: the grid's own names of copies are often too long. A name
 * that somebody typed is changed, and said.
 */
export function allowedSheetNames(
  { core, univer }: GridRuntime,
  workbook: GridWorkbook,
  told: (text: string) => void,
): void {
  const taken = (but: string | undefined): readonly string[] =>
    workbook
      .getSheets()
      .filter((sheet) => sheet.getSheetId() !== but)
      .map((sheet) => sheet.getSheetName());
  univer
    .__getInjector()
    .get(core.ICommandService)
    .beforeCommandExecuted(({ id, params }: Readonly<ICommandInfo>) => {
      const given = (params ?? {}) as Params;
      if (id === "sheet.mutation.insert-sheet" && given.sheet?.name !== undefined) {
        if (faultOfSheetName(given.sheet.name) !== undefined)
          given.sheet.name = freeSheetName(shorter(given.sheet.name), taken(undefined));
      }
      if (id === "sheet.command.set-worksheet-name" && given.name !== undefined) {
        const fault = faultOfSheetName(given.name);
        if (fault === undefined) return;
        given.name = freeSheetName(given.name, taken(given.subUnitId));
        told(`${fault} It is named “${given.name}”.`);
      }
    });
}
