import { sides, type BookColourRule, type BookLook, type Edge, type Side } from "../workbook/workbook.ts";
import type { Colours } from "./readColours.ts";
import { all, at, child, isOn, type Element } from "./readXml.ts";

/** A cell's look as read. */
export interface ReadLook {
  readonly look: BookLook;
  readonly unlocked: boolean;
  /** What else the file says of it, which is not kept. */
  readonly lost?: readonly string[];
}

export interface ReadStyles {
  readonly looks: readonly ReadLook[];
  /** The conditional looks, in their order. */
  readonly colours: readonly BookColourRule["look"][];
}

/** Number formats that files name by number alone (ECMA-376 part 1, 18.8.30). */
const known: ReadonlyMap<string, string> = new Map([
  ["1", "0"],
  ["2", "0.00"],
  ["3", "#,##0"],
  ["4", "#,##0.00"],
  ["9", "0%"],
  ["10", "0.00%"],
  ["11", "0.00E+00"],
  ["12", "# ?/?"],
  ["13", "# ??/??"],
  ["14", "mm-dd-yy"],
  ["15", "d-mmm-yy"],
  ["16", "d-mmm"],
  ["17", "mmm-yy"],
  ["18", "h:mm AM/PM"],
  ["19", "h:mm:ss AM/PM"],
  ["20", "h:mm"],
  ["21", "h:mm:ss"],
  ["22", "m/d/yy h:mm"],
  ["37", "#,##0 ;(#,##0)"],
  ["38", "#,##0 ;[Red](#,##0)"],
  ["39", "#,##0.00;(#,##0.00)"],
  ["40", "#,##0.00;[Red](#,##0.00)"],
  ["45", "mm:ss"],
  ["46", "[h]:mm:ss"],
  ["47", "mmss.0"],
  ["48", "##0.0E+0"],
  ["49", "@"],
]);

type Font = Pick<BookLook, "font" | "size" | "bold" | "italic" | "underline" | "strike" | "color">;

function fontOf(font: Element | undefined, colours: Colours): Font {
  const name = child(font, "name")?.attributes["val"];
  const size = child(font, "sz")?.attributes["val"];
  const color = colours(child(font, "color"));
  const underline = child(font, "u");
  const on = (tag: string): boolean => {
    const one = child(font, tag);
    return one !== undefined && isOn(one.attributes["val"] ?? "1");
  };
  return {
    ...(name !== undefined && { font: name }),
    ...(size !== undefined && { size: Number(size) }),
    ...(on("b") && { bold: true as const }),
    ...(on("i") && { italic: true as const }),
    ...(underline && underline.attributes["val"] !== "none" && { underline: true as const }),
    ...(on("strike") && { strike: true as const }),
    ...(color !== undefined && { color }),
  };
}

function backgroundOf(fill: Element, colours: Colours): string | undefined {
  const pattern = child(fill, "patternFill");
  return pattern?.attributes["patternType"] === "solid" ? colours(child(pattern, "fgColor")) : undefined;
}

/** What of a cell's letters, of what is behind them and of its lines is not kept, each with the words that say so. */
const lostOf = {
  font: (font: Element): string | undefined => {
    if (["superscript", "subscript"].includes(child(font, "vertAlign")?.attributes["val"] ?? ""))
      return "cells whose letters are all raised or lowered: shown as others";
    return (child(font, "u")?.attributes["val"] ?? "single").startsWith("double")
      ? "double underlines: shown as single ones"
      : undefined;
  },
  fill: (fill: Element): string | undefined =>
    child(fill, "gradientFill") ||
    !["none", "solid"].includes(child(fill, "patternFill")?.attributes["patternType"] ?? "none")
      ? "patterns and gradients behind cells: not kept"
      : undefined,
  border: (border: Element): string | undefined =>
    (child(border, "diagonal")?.attributes["style"] ?? "none") === "none"
      ? undefined
      : "slanting lines in cells: not kept",
};

function edgesOf(border: Element, colours: Colours): BookLook["edges"] {
  const found = sides.flatMap((side): readonly (readonly [Side, Edge])[] => {
    const one = child(border, side) ?? child(border, side === "left" ? "start" : side === "right" ? "end" : side);
    const line = one?.attributes["style"];
    if (line === undefined || line === "none") return [];
    const color = colours(child(one, "color"));
    return [[side, { line, ...(color !== undefined && { color }) }]];
  });
  return found.length === 0 ? undefined : Object.fromEntries(found);
}

function colourOf(dxf: Element, colours: Colours): BookColourRule["look"] {
  const { bold, italic, underline, strike, color } = fontOf(child(dxf, "font"), colours);
  const pattern = child(child(dxf, "fill"), "patternFill");
  const background = colours(child(pattern, "bgColor")) ?? colours(child(pattern, "fgColor"));
  return {
    ...(bold && { bold }),
    ...(italic && { italic }),
    ...(underline && { underline }),
    ...(strike && { strike }),
    ...(color !== undefined && { color }),
    ...(background !== undefined && { background }),
  };
}

/** Reads the style part. */
export function readStyles(root: Element, colours: Colours): ReadStyles {
  const formats = new Map(
    all(child(root, "numFmts"), "numFmt").map((one) => [one.attributes["numFmtId"], one.attributes["formatCode"]!]),
  );
  const fonts = all(child(root, "fonts"), "font").map((one) => fontOf(one, colours));
  const fills = all(child(root, "fills"), "fill").map((one) => backgroundOf(one, colours));
  const borders = all(child(root, "borders"), "border").map((one) => edgesOf(one, colours));
  const lostBy = (of: keyof typeof lostOf) => all(child(root, `${of}s`), of).map(lostOf[of]);
  const [lostFonts, lostFills, lostBorders] = [lostBy("font"), lostBy("fill"), lostBy("border")];
  const looks = all(at(root, "cellXfs"), "xf").map((xf, i): ReadLook => {
    const { fontId = "0", fillId = "0", borderId = "0", numFmtId = "0" } = xf.attributes;
    const {
      horizontal,
      vertical,
      wrapText,
      shrinkToFit,
      indent,
      textRotation = "0",
    } = child(xf, "alignment")?.attributes ?? {};
    const locked = child(xf, "protection")?.attributes["locked"];
    const unlocked = locked !== undefined && !isOn(locked);
    // The first is the look of the workbook as a whole: cells of which nothing is said.
    if (i === 0) return { look: {}, unlocked };
    const background = fills[Number(fillId)];
    const edges = borders[Number(borderId)];
    const format = formats.get(numFmtId) ?? known.get(numFmtId);
    const look: BookLook = {
      ...fonts[Number(fontId)],
      ...(background !== undefined && { background }),
      ...(edges && { edges }),
      ...(horizontal !== undefined && horizontal !== "general" && { align: horizontal }),
      ...(vertical !== undefined && { vertical }),
      ...(indent !== undefined && Number(indent) > 0 && { indent: Number(indent) }),
      ...(isOn(wrapText) && { wrap: true as const }),
      ...(isOn(shrinkToFit) && { shrink: true as const }),
      ...(format !== undefined && format !== "General" && { format }),
    };
    const turned = textRotation === "0" ? undefined : "turned texts: shown level";
    const lost = [lostFonts[Number(fontId)], lostFills[Number(fillId)], lostBorders[Number(borderId)], turned].filter(
      (what) => what !== undefined,
    );
    return { look, unlocked, ...(lost.length > 0 && { lost }) };
  });
  return { looks, colours: all(child(root, "dxfs"), "dxf").map((one) => colourOf(one, colours)) };
}
