import { areaA1, quotedSheet } from "../../cells/index.ts";
import type { Values } from "../look/values.ts";
import { strToU8, zipSync } from "fflate";
import { faultOfSheetName, type Plan } from "../../sheet/index.ts";
import { chartXml, drawingXml } from "./chart.ts";
import { rowHeights, type Heights } from "../look/measures.ts";
import { contentTypesXml, relationsXml, relationTypes } from "./package.ts";
import { printAreas } from "../look/printAreas.ts";
import { SharedTexts } from "./sharedTexts.ts";
import { namespaceOfSheets, StyleSheet } from "./styleSheet.ts";
import { worksheetXml } from "./worksheet.ts";
import { element, escaped, part, textElement } from "./xml.ts";

/** Files of the same plan are the same, byte by byte. The zip format counts years from 1980. */
const noTime = new Date(1980, 0, 1);

function definedNames(plan: Plan, heights: Heights, sheetName: string): readonly string[] {
  const sheet = quotedSheet(sheetName);
  const [first, last] = plan.print.titleRows;
  const all: readonly (readonly [string, string])[] = [
    ...plan.names.map(({ name, ...area }) => [name, `${sheet}!${areaA1(area)}`] as const),
    [
      "_xlnm.Print_Area",
      printAreas(plan, heights)
        .map((area) => `${sheet}!${areaA1(area)}`)
        .join(","),
    ],
    ["_xlnm.Print_Titles", `${sheet}!$${first + 1}:$${last + 1}`],
  ];
  return all.map(([name, reference]) => element("definedName", { name, localSheetId: 0 }, escaped(reference)));
}

function workbookXml(plan: Plan, heights: Heights, sheetName: string): string {
  return part(
    element(
      "workbook",
      { xmlns: namespaceOfSheets, "xmlns:r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships" },
      element(
        "bookViews",
        {},
        element("workbookView", { xWindow: 0, yWindow: 0, windowWidth: 28800, windowHeight: 15000 }),
      ),
      element("sheets", {}, element("sheet", { name: sheetName, sheetId: 1, "r:id": "rId1" })),
      element("definedNames", {}, ...definedNames(plan, heights, sheetName)),
      // No forced calculation on loading: it would wipe the values where the functions are not loaded.
      element("calcPr", { calcId: 191029 }),
    ),
  );
}

function coreXml({ template, hash }: Plan): string {
  return part(
    element(
      "cp:coreProperties",
      {
        "xmlns:cp": "http://schemas.openxmlformats.org/package/2006/metadata/core-properties",
        "xmlns:dc": "http://purl.org/dc/elements/1.1/",
      },
      textElement("dc:title", template.title),
      textElement("dc:subject", `${template.id} ${template.version}, ${hash}`),
      textElement("dc:creator", "Kernbook"),
    ),
  );
}

/** With another application's name, programs that keep the values of the last calculation would compute anew, without the functions. */
const appXml = part(
  element(
    "Properties",
    { xmlns: "http://schemas.openxmlformats.org/officeDocument/2006/extended-properties" },
    element("Application", {}, "Microsoft Excel"),
    element("AppVersion", {}, "16.0300"),
  ),
);

/**
 * The plan as an .xlsx file. `values` holds what each cell shows, by row and column of the plan, so that the file reads
 * right without the worksheet functions too; with them loaded every formula computes. Throws where something cannot be
 * kept in a file.
 */
export function writeWorkbook(plan: Plan, values: Values, sheetName: string): Uint8Array {
  const fault = faultOfSheetName(sheetName);
  if (fault !== undefined) throw new Error(fault);
  const styleSheet = new StyleSheet();
  const texts = new SharedTexts();
  const heights = rowHeights(plan, values);
  const sheet = worksheetXml(plan, values, heights, styleSheet, texts);
  const { charts } = plan;
  const parts: Record<string, string> = {
    "[Content_Types].xml": contentTypesXml(charts.length),
    "_rels/.rels": relationsXml([
      { type: relationTypes.workbook, target: "xl/workbook.xml" },
      { type: relationTypes.core, target: "docProps/core.xml" },
      { type: relationTypes.app, target: "docProps/app.xml" },
    ]),
    "docProps/core.xml": coreXml(plan),
    "docProps/app.xml": appXml,
    "xl/workbook.xml": workbookXml(plan, heights, sheetName),
    "xl/_rels/workbook.xml.rels": relationsXml([
      { type: relationTypes.sheet, target: "worksheets/sheet1.xml" },
      { type: relationTypes.styles, target: "styles.xml" },
      { type: relationTypes.texts, target: "sharedStrings.xml" },
    ]),
    "xl/worksheets/sheet1.xml": sheet,
    "xl/styles.xml": styleSheet.xml(),
    "xl/sharedStrings.xml": texts.xml(),
  };
  if (charts.length > 0) {
    parts["xl/worksheets/_rels/sheet1.xml.rels"] = relationsXml([
      { type: relationTypes.drawing, target: "../drawings/drawing1.xml" },
    ]);
    parts["xl/drawings/drawing1.xml"] = drawingXml(charts, heights);
    parts["xl/drawings/_rels/drawing1.xml.rels"] = relationsXml(
      charts.map((_, i) => ({ type: relationTypes.chart, target: `../charts/chart${i + 1}.xml` })),
    );
    charts.forEach((chart, i) => (parts[`xl/charts/chart${i + 1}.xml`] = chartXml(chart, sheetName, values)));
  }
  return zipSync(Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)])), {
    mtime: noTime,
  });
}
