import { areaA1, columnLetters, quotedSheet } from "../../cells/index.ts";
import type { Values } from "../look/values.ts";
import { strToU8, zipSync } from "fflate";
import type { PlacedLogo, Plan } from "../../sheet/index.ts";
import { functionNames, workbookOfPlan } from "../workbook/fromPlan.ts";
import { valuesOf, type BookProperties, type BookSheet, type Workbook } from "../workbook/workbook.ts";
import { fillsSeveral, metadataXml } from "./severalCells.ts";
import { sizeOf } from "../look/plotArea.ts";
import { chartXml, drawingXml } from "./chart.ts";
import { pictureOf } from "./logo.ts";
import { contentTypesXml, relationsXml, relationTypes, type contentTypes } from "./package.ts";
import { SharedTexts } from "./sharedTexts.ts";
import { fillsOrBinds, storedExpression } from "./storedFormula.ts";
import { namespaceOfSheets, StyleSheet } from "./styleSheet.ts";
import { worksheetXml } from "./worksheet.ts";
import { element, escaped, part, textElement } from "./xml.ts";

/** Files of the same workbook are the same, byte by byte. The zip format counts years from 1980. */
const noTime = new Date(1980, 0, 1);

function printNames({ name, print }: BookSheet): readonly (readonly [string, string])[] {
  const sheet = quotedSheet(name);
  const rows = print?.titleRows;
  const columns = print?.titleColumns?.map(columnLetters);
  const titles = [
    ...(columns ? [`${sheet}!$${columns[0]}:$${columns[1]}`] : []),
    ...(rows ? [`${sheet}!$${rows[0] + 1}:$${rows[1] + 1}`] : []),
  ];
  return [
    ...(print && print.areas.length > 0
      ? [["_xlnm.Print_Area", print.areas.map((area) => `${sheet}!${areaA1(area)}`).join(",")] as const]
      : []),
    ...(titles.length > 0 ? [["_xlnm.Print_Titles", titles.join(",")] as const] : []),
  ];
}

function definedNames({ sheets, names }: Workbook): readonly string[] {
  const one = (name: string, reference: string, localSheetId?: number, hidden?: boolean): string =>
    element(
      "definedName",
      { name, localSheetId, hidden: hidden ? 1 : undefined },
      escaped(storedExpression(reference)),
    );
  return [
    ...names.map(({ name, reference, hidden }) => one(name, reference, undefined, hidden)),
    ...sheets.flatMap((sheet, i) => [
      ...sheet.names.map(({ name, reference, hidden }) => one(name, reference, i, hidden)),
      ...printNames(sheet).map(([name, reference]) => one(name, reference, i)),
    ]),
  ];
}

function workbookXml(book: Workbook): string {
  const names = definedNames(book);
  return part(
    element(
      "workbook",
      { xmlns: namespaceOfSheets, "xmlns:r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships" },
      element(
        "bookViews",
        {},
        element("workbookView", {
          xWindow: 0,
          yWindow: 0,
          windowWidth: 28800,
          windowHeight: 15000,
          activeTab: book.shown || undefined,
        }),
      ),
      element(
        "sheets",
        {},
        ...book.sheets.map(({ name, hidden }, i) =>
          element("sheet", { name, sheetId: i + 1, state: hidden ? "hidden" : undefined, "r:id": `rId${i + 1}` }),
        ),
      ),
      ...(names.length > 0 ? [element("definedNames", {}, ...names)] : []),
      // No forced calculation on loading: it would wipe the values where the functions are not loaded.
      element("calcPr", { calcId: 191029 }),
    ),
  );
}

