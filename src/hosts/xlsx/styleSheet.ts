import { defaultStyle, tones } from "../look/styles.ts";
import { sides, type BookColourRule, type BookLook } from "../workbook/workbook.ts";
import { element, part } from "./xml.ts";

const plainFont = "Arial";
export const namespaceOfSheets = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
/** Numbers below are formats the program has of its own. */
const firstFormat = 164;

/** A colour `#rrggbb` as files have it: with opacity. */
function argb(color: string): string {
  return `FF${color.slice(1).toUpperCase()}`;
}

/** Entries of one list of the style part, each once, found by what it says. */
class Entries {
  private readonly indices = new Map<string, number>();

  constructor(...first: readonly string[]) {
    for (const one of first) this.index(one);
  }

  index(xml: string): number {
    const known = this.indices.get(xml);
    if (known !== undefined) return known;
    this.indices.set(xml, this.indices.size);
    return this.indices.size - 1;
  }

  xml(name: string): string {
    return element(name, { count: this.indices.size }, ...this.indices.keys());
  }
}

function fontXml({ font, size, bold, italic, underline, strike, color }: BookLook): string {
  return element(
    "font",
    {},
    ...(bold ? [element("b")] : []),
    ...(italic ? [element("i")] : []),
    ...(strike ? [element("strike")] : []),
    ...(underline ? [element("u")] : []),
    element("sz", { val: size ?? defaultStyle.size! }),
    element("color", { rgb: argb(color ?? defaultStyle.color!) }),
    element("name", { val: font ?? plainFont }),
    element("family", { val: 2 }),
  );
}

/**
 * Programs draw subscripts at about six tenths of their size: too small to be read on paper. They also make the line as
 * high as the larger letters ask for, which texts of several lines count with.
 */
const largerLow = 1.53;

/** Of letters within a text, lowered or not. */
export function runFontXml({ font, size, bold, italic, color }: BookLook, low: boolean): string {
  return element(
    "rPr",
    {},
    ...(bold ? [element("b")] : []),
    ...(italic ? [element("i")] : []),
    ...(low ? [element("vertAlign", { val: "subscript" })] : []),
    element("sz", { val: (size ?? defaultStyle.size!) * (low ? largerLow : 1) }),
    element("color", { rgb: argb(color ?? defaultStyle.color!) }),
    element("rFont", { val: font ?? plainFont }),
    element("family", { val: 2 }),
  );
}

const solid = (color: string): string =>
  element(
    "fill",
    {},
    element(
      "patternFill",
      { patternType: "solid" },
      element("fgColor", { rgb: argb(color) }),
      element("bgColor", { indexed: 64 }),
    ),
  );
const pattern = (patternType: string): string => element("fill", {}, element("patternFill", { patternType }));

function borderXml(edges: BookLook["edges"] = {}): string {
  return element(
    "border",
    {},
    ...sides.map((name) => {
      const edge = edges[name];
      if (!edge) return element(name);
      const color =
        edge.color === undefined ? element("color", { auto: 1 }) : element("color", { rgb: argb(edge.color) });
      return element(name, { style: edge.line }, color);
    }),
    element("diagonal"),
  );
}

type ColourLook = BookColourRule["look"];

/** In conditional looks a plain fill has its colour in the background. */
function colourXml({ color, background, bold, italic, underline, strike }: ColourLook): string {
  const flags: readonly string[] = [
    ...(bold ? [element("b")] : []),
    ...(italic ? [element("i")] : []),
    ...(strike ? [element("strike")] : []),
    ...(underline ? [element("u")] : []),
    ...(color === undefined ? [] : [element("color", { rgb: argb(color) })]),
  ];
  const fill = (rgb: string): string =>
    element(
      "fill",
      {},
      element("patternFill", { patternType: "solid" }, element("fgColor", { rgb }), element("bgColor", { rgb })),
    );
  return element(
    "dxf",
    {},
    ...(flags.length > 0 ? [element("font", {}, ...flags)] : []),
    ...(background === undefined ? [] : [fill(argb(background))]),
  );
}

