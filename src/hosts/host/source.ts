import type { Snapshot } from "../../cells/index.ts";
import type { Plan } from "../../sheet/index.ts";
import type { Host } from "./host.ts";

/** The sheet that a linked sheet takes its values from is gone or no longer as it was when the plan was made. */
export class SourceChanged extends Error {
  override readonly name = "SourceChanged";
}

/**
 * Refuses a linked sheet whose source is not there with every name the plan relies on, each where the plan refers to:
 * its formulas would show other cells.
 */
export async function checkSource({ source }: Plan, host: Pick<Host, "sheetNames" | "namesOn">): Promise<void> {
  if (!source) return;
  const { sheet, names } = source;
  const there = (await host.sheetNames()).find((name) => name.toLowerCase() === sheet.toLowerCase());
  if (there === undefined)
    throw new SourceChanged(`The workbook has no sheet “${sheet}” to link to. Build it first, or choose another.`);
  const now = new Map((await host.namesOn(there)).map(({ name, area }) => [name.toLowerCase(), area]));
  const other = names.filter(({ name, ...planned }) => {
    const area = now.get(name.toLowerCase());
    return (
      area?.sheet.toLowerCase() !== sheet.toLowerCase() ||
      area.row !== planned.row ||
      area.column !== planned.column ||
      area.rows !== planned.rows
    );
  });
  if (other.length === 0) return;
  const some = other.slice(0, 3).map(({ name }) => name);
  throw new SourceChanged(
    `On “${sheet}” the cells of ${some.join(", ")}${other.length > 3 ? ` and ${other.length - 3} more` : ""} ` +
      "are gone or stand elsewhere than a moment ago. Nothing was built; try again.",
  );
}

/** The source as it stands, so that a linked plan can be computed beside it. */
export async function sourceSheets({ source }: Plan, host: Pick<Host, "used" | "read">): Promise<readonly Snapshot[]> {
  if (!source) return [];
  const { sheet } = source;
  const { rows, columns } = await host.used(sheet);
  // From the first cell on, as formulas count.
  const cells = await host.read(sheet, { row: 0, column: 0, rows, columns });
  return [{ sheet, rows, columns, cells, names: new Map() }];
}
