import type { FileSheet } from "../../hosts/index.ts";
import { logoOfPlaced, plannedSnapshot } from "../../sheet/index.ts";
import { recogniseSnapshot } from "../recognise/recognise.ts";
import type { EquationReader } from "./equation.ts";
import { portableCopies, type PortableCopy, type PortableFacts, type SheetToCopy } from "./portablePlans.ts";

/** A planned sheet as it is copied. */
async function toCopy({ plan, values, sheetName }: FileSheet): Promise<SheetToCopy> {
  const formats = Array.from({ length: plan.rows }, () => Array.from({ length: plan.columns }, () => "General"));
  for (const { row, column, format } of plan.cells) if (format !== undefined) formats[row]![column] = format;
  const snapshot = { ...plannedSnapshot(plan, sheetName), cells: values };
  const looks = { formats, hiddenRows: [], hiddenColumns: [], sameColour: [], tooSmall: [] };
  const recognised = await recogniseSnapshot(snapshot);
  return { snapshot, looks, recognised, ...(plan.logo && { logo: logoOfPlaced(plan.logo) }) };
}

/** Computing copies of the sheets of a file, which refer to one another as the originals do. */
export async function copiesOfSheets(
  sheets: readonly FileSheet[],
  facts: PortableFacts,
  reader: EquationReader,
): Promise<readonly PortableCopy[]> {
  const all: SheetToCopy[] = [];
  for (const sheet of sheets) all.push(await toCopy(sheet));
  return portableCopies(all, facts, reader);
}