function coreXml({ title, subject, creator }: BookProperties): string {
  return part(
    element(
      "cp:coreProperties",
      {
        "xmlns:cp": "http://schemas.openxmlformats.org/package/2006/metadata/core-properties",
        "xmlns:dc": "http://purl.org/dc/elements/1.1/",
      },
      ...(title === undefined ? [] : [textElement("dc:title", title)]),
      ...(subject === undefined ? [] : [textElement("dc:subject", subject)]),
      ...(creator === undefined ? [] : [textElement("dc:creator", creator)]),
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

/** The pictures of a file, each once however many sheets show it. */
class Pictures {
  readonly #names = new Map<string, string>();
  readonly kinds = new Set<string>();
  readonly parts: Record<string, Uint8Array> = {};

  /** Its part, as counted from the folder of the workbook. */
  partOf(logo: PlacedLogo): string {
    const known = this.#names.get(logo.image);
    if (known !== undefined) return known;
    const { kind, bytes } = pictureOf(logo);
    const name = `media/image${this.#names.size + 1}.${kind}`;
    this.#names.set(logo.image, name);
    this.kinds.add(kind);
    this.parts[`xl/${name}`] = bytes;
    return name;
  }
}

/**
 * A workbook as an .xlsx file: it reads right without the worksheet functions too, since each formula has its value beside it; with them
 * loaded every formula computes. Throws where something cannot be kept in a file.
 */
export function writeBook(book: Workbook): Uint8Array {
  const styleSheet = new StyleSheet();
  const texts = new SharedTexts();
  const parts = new Map<string, string>();
  const drawings: [string, keyof typeof contentTypes][] = [];
  const charts: [string, keyof typeof contentTypes][] = [];
  const pictures = new Pictures();
  const sheets = book.sheets.map((sheet, i) => {
    const name = `xl/worksheets/sheet${i + 1}.xml`;
    parts.set(name, worksheetXml(sheet, (book.shown ?? 0) === i, styleSheet, texts));
    if (sheet.charts.length > 0 || sheet.logo) {
      const values = valuesOf(sheet);
      const number = drawings.length + 1;
      const drawing = `xl/drawings/drawing${number}.xml`;
      drawings.push([drawing, "drawing"]);
      parts.set(
        `xl/worksheets/_rels/sheet${i + 1}.xml.rels`,
        relationsXml([{ type: relationTypes.drawing, target: `../drawings/drawing${number}.xml` }]),
      );
      parts.set(drawing, drawingXml(sheet.charts, sheet.logo));
      const first = charts.length;
      const target = (c: number): string => `charts/chart${first + c + 1}.xml`;
      parts.set(
        `xl/drawings/_rels/drawing${number}.xml.rels`,
        relationsXml([
          ...sheet.charts.map((_, c) => ({ type: relationTypes.chart, target: `../${target(c)}` })),
          ...(sheet.logo ? [{ type: relationTypes.image, target: `../${pictures.partOf(sheet.logo)}` }] : []),
        ]),
      );
      sheet.charts.forEach((chart, c) => {
        charts.push([`xl/${target(c)}`, "chart"]);
        parts.set(`xl/${target(c)}`, chartXml(chart, sheet.name, values, sizeOf(chart.at, sheet)));
      });
    }
    return name;
  });
  const fills = book.sheets.some(({ cells }) => cells.some(fillsSeveral));
  const all: Record<string, string> = {
    "[Content_Types].xml": contentTypesXml(
      [
        ["xl/workbook.xml", "workbook"],
        ...sheets.map((name) => [name, "sheet"] as const),
        ["xl/styles.xml", "styles"],
        ["xl/sharedStrings.xml", "texts"],
        ...(fills ? [["xl/metadata.xml", "metadata"] as const] : []),
        ...drawings,
        ...charts,
        ["docProps/core.xml", "core"],
        ["docProps/app.xml", "app"],
      ],
      pictures.kinds,
    ),
    "_rels/.rels": relationsXml([
      { type: relationTypes.workbook, target: "xl/workbook.xml" },
      { type: relationTypes.core, target: "docProps/core.xml" },
      { type: relationTypes.app, target: "docProps/app.xml" },
    ]),
    "docProps/core.xml": coreXml(book.properties),
    "docProps/app.xml": appXml,
    "xl/workbook.xml": workbookXml(book),
    "xl/_rels/workbook.xml.rels": relationsXml([
      ...sheets.map((_, i) => ({ type: relationTypes.sheet, target: `worksheets/sheet${i + 1}.xml` })),
      { type: relationTypes.styles, target: "styles.xml" },
      { type: relationTypes.texts, target: "sharedStrings.xml" },
      ...(fills ? [{ type: relationTypes.metadata, target: "metadata.xml" }] : []),
    ]),
  };
  for (const name of sheets) all[name] = parts.get(name)!;
  all["xl/styles.xml"] = styleSheet.xml();
  all["xl/sharedStrings.xml"] = texts.xml();
  if (fills) all["xl/metadata.xml"] = metadataXml;
  for (const [name, text] of parts) all[name] ??= text;
  const unpacked = Object.entries(all).map(([name, text]) => [name, strToU8(text)] as const);
  return zipSync({ ...Object.fromEntries(unpacked), ...pictures.parts }, { mtime: noTime });
}

/** A sheet of a file: its plan, and what each cell shows, by row and column of the plan. */
export interface FileSheet {
  readonly plan: Plan;
  readonly values: Values;
  readonly sheetName: string;
}

/** Planned sheets in one file, in this order, with the properties of the first. Throws where something cannot be kept in a file. */
export function writeSheets(sheets: readonly FileSheet[]): Uint8Array {
  // A check sheet is to be read by every program, those without such formulas too.
  for (const { formula } of sheets.flatMap(({ plan }) => plan.cells)) {
    const several = formula === undefined ? undefined : fillsOrBinds(formula);
    if (several !== undefined)
      throw new Error(
        `the function ${several} fills several cells or binds names; a check sheet's file holds formulas of one cell`,
      );
  }
  const books = sheets.map(({ plan, values, sheetName }) => workbookOfPlan(plan, values, sheetName));
  return writeBook({
    ...books[0]!,
    sheets: books.flatMap((book) => book.sheets),
    names: functionNames(sheets.map(({ plan }) => plan)),
  });
}

/** The plan as an .xlsx file. `values` holds what each cell shows, by row and column of the plan. */
export function writeWorkbook(plan: Plan, values: Values, sheetName: string): Uint8Array {
  return writeSheets([{ plan, values, sheetName }]);
}
