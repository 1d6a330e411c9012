import { piecesOf, readCells, type Area } from "../../cells/index.ts";
import type { Highlight, Plan, PlannedName, Validation } from "../../sheet/index.ts";
import { readAddress, readArea, readReference } from "./address.ts";
import { columnMargin } from "../look/measures.ts";
import { readAnchors, readChart, type ReadChart } from "./readCharts.ts";
import { readSharedTexts, readSheetCells, type ReadCell } from "./readCells.ts";
import { ReadPackage } from "./readPackage.ts";
import { readStyles, type ReadStyles } from "./readStyles.ts";
import { all, at, child, type Element } from "./readXml.ts";
import { readValidations } from "./validations.ts";

/** A workbook file of ours, as it says itself. */
export interface ReadWorkbook {
  readonly sheet: string;
  readonly properties: {
    readonly title: string;
    readonly subject: string;
    readonly creator: string;
    readonly application: string;
  };
  readonly cells: readonly ReadCell[];
  readonly names: readonly PlannedName[];
  readonly validations: readonly Validation[];
  readonly highlights: readonly Highlight[];
  readonly protected: boolean;
  readonly spans: readonly Area[];
  readonly freeze: Plan["freeze"];
  readonly gridlines: boolean;
  /** Column widths in characters. */
  readonly widths: readonly number[];
  /** Row heights in points, where they are said. */
  readonly heights: ReadonlyMap<number, number>;
  readonly print: Omit<Plan["print"], "area" | "orientation" | "pagesWide"> & {
    readonly areas: readonly Area[];
    readonly orientation: string;
    readonly paper: string;
    readonly pagesWide: string;
    readonly pagesHigh: string;
    readonly pageOrder: string;
  };
  readonly charts: readonly ReadChart[];
}

function readHighlights(sheet: Element, { tones }: ReadStyles): readonly Highlight[] {
  return all(sheet, "conditionalFormatting").flatMap((format) =>
    all(format, "cfRule").map((rule) => {
      const { type, operator, dxfId } = rule.attributes;
      if (type === "beginsWith")
        return {
          ...readArea(format.attributes["sqref"]!),
          text: rule.attributes["text"]!,
          begins: true as const,
          tone: tones[Number(dxfId)]!,
        };
      if (type !== "cellIs" || operator !== "equal")
        throw new Error(
          `the conditional format of ${format.attributes["sqref"]} is of an unknown kind: ${type} ${operator}`,
        );
      return {
        ...readArea(format.attributes["sqref"]!),
        text: at(rule, "formula").text.slice(1, -1).replaceAll('""', '"'),
        tone: tones[Number(dxfId)]!,
      };
    }),
  );
}

function readPrint(sheet: Element, definedNames: ReadonlyMap<string, string>): ReadWorkbook["print"] {
  const {
    paperSize = "",
    scale,
    fitToWidth = "",
    fitToHeight = "",
    pageOrder = "",
    orientation = "",
  } = at(sheet, "pageSetup").attributes;
  const titles = readCells(definedNames.get("_xlnm.Print_Titles") ?? "");
  if (typeof titles?.top !== "number" || typeof titles.bottom !== "number")
    throw new Error("the file says no title rows to print");
  const areas = piecesOf(definedNames.get("_xlnm.Print_Area") ?? "").filter(({ kind }) => kind === "cells");
  const footer = at(sheet, "headerFooter", "oddFooter")
    .text.replace(/^&C&9 /, "")
    .replaceAll("&P", "{page}")
    .replaceAll("&N", "{pages}")
    .replaceAll("&A", "{sheet}")
    .replaceAll("&&", "&");
  const breaks = all(child(sheet, "rowBreaks"), "brk").map(({ attributes }) => Number(attributes["id"]));
  const addresses = at(sheet, "printOptions").attributes["headings"] === "1";
  return {
    areas: areas.map(({ text }) => readReference(text)),
    ...(breaks.length > 0 && { breaks }),
    ...(addresses && { addresses }),
    ...(scale !== undefined && { scale: Number(scale) }),
    pageOrder,
    titleRows: [titles.top, titles.bottom],
    orientation,
    paper: paperSize,
    pagesWide: fitToWidth,
    pagesHigh: fitToHeight,
    footer,
  };
}

function readCharts(file: ReadPackage, sheet: Element, sheetPart: string): readonly ReadChart[] {
  if (!child(sheet, "drawing")) return [];
  const drawing = file.only(sheetPart, "drawing");
  const relations = file.relations(drawing);
  return readAnchors(file.xml(drawing)).map((anchor) =>
    readChart(file.xml(relations.get(anchor.relation)!.target), anchor),
  );
}

/** Reads a file that `writeWorkbook` wrote. Throws where the file holds something it never writes. */
export function readWorkbook(bytes: Uint8Array): ReadWorkbook {
  const file = new ReadPackage(bytes);
  const workbookPart = file.only("", "workbook");
  const workbook = file.xml(workbookPart);
  const sheetPart = file.only(workbookPart, "sheet");
  const sheet = file.xml(sheetPart);
  const styles = readStyles(file.xml(file.only(workbookPart, "styles")));
  const texts = readSharedTexts(file.xml(file.only(workbookPart, "texts")));
  const core = file.xml(file.only("", "core"));
  const definedNames = all(child(workbook, "definedNames"), "definedName");
  const view = at(sheet, "sheetViews", "sheetView");
  const pane = child(view, "pane")?.attributes;
  const heights = all(at(sheet, "sheetData"), "row").flatMap(({ attributes: { r, ht } }) =>
    ht === undefined ? [] : [[Number(r) - 1, Number(ht)] as const],
  );
  const scoped = definedNames.filter(
    ({ attributes }) => attributes["localSheetId"] === "0" && !attributes["name"]!.startsWith("_xlnm."),
  );
  return {
    sheet: at(workbook, "sheets", "sheet").attributes["name"]!,
    properties: {
      title: at(core, "dc:title").text,
      subject: at(core, "dc:subject").text,
      creator: at(core, "dc:creator").text,
      application: at(file.xml(file.only("", "app")), "Application").text,
    },
    cells: readSheetCells(sheet, styles.looks, texts),
    names: scoped.map((one) => ({ name: one.attributes["name"]!, ...readReference(one.text) })),
    validations: readValidations(sheet),
    highlights: readHighlights(sheet, styles),
    protected: child(sheet, "sheetProtection")?.attributes["sheet"] === "1",
    spans: all(child(sheet, "mergeCells"), "mergeCell").map(({ attributes }) => readArea(attributes["ref"]!)),
    freeze: pane
      ? { rows: readAddress(pane["topLeftCell"]!).row, columns: readAddress(pane["topLeftCell"]!).column }
      : { rows: 0, columns: 0 },
    gridlines: view.attributes["showGridLines"] !== "0",
    widths: all(child(sheet, "cols"), "col").map(({ attributes }) => Number(attributes["width"]) - columnMargin),
    heights: new Map(heights),
    print: readPrint(sheet, new Map(definedNames.map((one) => [one.attributes["name"]!, one.text]))),
    charts: readCharts(file, sheet, sheetPart),
  };
}
