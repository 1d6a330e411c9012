import { piecesOf, readCells, shortened, splitSheet, type Area } from "../../cells/index.ts";
import { columnMargin, defaultRowHeight } from "../look/measures.ts";
import type { BookName, BookPrint, BookProperties, BookSheet, Rows, Width, Workbook } from "../workbook/workbook.ts";
import { readArea, readReference } from "./address.ts";
import { NotUnderstood, unkeptCharacters } from "./notUnderstood.ts";
import { readLogo } from "./logo.ts";
import { hidesNothing } from "./logoPlace.ts";
import { readAnchors, readChart, withoutPoints } from "./readCharts.ts";
import { readSharedTexts, readSheetCells, type SharedText } from "./readCells.ts";
import { coloursOf } from "./readColours.ts";
import { ReadPackage } from "./readPackage.ts";
import { readColourRules, readEntries } from "./readRules.ts";
import { readStyles, type ReadStyles } from "./readStyles.ts";
import { all, at, child, isOn, NotThere, relationId, type Element } from "./readXml.ts";
import { CannotOpen, limits as foreignLimits, refuseTooMany, type Limits } from "./refusal.ts";
import { withTakenNames } from "./sheetNamesTaken.ts";
import { typedFormula } from "./storedFormula.ts";

export interface OpenedFile {
  readonly workbook: Workbook;
  /** What the file holds that is not understood and will not be in a file saved from here, a line each. */
  readonly notUnderstood: readonly string[];
  /** The program that wrote the file, as it says. */
  readonly application: string;
}

/** Names that programs give for their own ends. */
const ownNames = /^_xlnm\.(?!Print_)|^_xlnm\._FilterDatabase$/;

interface DefinedName extends BookName {
  readonly sheet?: number;
}

function readNames(workbook: Element): readonly DefinedName[] {
  return all(child(workbook, "definedNames"), "definedName").map(
    ({ attributes: { name = "", localSheetId, hidden }, text }) => ({
      name,
      reference: typedFormula(text).slice(1),
      ...(localSheetId !== undefined && { sheet: Number(localSheetId) }),
      ...(isOn(hidden) && { hidden: true as const }),
    }),
  );
}

/** What no program takes for a name: other signs than letters, digits, `_`, `.`, `\\` and `?`, a digit first, an address. */
const isName = (name: string): boolean =>
  name.length <= 255 && /^[\p{L}_\\][\p{L}\p{M}\p{N}\p{S}_.\\?]*$/u.test(name) && readCells(name) === undefined;

/** Names that people gave, and those of printing, without what no program takes. */
function takenNames(names: readonly DefinedName[], notUnderstood: NotUnderstood): readonly DefinedName[] {
  return names.filter(({ name, reference }) => {
    if (ownNames.test(name)) return false;
    if (reference !== "" && isName(name)) return true;
    notUnderstood.add("names that programs do not take: not kept", `“${shortened(name, 40)}”`);
    return false;
  });
}

/** The printed areas and repeated rows and columns that a sheet's names say. */
function printNames(names: readonly DefinedName[], i: number): Pick<BookPrint, "areas" | "titleRows" | "titleColumns"> {
  const of = (name: string): readonly string[] =>
    piecesOf(names.find((one) => one.sheet === i && one.name === name)?.reference ?? "")
      .filter(({ kind }) => kind === "cells")
      .map(({ text }) => text);
  const areas = of("_xlnm.Print_Area").flatMap((text): readonly Area[] => {
    const read = readCells(splitSheet(text).rest);
    return read && read.top !== null && read.left !== null ? [readReference(text)] : [];
  });
  const titles = of("_xlnm.Print_Titles").map((text) => readCells(splitSheet(text).rest));
  const rows = titles.find((read) => read && read.left === null);
  const columns = titles.find((read) => read && read.top === null);
  return {
    areas,
    ...(rows && { titleRows: [rows.top!, rows.bottom!] as const }),
    ...(columns && { titleColumns: [columns.left!, columns.right!] as const }),
  };
}

