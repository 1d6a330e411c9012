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

/** A sheet of a file: its plan, and what each cell shows, by row and column of the plan. */
export interface FileSheet {
  readonly plan: Plan;
  readonly values: Values;
  readonly sheetName: string;
}

type Placed = FileSheet & { readonly heights: Heights };

function definedNames({ plan, heights, sheetName }: Placed, localSheetId: number): readonly string[] {
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
  return all.map(([name, reference]) => element("definedName", { name, localSheetId }, escaped(reference)));
}

function workbookXml(sheets: readonly Placed[]): string {
  return part(
    element(
      "workbook",
      { xmlns: namespaceOfSheets, "xmlns:r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships" },
      element(
        "bookViews",
        {},
        element("workbookView", { xWindow: 0, yWindow: 0, windowWidth: 28800, windowHeight: 15000 }),
      ),
      element(
        "sheets",
        {},
        ...sheets.map(({ sheetName }, i) =>
          element("sheet", { name: sheetName, sheetId: i + 1, "r:id": `rId${i + 1}` }),
        ),
      ),
      element("definedNames", {}, ...sheets.flatMap(definedNames)),
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
  return writeSheets([{ plan, values, sheetName }]);
}

/** Sheets in one file, in this order; the properties of the file are those of the first. */
export function writeSheets(sheets: readonly FileSheet[]): Uint8Array {
  for (const { sheetName } of sheets) {
    const fault = faultOfSheetName(sheetName);
    if (fault !== undefined) throw new Error(fault);
  }
  const styleSheet = new StyleSheet();
  const texts = new SharedTexts();
  const placed = sheets.map((sheet): Placed => ({ ...sheet, heights: rowHeights(sheet.plan, sheet.values) }));
  const worksheets = placed.map(({ plan, values, heights }) => worksheetXml(plan, values, heights, styleSheet, texts));
  const parts: Record<string, string> = {
    "[Content_Types].xml": contentTypesXml(sheets.map(({ plan }) => plan.charts.length)),
    "_rels/.rels": relationsXml([
      { type: relationTypes.workbook, target: "xl/workbook.xml" },
      { type: relationTypes.core, target: "docProps/core.xml" },
      { type: relationTypes.app, target: "docProps/app.xml" },
    ]),
    "docProps/core.xml": coreXml(sheets[0]!.plan),
    "docProps/app.xml": appXml,
    "xl/workbook.xml": workbookXml(placed),
    "xl/_rels/workbook.xml.rels": relationsXml([
      ...sheets.map((_, i) => ({ type: relationTypes.sheet, target: `worksheets/sheet${i + 1}.xml` })),
      { type: relationTypes.styles, target: "styles.xml" },
      { type: relationTypes.texts, target: "sharedStrings.xml" },
    ]),
    ...Object.fromEntries(worksheets.map((xml, i) => [`xl/worksheets/sheet${i + 1}.xml`, xml])),
    "xl/styles.xml": styleSheet.xml(),
    "xl/sharedStrings.xml": texts.xml(),
  };
  let charts = 0;
  placed.forEach((sheet, i) => {
    Object.assign(parts, drawingParts(sheet, i + 1, charts));
    charts += sheet.plan.charts.length;
  });
  return zipSync(Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)])), {
    mtime: noTime,
  });
}

/** The charts of a sheet; those of a file are numbered through. */
function drawingParts({ plan, values, sheetName, heights }: Placed, number: number, before: number) {
  const { charts } = plan;
  if (charts.length === 0) return {};
  const chartName = (i: number): string => `charts/chart${before + i + 1}.xml`;
  return {
    [`xl/worksheets/_rels/sheet${number}.xml.rels`]: relationsXml([
      { type: relationTypes.drawing, target: `../drawings/drawing${number}.xml` },
    ]),
    [`xl/drawings/drawing${number}.xml`]: drawingXml(charts, heights),
    [`xl/drawings/_rels/drawing${number}.xml.rels`]: relationsXml(
      charts.map((_, i) => ({ type: relationTypes.chart, target: `../${chartName(i)}` })),
    ),
    ...Object.fromEntries(charts.map((chart, i) => [`xl/${chartName(i)}`, chartXml(chart, sheetName, values)])),
  };
}
