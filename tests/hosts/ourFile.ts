import type { Area } from "../../src/cells/index.ts";
import { openWorkbook, tones, type CellStyle, type CellValue, type ReadChart } from "../../src/hosts/index.ts";
import { readAnchors, readChart } from "../../src/hosts/xlsx/readCharts.ts";
import { readReference } from "../../src/hosts/xlsx/address.ts";
import { ReadPackage } from "../../src/hosts/xlsx/readPackage.ts";
import { all, at } from "../../src/hosts/xlsx/readXml.ts";
import type { BookLook } from "../../src/hosts/workbook/workbook.ts";
import type { Highlight, Letters, Plan, PlannedName, Validation } from "../../src/sheet/index.ts";

export interface ReadCell {
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
  readonly formula?: string;
  readonly error?: string;
  readonly style: CellStyle;
  readonly lowered?: readonly Letters[];
  readonly format?: string;
  readonly locked: boolean;
}

/** A file of one planned sheet, in the words of a plan. */
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
  readonly widths: readonly number[];
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

function borderOf(edges: NonNullable<BookLook["edges"]>): CellStyle["border"] {
  const lined = Object.keys(edges);
  const { line, color } = Object.values(edges)[0]!;
  const sides = lined.length === 4 ? "all" : lined[0] === "top" ? "above" : "below";
  return { sides, line: line as NonNullable<CellStyle["border"]>["line"], color: color! };
}

function styleOf({ size, color, bold, italic, background, edges, align, indent, wrap, shrink }: BookLook): CellStyle {
  return {
    size: size!,
    color: color!,
    ...(bold && { bold }),
    ...(italic && { italic }),
    ...(background !== undefined && { background }),
    ...(edges && { border: borderOf(edges)! }),
    ...(align !== undefined && { align: align as NonNullable<CellStyle["align"]> }),
    ...(indent !== undefined && { indent }),
    ...(wrap && { wrap }),
    ...(shrink && { shrink }),
  };
}

function toneOf(color: string | undefined): Highlight["tone"] {
  const found = (Object.keys(tones) as Highlight["tone"][]).find((tone) => tones[tone].color === color);
  if (!found) throw new Error(`the conditional colour ${color} is none of ours`);
  return found;
}

function chartsOf(bytes: Uint8Array): readonly ReadChart[] {
  const file = new ReadPackage(bytes);
  const drawing = file.names.find((name) => /^xl\/drawings\/[^/]+\.xml$/.test(name));
  if (drawing === undefined) return [];
  const relations = file.relations(drawing);
  return readAnchors(file.xml(drawing)).charts.map((anchor) =>
    readChart(file.xml(relations.get(anchor.relation)!.target), anchor),
  );
}

/** The heights of all rows as they stand in the file: who opens it passes over the usual one. */
function heightsOf(bytes: Uint8Array): ReadonlyMap<number, number> {
  const rows = all(at(new ReadPackage(bytes).xml("xl/worksheets/sheet1.xml"), "sheetData"), "row");
  return new Map(
    rows.flatMap(({ attributes: { r, ht } }) => (ht === undefined ? [] : [[Number(r) - 1, Number(ht)] as const])),
  );
}

/** Reads a file that `writeWorkbook` wrote. Throws where the file holds something it never writes. */
export function readWorkbook(bytes: Uint8Array): ReadWorkbook {
  const { workbook, notUnderstood, application } = openWorkbook(bytes);
  if (notUnderstood.length > 0) throw new Error(notUnderstood.join("; "));
  if (workbook.sheets.length !== 1 || workbook.names.length > 0) throw new Error("one sheet and its names are needed");
  const sheet = workbook.sheets[0]!;
  const { title = "", subject = "", creator = "" } = workbook.properties;
  const print = sheet.print!;
  return {
    sheet: sheet.name,
    properties: { title, subject, creator, application },
    cells: sheet.cells.map(({ look, unlocked, fills, ...cell }) => {
      if (fills) throw new Error("a planned sheet has no formula that fills several cells");
      return {
        ...cell,
        style: styleOf(look),
        ...(look.format !== undefined && { format: look.format }),
        locked: unlocked !== true,
      };
    }),
    names: sheet.names.map(({ name, reference }) => ({ name, ...readReference(reference) })),
    validations: sheet.entries.map(
      ({ areas, rule, title: heading = "", message = "", allowBlank, prompt, otherwise }) => {
        if (rule.kind === "other") throw new Error(`the rule is of an unknown kind: ${rule.type} ${rule.operator}`);
        if (prompt?.title !== heading || prompt.message !== message || otherwise !== "refused")
          throw new Error("the rule says one thing when the cell is selected and another when an entry is refused");
        return { ...areas[0]!, rule, title: heading, message, ...(allowBlank && { allowBlank: true as const }) };
      },
    ),
    highlights: sheet.colours.map(({ areas, when, look }) => {
      if (when.kind !== "text") throw new Error(`the conditional format is of an unknown kind: ${when.kind}`);
      const begins = when.operator === "beginsWith" ? { begins: true as const } : {};
      return { ...areas[0]!, text: when.text, ...begins, tone: toneOf(look.color) };
    }),
    protected: sheet.protected,
    spans: sheet.spans,
    freeze: sheet.freeze,
    gridlines: sheet.gridlines,
    widths: [...sheet.widths.values()].map(({ width }) => width),
    heights: heightsOf(bytes),
    print: {
      areas: print.areas,
      ...(print.breaks && { breaks: print.breaks }),
      ...(print.addresses && { addresses: print.addresses }),
      pageOrder: print.overThenDown ? "overThenDown" : "",
      titleRows: print.titleRows!,
      orientation: print.orientation!,
      paper: String(print.paper),
      ...(print.scale !== undefined && { scale: print.scale }),
      pagesWide: String(print.fit?.wide ?? ""),
      pagesHigh: String(print.fit?.high ?? ""),
      footer: print
        .footer!.replace(/^&C&9 /, "")
        .replaceAll("&P", "{page}")
        .replaceAll("&N", "{pages}")
        .replaceAll("&A", "{sheet}")
        .replaceAll("&&", "&"),
    },
    charts: chartsOf(bytes),
  };
}
