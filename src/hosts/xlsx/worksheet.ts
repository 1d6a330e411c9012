import { a1, type Address, areaA1 } from "../../cells/index.ts";
import type { Values } from "../look/values.ts";
import type { Highlight, Plan } from "../../sheet/index.ts";
import { sheetData } from "./cells.ts";
import { columnMargin, defaultColumnWidth, defaultRowHeight, margins, type Heights } from "../look/measures.ts";
import type { SharedTexts } from "./sharedTexts.ts";
import { namespaceOfSheets, toneIndex, type StyleSheet } from "./styleSheet.ts";
import { validationXml } from "./validations.ts";
import { element, escaped, part, textElement } from "./xml.ts";

function sheetViews({ freeze: { rows, columns } }: Plan): string {
  const topLeft: Address = { row: rows, column: columns };
  const pane = rows > 0 && columns > 0 ? "bottomRight" : rows > 0 ? "bottomLeft" : "topRight";
  const first = { row: rows, column: columns };
  const inside =
    rows > 0 || columns > 0
      ? [
          element("pane", {
            xSplit: columns || undefined,
            ySplit: rows || undefined,
            topLeftCell: a1(topLeft),
            activePane: pane,
            state: "frozen",
          }),
          element("selection", { pane, activeCell: a1(first), sqref: a1(first) }),
        ]
      : [element("selection", { activeCell: "A1", sqref: "A1" })];
  return element(
    "sheetViews",
    {},
    element("sheetView", { showGridLines: 0, tabSelected: 1, workbookViewId: 0 }, ...inside),
  );
}

/** Rules for the same cells stand together. */
function conditionalFormats(highlights: readonly Highlight[]): readonly string[] {
  const byArea = new Map<string, string[]>();
  highlights.forEach((highlight, i) => {
    const area = areaA1(highlight, false);
    const text = `"${highlight.text.replaceAll('"', '""')}"`;
    const common = { dxfId: toneIndex(highlight.tone), priority: i + 1 };
    const rule = highlight.begins
      ? element(
          "cfRule",
          { type: "beginsWith", ...common, operator: "beginsWith", text: highlight.text },
          element("formula", {}, escaped(`LEFT(${a1(highlight)},${highlight.text.length})=${text}`)),
        )
      : element("cfRule", { type: "cellIs", ...common, operator: "equal" }, element("formula", {}, escaped(text)));
    byArea.set(area, [...(byArea.get(area) ?? []), rule]);
  });
  return [...byArea].map(([sqref, rules]) => element("conditionalFormatting", { sqref }, ...rules));
}

/** The footer in the file's own codes: centred, small (the space parts the size from a number that follows), `&` doubled. */
function footerCode(footer: string): string {
  return `&C&9 ${footer.replaceAll("&", "&&").replaceAll("{page}", "&P").replaceAll("{pages}", "&N").replaceAll("{sheet}", "&A")}`;
}

/** A break stands after the row it is named by, across all columns there can be. */
function pageBreaks(rows: readonly number[]): readonly string[] {
  return rows.length === 0
    ? []
    : [
        element(
          "rowBreaks",
          { count: rows.length, manualBreakCount: rows.length },
          ...rows.map((row) => element("brk", { id: row, max: 16_383, man: 1 })),
        ),
      ];
}

/** The sheet: its elements in the one order the file format allows. */
export function worksheetXml(
  plan: Plan,
  values: Values,
  heights: Heights,
  styleSheet: StyleSheet,
  texts: SharedTexts,
): string {
  return part(
    element(
      "worksheet",
      { xmlns: namespaceOfSheets, "xmlns:r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships" },
      element(
        "sheetPr",
        {},
        // The head of a group stands above its rows.
        ...(plan.groups ? [element("outlinePr", { summaryBelow: 0 })] : []),
        ...(plan.print.scale === undefined ? [element("pageSetUpPr", { fitToPage: 1 })] : []),
      ),
      element("dimension", { ref: areaA1({ row: 0, column: 0, rows: plan.rows, columns: plan.columns }, false) }),
      sheetViews(plan),
      element("sheetFormatPr", {
        defaultColWidth: defaultColumnWidth + columnMargin,
        defaultRowHeight,
        customHeight: 1,
        outlineLevelRow: plan.groups ? 1 : undefined,
      }),
      element(
        "cols",
        {},
        ...plan.widths.map((width, i) =>
          element("col", { min: i + 1, max: i + 1, width: width + columnMargin, customWidth: 1 }),
        ),
      ),
      sheetData(plan, values, heights, styleSheet, texts),
      // 0 allows: columns and rows may be made wider and higher to read what stands in them.
      element("sheetProtection", { sheet: 1, objects: 1, scenarios: 1, formatColumns: 0, formatRows: 0 }),
      ...(plan.spans.length > 0
        ? [
            element(
              "mergeCells",
              { count: plan.spans.length },
              ...plan.spans.map((span) => element("mergeCell", { ref: areaA1(span, false) })),
            ),
          ]
        : []),
      ...conditionalFormats(plan.highlights),
      ...(plan.validations.length > 0
        ? [element("dataValidations", { count: plan.validations.length }, ...plan.validations.map(validationXml))]
        : []),
      element("printOptions", { horizontalCentered: 1, headings: plan.print.addresses ? 1 : undefined }),
      element("pageMargins", margins),
      // Paper 9 is A4.
      element("pageSetup", {
        paperSize: 9,
        scale: plan.print.scale,
        fitToWidth: plan.print.scale === undefined ? (plan.print.pagesWide ?? 1) : undefined,
        fitToHeight: plan.print.scale === undefined ? 0 : undefined,
        pageOrder: plan.print.pagesWide ? "overThenDown" : undefined,
        orientation: plan.print.orientation,
      }),
      element("headerFooter", {}, textElement("oddFooter", footerCode(plan.print.footer))),
      ...pageBreaks(plan.print.breaks ?? []),
      ...(plan.charts.length > 0 ? [element("drawing", { "r:id": "rId1" })] : []),
    ),
  );
}
