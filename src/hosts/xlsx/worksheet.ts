import { a1, type Address, areaA1, type Area, quotedText } from "../../cells/index.ts";
import { columnMargin, defaultColumnWidth, defaultRowHeight } from "../look/measures.ts";
import type { BookColourRule, BookPrint, BookSheet } from "../workbook/workbook.ts";
import { sheetData } from "./cells.ts";
import { storedFormula } from "./storedFormula.ts";
import type { SharedTexts } from "./sharedTexts.ts";
import { namespaceOfSheets, type StyleSheet } from "./styleSheet.ts";
import { entryXml } from "./validations.ts";
import { element, escaped, part, textElement } from "./xml.ts";

function sheetViews({ freeze: { rows, columns }, gridlines }: BookSheet, shown: boolean): string {
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
    element(
      "sheetView",
      { showGridLines: gridlines ? undefined : 0, tabSelected: shown ? 1 : undefined, workbookViewId: 0 },
      ...inside,
    ),
  );
}

/** The areas of a rule as files have them. */
const sqref = (areas: readonly Area[]): string => areas.map((area) => areaA1(area, false)).join(" ");

/** A condition on a text, as a formula that each program understands beside the rule's own words. */
function textRule(operator: string, cell: string, text: string): { readonly type: string; readonly formula: string } {
  const quoted = quotedText(text);
  switch (operator) {
    case "beginsWith":
      return { type: operator, formula: `LEFT(${cell},${text.length})=${quoted}` };
    case "endsWith":
      return { type: operator, formula: `RIGHT(${cell},${text.length})=${quoted}` };
    case "contains":
      return { type: "containsText", formula: `NOT(ISERROR(SEARCH(${quoted},${cell})))` };
    default:
      return { type: "notContainsText", formula: `ISERROR(SEARCH(${quoted},${cell}))` };
  }
}

function ruleXml({ areas, when, look, stop }: BookColourRule, priority: number, styleSheet: StyleSheet): string {
  const common = { dxfId: styleSheet.colour(look), priority, stopIfTrue: stop ? 1 : undefined };
  const formula = (text: string): string => element("formula", {}, escaped(text));
  if (when.kind === "formula")
    return element("cfRule", { type: "expression", ...common }, formula(storedFormula(when.formula)));
  if (when.kind === "number")
    return element(
      "cfRule",
      { type: "cellIs", ...common, operator: when.operator },
      ...when.formulas.map((text) => formula(storedFormula(text))),
    );
  if (when.operator === "equal")
    return element("cfRule", { type: "cellIs", ...common, operator: "equal" }, formula(quotedText(when.text)));
  const rule = textRule(when.operator, a1(areas[0]!), when.text);
  const operator = when.operator === "contains" ? "containsText" : when.operator;
  return element("cfRule", { type: rule.type, ...common, operator, text: when.text }, formula(rule.formula));
}

/** Rules for the same cells stand together. */
function conditionalFormats(colours: readonly BookColourRule[], styleSheet: StyleSheet): readonly string[] {
  const byArea = new Map<string, string[]>();
  colours.forEach((rule, i) => {
    const area = sqref(rule.areas);
    byArea.set(area, [...(byArea.get(area) ?? []), ruleXml(rule, i + 1, styleSheet)]);
  });
  return [...byArea].map(([area, rules]) => element("conditionalFormatting", { sqref: area }, ...rules));
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

function columnsXml({ widths }: BookSheet): readonly string[] {
  const columns = [...widths].sort(([a], [b]) => a - b);
  return columns.length === 0
    ? []
    : [
        element(
          "cols",
          {},
          ...columns.map(([i, { width, hidden }]) =>
            element("col", {
              min: i + 1,
              max: i + 1,
              width: width + columnMargin,
              hidden: hidden ? 1 : undefined,
              customWidth: 1,
            }),
          ),
        ),
      ];
}

function printXml(print: BookPrint | undefined): readonly string[] {
  if (!print) return [];
  const { centred, addresses, margins, paper, fit, scale, overThenDown, orientation, header, footer, breaks } = print;
  return [
    element("printOptions", { horizontalCentered: centred ? 1 : undefined, headings: addresses ? 1 : undefined }),
    ...(margins ? [element("pageMargins", margins)] : []),
    element("pageSetup", {
      paperSize: paper,
      scale,
      fitToWidth: fit?.wide,
      fitToHeight: fit?.high,
      pageOrder: overThenDown ? "overThenDown" : undefined,
      orientation,
    }),
    ...(header === undefined && footer === undefined
      ? []
      : [
          element(
            "headerFooter",
            {},
            ...(header === undefined ? [] : [textElement("oddHeader", header)]),
            ...(footer === undefined ? [] : [textElement("oddFooter", footer)]),
          ),
        ]),
    ...pageBreaks(breaks ?? []),
  ];
}

/** The sheet: its elements in the one order the file format allows. */
export function worksheetXml(sheet: BookSheet, shown: boolean, styleSheet: StyleSheet, texts: SharedTexts): string {
  const { rows, columns, spans, entries, print, groups } = sheet;
  return part(
    element(
      "worksheet",
      { xmlns: namespaceOfSheets, "xmlns:r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships" },
      ...(print?.fit || groups.length > 0
        ? [
            element(
              "sheetPr",
              {},
              // The head of a group stands above its rows.
              ...(groups.length > 0 ? [element("outlinePr", { summaryBelow: 0 })] : []),
              ...(print?.fit ? [element("pageSetUpPr", { fitToPage: 1 })] : []),
            ),
          ]
        : []),
      element("dimension", {
        ref: areaA1({ row: 0, column: 0, rows: Math.max(rows, 1), columns: Math.max(columns, 1) }, false),
      }),
      sheetViews(sheet, shown),
      element("sheetFormatPr", {
        defaultColWidth: defaultColumnWidth + columnMargin,
        defaultRowHeight,
        customHeight: 1,
        outlineLevelRow: groups.length > 0 ? 1 : undefined,
      }),
      ...columnsXml(sheet),
      sheetData(sheet, styleSheet, texts),
      // 0 allows: columns and rows may be made wider and higher to read what stands in them.
      ...(sheet.protected
        ? [element("sheetProtection", { sheet: 1, objects: 1, scenarios: 1, formatColumns: 0, formatRows: 0 })]
        : []),
      ...(spans.length > 0
        ? [
            element(
              "mergeCells",
              { count: spans.length },
              ...spans.map((span) => element("mergeCell", { ref: areaA1(span, false) })),
            ),
          ]
        : []),
      ...conditionalFormats(sheet.colours, styleSheet),
      ...(entries.length > 0 ? [element("dataValidations", { count: entries.length }, ...entries.map(entryXml))] : []),
      ...printXml(print),
      ...(sheet.charts.length > 0 || sheet.logo ? [element("drawing", { "r:id": "rId1" })] : []),
    ),
  );
}
