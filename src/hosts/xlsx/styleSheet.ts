import { defaultStyle, tones, type CellStyle } from "../look/styles.ts";
import { element, part } from "./xml.ts";

const font = "Arial";
export const namespaceOfSheets = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
/** Numbers below are formats the program has of its own. */
const firstFormat = 164;

/** A colour `#rrggbb` as files have it: with opacity. */
export function argb(color: string): string {
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

function fontXml({ size, bold, italic, color }: CellStyle): string {
  return element(
    "font",
    {},
    ...(bold ? [element("b")] : []),
    ...(italic ? [element("i")] : []),
    element("sz", { val: size ?? defaultStyle.size! }),
    element("color", { rgb: argb(color ?? defaultStyle.color!) }),
    element("name", { val: font }),
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

function borderXml(border: CellStyle["border"]): string {
  const side = (name: string, sides: readonly string[]): string =>
    border && sides.includes(border.sides)
      ? element(name, { style: border.line }, element("color", { rgb: argb(border.color) }))
      : element(name);
  return element(
    "border",
    {},
    side("left", ["all"]),
    side("right", ["all"]),
    side("top", ["all", "above"]),
    side("bottom", ["all", "below"]),
    element("diagonal"),
  );
}

const toneOrder = Object.keys(tones) as (keyof typeof tones)[];

/** The number of a tone's look in the style part. */
export function toneIndex(tone: keyof typeof tones): number {
  return toneOrder.indexOf(tone);
}

/** In conditional looks a plain fill has its colour in the background. */
function toneXml(tone: keyof typeof tones): string {
  const { color, background } = tones[tone];
  return element(
    "dxf",
    {},
    element("font", {}, element("color", { rgb: argb(color) })),
    element(
      "fill",
      {},
      element(
        "patternFill",
        { patternType: "solid" },
        element("fgColor", { rgb: argb(background) }),
        element("bgColor", { rgb: argb(background) }),
      ),
    ),
  );
}

export interface Look {
  readonly style: CellStyle;
  readonly format?: string;
  readonly unlocked: boolean;
  /** A text that looks like something else stays a text when it is edited. */
  readonly quoted: boolean;
}

/** The style part of a workbook: cells name their look by number. */
export class StyleSheet {
  private readonly fonts = new Entries(fontXml({}));
  // The program takes the first two fills as these, whatever they say.
  private readonly fills = new Entries(pattern("none"), pattern("gray125"));
  private readonly borders = new Entries(borderXml(undefined));
  private readonly formats = new Map<string, number>();
  private readonly looks = new Entries(element("xf", { numFmtId: 0, fontId: 0, fillId: 0, borderId: 0, xfId: 0 }));

  private format(code: string | undefined): number {
    if (code === undefined) return 0;
    const known = this.formats.get(code) ?? firstFormat + this.formats.size;
    this.formats.set(code, known);
    return known;
  }

  index({ style, format, unlocked, quoted }: Look): number {
    const numFmtId = this.format(format);
    return this.looks.index(
      element(
        "xf",
        {
          numFmtId,
          fontId: this.fonts.index(fontXml(style)),
          fillId: style.background ? this.fills.index(solid(style.background)) : 0,
          borderId: this.borders.index(borderXml(style.border)),
          xfId: 0,
          quotePrefix: quoted ? 1 : undefined,
          applyNumberFormat: numFmtId === 0 ? undefined : 1,
          applyFont: 1,
          applyFill: style.background ? 1 : undefined,
          applyBorder: style.border ? 1 : undefined,
          applyAlignment: 1,
          applyProtection: unlocked ? 1 : undefined,
        },
        element("alignment", {
          horizontal: style.align,
          vertical: "center",
          wrapText: style.wrap ? 1 : undefined,
          // A number too long for its column is drawn smaller, not as a row of signs.
          shrinkToFit: style.shrink ? 1 : undefined,
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
        element("dxfs", { count: toneOrder.length }, ...toneOrder.map(toneXml)),
      ),
    );
  }
}
