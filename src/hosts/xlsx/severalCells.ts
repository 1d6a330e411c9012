import type { BookCell } from "../workbook/workbook.ts";
import { fillsOrBinds } from "./storedFormula.ts";
import { namespaceOfSheets } from "./styleSheet.ts";
import { element, part } from "./xml.ts";

/** Whether a cell's formula fills several cells or may: files mark it, and say how far it reached. */
export function fillsSeveral({ formula, fills }: Pick<BookCell, "formula" | "fills">): boolean {
  return formula !== undefined && (fills !== undefined || fillsOrBinds(formula) !== undefined);
}

/** What a cell's mark `cm="1"` leads to: its formula fills as many cells as it gives values. */
export const metadataXml = part(
  element(
    "metadata",
    {
      xmlns: namespaceOfSheets,
      "xmlns:xda": "http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray",
    },
    element(
      "metadataTypes",
      { count: 1 },
      element("metadataType", {
        name: "XLDAPR",
        minSupportedVersion: 120000,
        copy: 1,
        pasteAll: 1,
        pasteValues: 1,
        merge: 1,
        splitFirst: 1,
        rowColShift: 1,
        clearFormats: 1,
        clearComments: 1,
        assign: 1,
        coerce: 1,
        cellMeta: 1,
      }),
    ),
    element(
      "futureMetadata",
      { name: "XLDAPR", count: 1 },
      element(
        "bk",
        {},
        element(
          "extLst",
          {},
          element(
            "ext",
            { uri: "{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}" },
            element("xda:dynamicArrayProperties", { fDynamic: 1, fCollapsed: 0 }),
          ),
        ),
      ),
    ),
    element("cellMetadata", { count: 1 }, element("bk", {}, element("rc", { t: 1, v: 0 }))),
  ),
);