export interface Look {
  readonly look: BookLook;
  readonly unlocked: boolean;
  /** A text that looks like something else stays a text when it is edited. */
  readonly quoted: boolean;
}

/** The style part of a workbook: cells name their look by number. */
export class StyleSheet {
  private readonly fonts = new Entries(fontXml({}));
  // The program takes the first two fills as these, whatever they say.
  private readonly fills = new Entries(pattern("none"), pattern("gray125"));
  private readonly borders = new Entries(borderXml());
  private readonly formats = new Map<string, number>();
  private readonly looks = new Entries(element("xf", { numFmtId: 0, fontId: 0, fillId: 0, borderId: 0, xfId: 0 }));
  private readonly colours = new Entries(...Object.values(tones).map(colourXml));

  private format(code: string | undefined): number {
    if (code === undefined) return 0;
    const known = this.formats.get(code) ?? firstFormat + this.formats.size;
    this.formats.set(code, known);
    return known;
  }

  /** The number of a conditional look. */
  colour(look: ColourLook): number {
    return this.colours.index(colourXml(look));
  }

  private readonly known = new WeakMap<BookLook, Map<number, number>>();

  /** The number of a cell's look; many cells share one, which is worked out once. */
  index(asked: Look): number {
    const { look, unlocked, quoted } = asked;
    const kinds = this.known.get(look) ?? new Map<number, number>();
    this.known.set(look, kinds);
    const kind = Number(unlocked) * 2 + Number(quoted);
    const known = kinds.get(kind) ?? this.newIndex(asked);
    kinds.set(kind, known);
    return known;
  }

  /** A cell of which nothing is said has the look of the workbook as a whole. */
  private newIndex({ look, unlocked, quoted }: Look): number {
    if (Object.keys(look).length === 0 && !unlocked && !quoted) return 0;
    const numFmtId = this.format(look.format === "General" ? undefined : look.format);
    return this.looks.index(
      element(
        "xf",
        {
          numFmtId,
          fontId: this.fonts.index(fontXml(look)),
          fillId: look.background ? this.fills.index(solid(look.background)) : 0,
          borderId: this.borders.index(borderXml(look.edges)),
          xfId: 0,
          quotePrefix: quoted ? 1 : undefined,
          applyNumberFormat: numFmtId === 0 ? undefined : 1,
          applyFont: 1,
          applyFill: look.background ? 1 : undefined,
          applyBorder: look.edges ? 1 : undefined,
          applyAlignment: 1,
          applyProtection: unlocked ? 1 : undefined,
        },
        element("alignment", {
          horizontal: look.align,
          indent: look.indent,
          vertical: look.vertical,
          wrapText: look.wrap ? 1 : undefined,
          // A number too long for its column is drawn smaller, not as a row of signs.
          shrinkToFit: look.shrink ? 1 : undefined,
        }),
        ...(unlocked ? [element("protection", { locked: 0 })] : []),
      ),
    );
  }

  xml(): string {
    return part(
      element(
        "styleSheet",
        { xmlns: namespaceOfSheets },
        ...(this.formats.size > 0
          ? [
              element(
                "numFmts",
                { count: this.formats.size },
                ...[...this.formats].map(([formatCode, numFmtId]) => element("numFmt", { numFmtId, formatCode })),
              ),
            ]
          : []),
        this.fonts.xml("fonts"),
        this.fills.xml("fills"),
        this.borders.xml("borders"),
        element("cellStyleXfs", { count: 1 }, element("xf", { numFmtId: 0, fontId: 0, fillId: 0, borderId: 0 })),
        this.looks.xml("cellXfs"),
        element("cellStyles", { count: 1 }, element("cellStyle", { name: "Normal", xfId: 0, builtinId: 0 })),
        this.colours.xml("dxfs"),
      ),
    );
  }
}