function readPrint(sheet: Element, names: readonly DefinedName[], i: number): BookPrint | undefined {
  const setup = child(sheet, "pageSetup")?.attributes;
  const options = child(sheet, "printOptions")?.attributes ?? {};
  const margins = child(sheet, "pageMargins")?.attributes;
  const fits = isOn(child(child(sheet, "sheetPr"), "pageSetUpPr")?.attributes["fitToPage"]);
  const text = (name: string): string | undefined => child(child(sheet, "headerFooter"), name)?.text || undefined;
  const header = text("oddHeader");
  const footer = text("oddFooter");
  const breaks = all(child(sheet, "rowBreaks"), "brk").map(({ attributes }) => Number(attributes["id"]));
  const named = printNames(names, i);
  if (!setup && named.areas.length === 0 && !named.titleRows && !header && !footer && breaks.length === 0)
    return undefined;
  const { orientation, paperSize, scale, fitToWidth, fitToHeight, pageOrder } = setup ?? {};
  return {
    ...named,
    ...(orientation !== undefined && orientation !== "default" && { orientation }),
    ...(paperSize !== undefined && { paper: Number(paperSize) }),
    ...(fits
      ? { fit: { wide: Number(fitToWidth ?? 1), high: Number(fitToHeight ?? 1) } }
      : scale !== undefined && scale !== "100" && { scale: Number(scale) }),
    ...(pageOrder === "overThenDown" && { overThenDown: true as const }),
    ...(isOn(options["headings"]) && { addresses: true as const }),
    ...(isOn(options["horizontalCentered"]) && { centred: true as const }),
    ...(margins && {
      margins: {
        left: Number(margins["left"] ?? 0.7),
        right: Number(margins["right"] ?? 0.7),
        top: Number(margins["top"] ?? 0.75),
        bottom: Number(margins["bottom"] ?? 0.75),
        header: Number(margins["header"] ?? 0.3),
        footer: Number(margins["footer"] ?? 0.3),
      },
    }),
    ...(header !== undefined && { header }),
    ...(footer !== undefined && { footer }),
    ...(breaks.length > 0 && { breaks }),
  };
}

/** The charts of a sheet, and the office's logo. */
function readDrawing(
  file: ReadPackage,
  sheet: Element,
  part: string,
  name: string,
  notUnderstood: NotUnderstood,
  ground: Pick<BookSheet, "cells" | "spans" | "widths" | "heights">,
): Pick<BookSheet, "charts" | "logo"> {
  if (!child(sheet, "drawing")) return { charts: [] };
  const drawing = file.only(part, "drawing");
  const relations = file.relations(drawing);
  const { charts, logo: anchored, others } = readAnchors(file.xml(drawing));
  const picture = anchored && relations.get(anchored.relation)?.target;
  const logo =
    anchored && picture !== undefined && file.has(picture) && hidesNothing(anchored.place, ground)
      ? readLogo(anchored.place, picture, file.bytes(picture))
      : undefined;
  if (others > 0 || (anchored && !logo)) notUnderstood.add("pictures and shapes: not kept", `“${name}”`);
  const kept = charts.flatMap((anchor) => {
    const target = relations.get(anchor.relation)?.target;
    const root = target !== undefined && file.has(target) ? file.xml(target) : undefined;
    try {
      if (root) return [withoutPoints(readChart(root, anchor))];
    } catch (error) {
      // A chart of another kind than those of check sheets lacks what they have.
      if (!(error instanceof NotThere)) throw error;
    }
    notUnderstood.add("charts of other kinds: not kept", `“${name}”`);
    return [];
  });
  return { charts: kept, ...(logo && { logo }) };
}

/** Of a column about which a file says nothing, in characters with the margin. */
const plainColumn = 9.14;

function readWidths(sheet: Element, limits: Limits): ReadonlyMap<number, Width> {
  const widths = new Map<number, Width>();
  const usual = Number(child(sheet, "sheetFormatPr")?.attributes["defaultColWidth"] ?? plainColumn) - columnMargin;
  for (const { attributes } of all(child(sheet, "cols"), "col")) {
    const { min = "1", max = min, width, hidden } = attributes;
    if (width === undefined && !isOn(hidden)) continue;
    // Programs write one entry for all columns to the end of the sheet.
    for (let i = Math.max(0, Math.floor(Number(min)) - 1); i < Math.min(Number(max), limits.columns); i++)
      widths.set(i, {
        width: width === undefined ? usual : Math.max(0, Number(width) - columnMargin),
        ...(isOn(hidden) && { hidden: true as const }),
      });
  }
  return widths;
}

/** Joined cells; those that go on beyond what is opened are not joined. */
function readSpans(sheet: Element, name: string, { notUnderstood, limits }: Parts): readonly Area[] {
  const joined = all(child(sheet, "mergeCells"), "mergeCell");
  refuseTooMany(joined.length, limits.joined, "areas of joined cells", name);
  return joined.flatMap(({ attributes }) => {
    const area = readArea(attributes["ref"] ?? "");
    if (area.row + area.rows <= limits.rows && area.column + area.columns <= limits.columns) return [area];
    notUnderstood.add("joined cells that go far beyond the others: not joined", `“${name}”`);
    return [];
  });
}

