import { placeOf } from "../../cells/index.ts";
import type { SheetName } from "../host/host.ts";

/** Names the program makes for its own ends: print areas, filters, advanced filters. */
const builtIn =
  /^(_xl|_FilterDatabase$|Print_Area$|Print_Titles$|Criteria$|Extract$|Database$|Consolidate_Area$|Sheet_Title$)/i;

/** The names that belong to the sheet alone. */
export async function namesOfSheet(sheet: Excel.Worksheet): Promise<readonly SheetName[]> {
  sheet.names.load("items/name,items/formula");
  await sheet.context.sync();
  return sheet.names.items.flatMap(({ name: written, formula }) => {
    // Some versions write the sheet before it.
    const name = written.slice(written.lastIndexOf("!") + 1);
    if (builtIn.test(name)) return [];
    const area = placeOf(String(formula));
    return [{ name, ...(area && { area }) }];
  });
}