/** Elements of a sheet that hold something which is not kept. */
const notKept: ReadonlyMap<string, string> = new Map([
  ["autoFilter", "filters: not kept, all rows are shown as the file has them"],
  ["scenarios", "scenarios: not kept"],
  ["protectedRanges", "areas with a protection of their own: not kept"],
  ["hyperlinks", "hyperlinks: the text is kept, not the link"],
  ["colBreaks", "page breaks between columns: not kept"],
  ["legacyDrawing", "notes and comments: not kept"],
  ["oleObjects", "embedded objects: not kept"],
  ["controls", "buttons and controls: not kept"],
  ["picture", "background pictures: not kept"],
  ["tableParts", "tables: the cells are kept, not the table"],
  ["dataConsolidate", "consolidation: not kept"],
]);

/** What stands in the place for later additions to the format, by its element. */
const additions: ReadonlyMap<string, string> = new Map([
  ["x14:conditionalFormattings", "colour rules of a newer kind: not kept"],
  ["x14:dataValidations", "entry rules that refer to other sheets: not kept"],
  ["x14:sparklineGroups", "small charts within cells: not kept"],
  ["x14:slicerList", "slicers: not kept"],
]);

function noteWhatIsNotKept(sheet: Element, name: string, notUnderstood: NotUnderstood): void {
  for (const { name: tag, children } of sheet.children) {
    const what = notKept.get(tag);
    if (what && (tag === "autoFilter" || tag === "legacyDrawing" || children.length > 0 || tag === "picture"))
      notUnderstood.add(what, `“${name}”`);
  }
  for (const ext of all(child(sheet, "extLst"), "ext"))
    for (const { name: tag } of ext.children) {
      const what = additions.get(tag);
      if (what) notUnderstood.add(what, `“${name}”`);
    }
  const { password, hashValue } = child(sheet, "sheetProtection")?.attributes ?? {};
  if (password !== undefined || hashValue !== undefined)
    notUnderstood.add("passwords of protection: the protection is kept, without the password", `“${name}”`);
  if (all(child(sheet, "sheetData"), "row").some(({ attributes }) => Number(attributes["outlineLevel"] ?? 0) > 1))
    notUnderstood.add("groups of rows within groups: kept as one", `“${name}”`);
  if (all(child(sheet, "cols"), "col").some(({ attributes }) => Number(attributes["outlineLevel"] ?? 0) > 0))
    notUnderstood.add("groups of columns: not kept", `“${name}”`);
}

/** A row as the file describes it. */
interface Line {
  readonly row: number;
  readonly said: Element["attributes"];
}

/** Neighbouring rows that fold away together. */
function groupsOf(lines: readonly Line[]): BookSheet["groups"] {
  const groups: Rows[] = [];
  for (const { row, said } of lines) {
    if (Number(said["outlineLevel"] ?? 0) === 0) continue;
    const last = groups.at(-1);
    if (last && last.row + last.rows === row) groups[groups.length - 1] = { ...last, rows: last.rows + 1 };
    else groups.push({ row, rows: 1 });
  }
  return groups;
}

interface Parts {
  readonly file: ReadPackage;
  readonly styles: ReadStyles;
  readonly texts: readonly SharedText[];
  readonly names: readonly DefinedName[];
  readonly notUnderstood: NotUnderstood;
  readonly limits: Limits;
}

function readSheet(parts: Parts, part: string, name: string, i: number, hidden: boolean): BookSheet {
  const { file, styles, texts, names, notUnderstood, limits } = parts;
  const sheet = file.xml(part);
  const view = child(child(sheet, "sheetViews"), "sheetView");
  const pane = child(view, "pane")?.attributes;
  const frozen = pane?.["state"] === "frozen" || pane?.["state"] === "frozenSplit";
  const cells = readSheetCells(sheet, { sheet: name, looks: styles.looks, texts, notUnderstood, limits });
  const spans = readSpans(sheet, name, parts);
  const lines = all(child(sheet, "sheetData"), "row")
    .map(({ attributes: said }, i): Line => ({ row: Number(said["r"] ?? i + 1) - 1, said }))
    .filter(({ row }) => row < limits.rows);
  const heights = lines.flatMap(({ row, said: { ht } }) =>
    ht === undefined || Math.abs(Number(ht) - defaultRowHeight) < 0.05 ? [] : [[row, Number(ht)] as const],
  );
  const said = child(sheet, "dimension")?.attributes["ref"];
  const dimension = said === undefined ? { rows: 0, columns: 0 } : readArea(said);
  const last = (of: "row" | "column", most: number): number => {
    const filled = cells.reduce((max, cell) => Math.max(max, cell[of] + 1), 0);
    return Math.min(
      most,
      spans.reduce((max, span) => Math.max(max, span[of] + span[`${of}s`]), filled),
    );
  };
  noteWhatIsNotKept(sheet, name, notUnderstood);
  const print = readPrint(sheet, names, i);
  const guarded = isOn(child(sheet, "sheetProtection")?.attributes["sheet"]);
  const size = (of: "row" | "column"): number => {
    const most = limits[`${of}s`];
    return guarded ? Math.max(last(of, most), Math.min(dimension[`${of}s`], most)) : last(of, most);
  };
  const [rows, columns] = [size("row"), size("column")];
  const ruled = { name, rows, columns };
  const widths = readWidths(sheet, limits);
  return {
    name,
    ...(hidden && { hidden: true as const }),
    rows,
    columns,
    cells,
    spans,
    widths,
    heights: new Map(heights),
    hiddenRows: lines.flatMap(({ row, said: { hidden: rowHidden } }) => (isOn(rowHidden) ? [row] : [])),
    groups: groupsOf(lines),
    freeze:
      frozen && pane["topLeftCell"] !== undefined
        ? { rows: Number(pane["ySplit"] ?? 0), columns: Number(pane["xSplit"] ?? 0) }
        : { rows: 0, columns: 0 },
    gridlines:
      view === undefined || view.attributes["showGridLines"] === undefined || isOn(view.attributes["showGridLines"]),
    names: names.filter((one) => one.sheet === i && !one.name.startsWith("_xlnm.")).map(({ sheet: _, ...one }) => one),
    entries: readEntries(sheet, ruled, notUnderstood, limits),
    colours: readColourRules(sheet, styles, ruled, notUnderstood, limits),
    protected: guarded,
    ...(print && { print }),
    ...readDrawing(file, sheet, part, name, notUnderstood, { cells, spans, widths, heights: new Map(heights) }),
  };
}

function refuseUnsafe(file: ReadPackage): void {
  const types = file.has("[Content_Types].xml") ? file.text("[Content_Types].xml") : "";
  if (file.names.some((name) => /(^|\/)vbaProject\.bin$|^xl\/macrosheets\//i.test(name)) || /macroEnabled/i.test(types))
    throw new CannotOpen(
      "it holds macros, which are not run and not kept here; save it as .xlsx without macros in the program that made it",
    );
  if (file.names.some((name) => /^xl\/worksheets\/.*\.bin$|^xl\/workbook\.bin$/i.test(name)))
    throw new CannotOpen("it is of the kind .xlsb; save it as .xlsx in the program that made it");
}

const outside = /(^|[^A-Za-z0-9_.\]])'?\[[^\]]+\]|\]!/;

/** A formula that takes values from another workbook. */
function refuseLinks({ sheets, names }: Workbook, file: ReadPackage): void {
  const linked = file.names.filter((name) => /^xl\/externalLinks\/[^/]+\.xml$/.test(name));
  if (linked.length === 0) return;
  const refers = (formula: string): boolean =>
    outside.test(formula) && piecesOf(formula).some(({ kind, text }) => kind !== "text" && text.includes("["));
  for (const { name, cells } of sheets) {
    const cell = cells.find(({ formula }) => formula !== undefined && refers(formula));
    if (cell)
      throw new CannotOpen(
        `it takes values from other workbooks (in ${cell.formula!.slice(0, 60)} on “${name}”), which cannot be read here; ` +
          "break the links in the program that made it, so that the values stay, and save it again",
      );
  }
  const named = [...names, ...sheets.flatMap((sheet) => sheet.names)].find(({ reference }) => refers(`=${reference}`));
  if (named)
    throw new CannotOpen(
      `its name ${named.name} refers to another workbook, which cannot be read here; delete the name or break the link, and save it again`,
    );
}

const partsNotKept: readonly (readonly [pattern: RegExp, what: string])[] = [
  [/^xl\/pivotTables\//, "pivot tables: the values are kept, not the tables"],
  [/^xl\/threadedComments\//, "comments: not kept"],
  [/^xl\/comments\d*\.xml$/, "notes and comments: not kept"],
  [/^xl\/(connections|queryTables)/, "connections to outside data: not kept"],
  [/^xl\/embeddings\//, "embedded objects: not kept"],
  [/^xl\/(ctrlProps|activeX)\//, "buttons and controls: not kept"],
  [/^xl\/(slicers|timelines)\//, "slicers: not kept"],
  [/^xl\/externalLinks\//, "links to other workbooks that no formula uses: not kept"],
  [/^customXml\/item/, "data of other add-ins: not kept"],
];

function readProperties(file: ReadPackage): BookProperties {
  const [part] = file.referred("", "core");
  if (part === undefined || !file.has(part)) return {};
  const core = file.xml(part);
  const text = (name: string): string | undefined => child(core, name)?.text || undefined;
  const [title, subject, creator] = [text("dc:title"), text("dc:subject"), text("dc:creator")];
  return {
    ...(title !== undefined && { title }),
    ...(subject !== undefined && { subject }),
    ...(creator !== undefined && { creator }),
  };
}

/**
 * Reads an .xlsx file, by whatever program it was written, as far as it is understood. Throws CannotOpen, with the reason in words, where
 * the file is broken, too large, or holds what must not be opened. What was written here has other limits than files of others.
 */
export function openWorkbook(bytes: Uint8Array, limits: Limits = foreignLimits): OpenedFile {
  try {
    return opened(bytes, limits);
  } catch (error) {
    if (error instanceof NotThere) throw new CannotOpen(`it is damaged: ${shortened(error.message, 120)}`);
    throw error;
  }
}

function opened(bytes: Uint8Array, limits: Limits): OpenedFile {
  const notUnderstood = new NotUnderstood();
  const file = new ReadPackage(bytes, limits, () => notUnderstood.add(unkeptCharacters));
  refuseUnsafe(file);
  const workbookPart = file.only("", "workbook");
  const root = file.xml(workbookPart);
  const [themePart] = file.referred(workbookPart, "theme");
  const stylesRoot = file.xml(file.only(workbookPart, "styles"));
  const theme = themePart !== undefined && file.has(themePart) ? file.xml(themePart) : undefined;
  const styles = readStyles(stylesRoot, coloursOf(theme, stylesRoot));
  const [textsPart] = file.referred(workbookPart, "texts");
  const texts = textsPart === undefined ? [] : readSharedTexts(file.xml(textsPart));
  const names = takenNames(readNames(root), notUnderstood);
  refuseTooMany(names.length, limits.names, "names");
  const relations = file.relations(workbookPart);
  const listed = all(at(root, "sheets"), "sheet");
  if (listed.length > limits.sheets)
    throw new CannotOpen(`it has ${listed.length} sheets; up to ${limits.sheets} are opened`);
  const parts = { file, styles, texts, names, notUnderstood, limits };
  const kinds = new Map(listed.map((one) => [one, relations.get(relationId(one))]));
  const worksheets = [...kinds].flatMap(([one, relation], i) => {
    const { name = "", state } = one.attributes;
    if (!relation?.type.endsWith("/worksheet")) {
      notUnderstood.add("sheets that hold no cells: not kept", `“${name}”`);
      return [];
    }
    return [readSheet(parts, relation.target, name, i, state === "hidden" || state === "veryHidden")];
  });
  if (worksheets.length === 0) throw new CannotOpen("it has no sheet with cells");
  for (const [pattern, what] of partsNotKept)
    if (file.names.some((name) => pattern.test(name))) notUnderstood.add(what);
  if (isOn(child(root, "workbookPr")?.attributes["date1904"]))
    notUnderstood.add("dates counted from 1904: they show four years early here");
  if (isOn(child(root, "workbookProtection")?.attributes["lockStructure"]))
    notUnderstood.add("protection of the workbook's structure: not kept");
  const shown = Number(child(child(root, "bookViews"), "workbookView")?.attributes["activeTab"] ?? 0);
  const shownName = listed[shown]?.attributes["name"];
  const at_ = Math.max(
    0,
    worksheets.findIndex(({ name }) => name === shownName),
  );
  const read: Workbook = {
    sheets: worksheets,
    names: names.filter(({ sheet, name }) => sheet === undefined && !name.startsWith("_xlnm.")),
    properties: readProperties(file),
    ...(at_ > 0 && { shown: at_ }),
  };
  refuseLinks(read, file);
  const workbook = withTakenNames(read, notUnderstood);
  const [appPart] = file.referred("", "app");
  const app = appPart !== undefined && file.has(appPart) ? file.xml(appPart) : undefined;
  return { workbook, notUnderstood: notUnderstood.lines, application: child(app, "Application")?.text ?? "" };
}
